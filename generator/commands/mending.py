"""Applying mends: only such that leave fewer findings behind, each file rewritten in one go."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import unified_diff
from pathlib import Path
from typing import TYPE_CHECKING

from generator.commands.folders import Unreadable, load_library
from generator.commands.kept_texts import keep
from generator.commands.whole_files import put
from generator.rules import findings_of_everything

if TYPE_CHECKING:
    from generator.rules.finding import Edit, Reported

OLD = ".before-mend"
"""At the end of the name of the file that keeps the text as it was."""


def mend_files(root: Path, only: str | None, findings: Sequence[Reported]) -> Iterator[str]:
    """Apply the mends one finding at a time; a mend that does not lower the number of findings is taken back.

    Gives lines for people: what was changed, as a diff. The text before the first change is kept beside the file, under a
    hidden name; before anything is tried, so that it is there whatever happens.
    """
    seen: set[tuple[str, str, str]] = set()
    kept: dict[str, Path] = {}
    while True:
        mendable = next((f for f in findings if f.finding.mend and f.finding.mend.edits and _key(f) not in seen), None)
        if mendable is None or mendable.finding.mend is None:
            return
        seen.add(_key(mendable))
        before = {edit.place.file: _read(root, edit.place.file) for edit in mendable.finding.mend.edits}
        after = {file: apply_edits(text, [e for e in mendable.finding.mend.edits if e.place.file == file])
                 for file, text in before.items()}
        added = {file: keep(root / file, OLD) for file in after if file not in kept}
        _write_all(root, after)
        now = findings_of_everything(load_library(root, only))
        if len(now) >= len(findings):
            _write_all(root, before)
            for path in added.values():
                path.unlink(missing_ok=True)
            continue
        findings = now
        kept |= added
        for file in sorted(after):
            yield f"{file}: {mendable.finding.mend.text}"
            yield from unified_diff(before[file].splitlines(), after[file].splitlines(), file, file, lineterm="", n=1)
        for file, path in sorted(added.items()):
            yield f"{file}: as it was: {path.name}"


def apply_edits(text: str, edits: Sequence[Edit]) -> str:
    """The text with each edit's stretch replaced; edits may not overlap. Lines and columns count from 1.

    >>> from generator.rules.finding import Edit
    >>> from generator.source.places import Place
    >>> apply_edits("a: 1\\nb: 2\\n", [Edit(Place("f", 2, 4, 2, 5), "3")])
    'a: 1\\nb: 3\\n'
    """
    starts = [0]
    for line in text.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    spans = sorted(
        (starts[e.place.line - 1] + e.place.column - 1, starts[e.place.end_line - 1] + e.place.end_column - 1, e.text)
        for e in edits
    )
    parts: list[str] = []
    at = 0
    for start, end, new in spans:
        parts += [text[at:start], new]
        at = end
    return "".join([*parts, text[at:]])


def _key(reported: Reported) -> tuple[str, str, str]:
    return (reported.rule, reported.finding.message, reported.finding.place.file)


def _read(root: Path, file: str) -> str:
    return (root / file).read_bytes().decode("utf-8")


def _write_all(root: Path, texts: dict[str, str]) -> None:
    for file, text in texts.items():
        _replace(root / file, text)


def _replace(path: Path, text: str) -> None:
    try:
        put(path, text.encode("utf-8"))
    except OSError as error:
        raise Unreadable(f"{path} cannot be written: {error.strerror}. It is as it was.") from error
