"""Cases of rules, read from Markdown: what is changed in a good content folder, and what is then found.

A case file has a heading for each kind of case: `## Fires`, `## Nearly fires`, `## Mended`; several cases of one kind stand
under `### ...`. Fenced blocks say what is done to a copy of `good`: `change FILE` (old text, a line `=>`, new text; the old
text stands there exactly once), `file FILE` (the whole text), `remove FILE`, `folder FILE`, `bytes FILE` (hexadecimal),
`repeat FILE COUNT` (appended that often). The block `findings` holds the findings as the text report shows them; where there
is none, nothing may be found.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from shutil import copytree

from generator.orders.guide import Library
from generator.orders.reading import read_guides
from generator.source.reading import read_library

HERE = Path(__file__).parent
GOOD = HERE / "good"
KINDS = ("Fires", "Nearly fires", "Mended")

_BLOCK = re.compile(r"^```(?P<info>[^\n`]+)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)
_HEADING = re.compile(r"^(#{2,3}) (.+)$", re.MULTILINE)


@dataclass(frozen=True)
class Case:
    """One case; `start` is where it begins in its file's text. findings: the text of its block, empty if there is none."""

    rule: str
    kind: str
    name: str
    text: str
    start: int

    @property
    def blocks(self) -> list[tuple[str, str]]:
        return [(match["info"].strip(), match["text"]) for match in _BLOCK.finditer(self.text)]

    @property
    def findings(self) -> str:
        return next((text for info, text in self.blocks if info == "findings"), "")


def case_file(rule: str) -> Path:
    return HERE / f"{rule}.md"


def cases_of(rule: str) -> Iterator[Case]:
    """The cases of one rule in the order of its file."""
    text = case_file(rule).read_text(encoding="utf-8")
    plain = _BLOCK.sub(lambda match: " " * len(match[0]), text)
    headings = list(_HEADING.finditer(plain))
    kind = ""
    for index, heading in enumerate(headings):
        end = headings[index + 1].start() if index + 1 < len(headings) else len(text)
        if heading[1] == "##":
            kind = heading[2]
        body = text[heading.end() : end]
        if "```" in body:
            yield Case(rule, kind, heading[2], body, heading.end())


def folder_of(case: Case, folder: Path) -> Path:
    """A copy of the good content in `folder`, with the case's changes made."""
    content = folder / "content"
    copytree(GOOD, content)
    for info, text in case.blocks:
        verb, _, rest = info.partition(" ")
        if verb != "findings":
            _change(content, verb, rest, text)
    return content


def library_of(content: Path) -> Library:
    return read_guides(read_library(content))


def _change(content: Path, verb: str, rest: str, text: str) -> None:
    name, _, count = rest.partition(" ")
    path = content / name
    match verb:
        case "change":
            old, _, new = text.partition("=>\n")
            before = path.read_text(encoding="utf-8")
            assert before.count(old) == 1, f"{name} holds this {before.count(old)} times:\n{old}"
            path.write_text(before.replace(old, new), encoding="utf-8")
        case "file":
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        case "remove":
            path.unlink()
        case "folder":
            path.mkdir(parents=True)
        case "bytes":
            path.write_bytes(bytes.fromhex(text))
        case "repeat":
            path.write_text(path.read_text(encoding="utf-8") + text * int(count), encoding="utf-8")
        case _:
            raise ValueError(f"no such change: {verb}")
