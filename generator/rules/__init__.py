"""Every rule, its level, and the findings of guides and libraries.

A rule's id is its path: `order/held` is the function `held` in `rules/order/held.py`, whose docstring is what `partway
explain` shows. The tables below are the one place that says which rules there are and how grave they are.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from importlib import import_module

from generator.orders.guide import Guide, Library
from generator.rules.finding import Finding, Reported
from generator.rules.mends import kept_edits
from generator.source.faults import Fault, RawHtml, UnknownKey

ERRORS = (
    "file/yaml",
    "file/key",
    "file/twice",
    "file/kind",
    "file/path",
    "file/size",
    "file/missing",
    "file/unreadable",
    "time/bad",
    "ref/unknown-part",
    "ref/unknown-joint",
    "ref/unknown-tool",
    "ref/unknown-supply",
    "ref/unknown-step",
    "ref/unknown-face",
    "ref/inside-itself",
    "ref/twice",
    "ref/formerly",
    "order/loop",
    "order/behind",
    "order/bench",
    "order/held",
    "order/under",
    "order/base",
    "order/soften",
    "order/face",
    "order/again",
    "power/mains",
    "power/stored-charge",
    "power/plug-first",
    "power/cell-heat",
    "power/cell-metal",
    "count/fasteners",
    "tool/missing",
    "tool/does-not-fit",
    "media/missing",
    "media/unusable",
    "time/backwards",
    "language/work",
)
"""A guide with one of these is not published: following it would fail or hurt."""

WARNINGS = (
    "file/html",
    "order/gone",
    "order/far",
    "count/words",
    "count/unreturned",
    "ref/unknown-thread",
    "ref/unknown-drive",
    "ref/unused",
    "ref/loose-file",
    "ref/no-page",
    "tool/unfit-material",
    "time/overlap",
    "time/beyond",
    "text/long",
    "text/bare",
    "media/alt",
    "media/alt-twice",
    "media/licence",
    "media/credit",
    "media/pair",
    "caution/missing",
    "caution/late",
    "refit/new-supply",
    "refit/torque",
    "refit/words",
    "shape/outside",
    "shape/screw-off-part",
    "shape/overlap",
    "language/orphan",
    "language/unlisted",
)
"""Worth putting right before others work by it."""

NOTES = (
    "text/many",
    "media/unused",
    "shape/thin",
    "language/missing",
)
"""Worth knowing."""

RULES = (*ERRORS, *WARNINGS, *NOTES)

JUDGED_WHEN_COMPLETE = (
    "order",
    "power",
    "refit",
    "caution",
    "count/unreturned",
    "tool/missing",
    "media/unused",
    "ref/no-page",
)
"""Families, and single rules, that ask about the whole guide: with something left out for a fault they would blame the wrong
thing. They wait until everything could be read and every name points somewhere."""

DEFINED_IN = {
    "ref/unknown-part": "{device}/anatomy.yaml",
    "ref/unknown-joint": "{device}/anatomy.yaml",
    "ref/unknown-face": "{device}/device.yaml",
    "ref/unknown-tool": "tools.yaml",
    "ref/unknown-supply": "supplies.yaml",
    "tool/missing": "tools.yaml",
    "shape/thin": "{device}/anatomy.yaml",
}
"""Where the names and values that a rule misses would stand. With something left out there for a fault the rule is silent:
the fault speaks, once, and not every line that uses the name."""

OF_EITHER = (
    "file/yaml",
    "file/key",
    "file/twice",
    "file/kind",
    "file/path",
    "file/size",
    "file/missing",
    "file/unreadable",
    "file/html",
    "time/bad",
    "ref/unknown-part",
    "ref/unknown-joint",
    "ref/unknown-tool",
    "ref/unknown-supply",
    "ref/unknown-step",
    "ref/unknown-face",
    "language/work",
)
"""Rules about what was read: asked of every guide, and of the library for its shared files."""

OF_THE_LIBRARY = (
    "ref/formerly",
    "ref/unused",
    "media/licence",
    "media/credit",
    "language/missing",
    "language/unlisted",
)
"""Rules that need more than one guide, or a guide and the shared files; the others are asked of each guide."""

OF_A_GUIDE = tuple(rule for rule in RULES if rule not in OF_THE_LIBRARY)


def findings_of(guide: Guide, library: Library) -> tuple[Reported, ...]:
    """What there is to say about one guide, by file, line, column and rule."""
    shared = (found for found in _of_library(library) if found.device == guide.id)
    return _sorted([*_of_guide(guide, library), *shared])


def findings_of_everything(library: Library) -> tuple[Reported, ...]:
    """What there is to say about the shared files and every guide, by file, line, column and rule."""
    found = list(_of_library(library))
    for guide in library.guides:
        found.extend(_of_guide(guide, library))
    return _sorted(found)


def is_judged(guide: Guide) -> bool:
    """Whether the order of the guide is judged; if not, that waits until its errors in reading and in names are mended.

    HTML in the prose is shown as text and leaves nothing out.
    """
    wrong_names = guide.dangling or guide.named_twice or guide.inside_itself
    only_html = bool(guide.faults) and all(isinstance(fault, RawHtml) for fault in guide.faults)
    return guide.is_complete or (only_html and not wrong_names)


def level_of(rule: str) -> str:
    """`error`, `warning` or `note`. KeyError for what is no rule."""
    for level, table in (("error", ERRORS), ("warning", WARNINGS), ("note", NOTES)):
        if rule in table:
            return level
    raise KeyError(rule)


def function_of(rule: str) -> Callable[..., Iterator[Finding]]:
    """The function behind an id: `order/held` is `generator.rules.order.held.held`."""
    family, _, name = rule.replace("-", "_").partition("/")
    function: Callable[..., Iterator[Finding]] = getattr(import_module(f"generator.rules.{family}.{name}"), name)
    return function


def _of_guide(guide: Guide, library: Library) -> Iterator[Reported]:
    faulty = {fault.place.file for fault in (*guide.faults, *library.faults) if _leaves_something_out(fault)}
    for rule in OF_A_GUIDE:
        where = DEFINED_IN.get(rule, "").replace("{device}", guide.id)
        if (is_judged(guide) or not _waits(rule)) and where not in faulty:
            yield from _reported(rule, function_of(rule)(guide), library, lambda finding: guide.id)


def _of_library(library: Library) -> Iterator[Reported]:
    devices = {guide.id for guide in library.guides}

    def device_at(finding: Finding) -> str:
        folder = finding.place.file.partition("/")[0]
        return folder if folder in devices else ""

    for rule in (*OF_EITHER, *OF_THE_LIBRARY):
        yield from _reported(rule, function_of(rule)(library), library, device_at)


def _reported(
    rule: str, findings: Iterator[Finding], library: Library, device: Callable[[Finding], str]
) -> Iterator[Reported]:
    for finding in findings:
        kept = replace(finding, mend=kept_edits(finding.mend, library.texts))
        yield Reported(rule, finding.level or level_of(rule), device(finding), kept)


def _leaves_something_out(fault: Fault) -> bool:
    """Whether something that was written is missing from what was read: all faults but a word too many or shown as text."""
    return not isinstance(fault, UnknownKey | RawHtml)


def _waits(rule: str) -> bool:
    return rule in JUDGED_WHEN_COMPLETE or rule.partition("/")[0] in JUDGED_WHEN_COMPLETE


def _sorted(found: Sequence[Reported]) -> tuple[Reported, ...]:
    def key(each: Reported) -> tuple[str, int, int, str, str]:
        place = each.finding.place
        return place.file, place.line, place.column, each.rule, each.finding.message

    return tuple(sorted(found, key=key))
