"""The page that tells authors what is looked at before a guide is published: every rule, from its own explanation.

Rules speak to authors and so in English, in every library; the page stands once, with the pages of the first language.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import groupby

from markupsafe import Markup

from generator.orders.guide import Library
from generator.pages.addresses import RULES_PAGE
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.rules.explanations import HEADINGS, documentation, summaries
from generator.source.prose import read_prose, render_prose

TITLE = "What is checked before a guide is published"
LEDE = (
    "Each rule with its reason, a bad and a good example, and when it is silent. A guide with an error is not published; "
    "a warning is worth putting right; a note is worth knowing."
)
_LABEL = re.compile(rf"^({'|'.join(map(re.escape, HEADINGS))})\s*", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class RuleEntry:
    """A rule as `partway explain` tells it, as HTML; pieces: why, a bad and a good example, when it is silent."""

    id: str
    anchor: str
    level: str
    summary: Markup
    pieces: tuple[Markup, ...]


@dataclass(frozen=True, slots=True)
class RuleFamily:
    """The rules whose ids begin alike."""

    id: str
    name: str
    rules: tuple[RuleEntry, ...]


@dataclass(frozen=True, slots=True)
class RulesPage:
    frame: FrameView
    title: str
    lede: str
    families: tuple[RuleFamily, ...]


def rules_page(library: Library) -> RulesPage:
    """The page of a library; nothing on it but links and imprint depends on the library."""
    frame = frame_of(
        library,
        path=RULES_PAGE,
        title=f"{TITLE} – {library.title}",
        description=LEDE,
        crumbs=(Crumb(library.title, "index.html"), Crumb(TITLE, "")),
        skip=("#rules", "Skip to the rules"),
    )
    entries = sorted((_entry(id, level) for id, level, _ in summaries()), key=lambda entry: entry.id.partition("/")[0])
    families = tuple(
        RuleFamily(f"family-{name}", name, tuple(rules))
        for name, rules in groupby(entries, key=lambda entry: entry.id.partition("/")[0])
    )
    return RulesPage(frame=replace(frame, languages=()), title=TITLE, lede=LEDE, families=families)


def anchor_of(rule: str) -> str:
    """Where on the page a rule stands.

    >>> anchor_of("order/held")
    'order-held'
    """
    return rule.replace("/", "-")


def _entry(rule: str, level: str) -> RuleEntry:
    first, *rest = _LABEL.split(documentation(rule))
    pieces = tuple(_html(f"**{label}** {words}") for label, words in zip(rest[::2], rest[1::2], strict=True))
    return RuleEntry(rule, anchor_of(rule), level, _html(first), pieces)


def _html(words: str) -> Markup:
    return Markup(render_prose(read_prose(words.strip(), ""), lambda scheme, target: None))
