"""Content with something wrong in it: whatever is damaged, findings come out whole, in order, and fit to be read."""

from __future__ import annotations

import json
import random
import re
from pathlib import Path
from shutil import copytree

import pytest

from generator.commands.reports import REPORTS, report
from generator.orders.guide import Library
from generator.rules import RULES, findings_of_everything, is_judged
from generator.rules.finding import LEVELS, Reported
from tests.rules.cases import GOOD, library_of

FILES = sorted(path.relative_to(GOOD).as_posix() for path in GOOD.rglob("*") if path.suffix in (".yaml", ".md"))
NEVER_SAID = re.compile(r"\b(?:(?i:illegal|invalid|please|oops)|NoneType|None|str|dict|int|tuple)\b|<class|\{\}|  ")


@pytest.mark.parametrize("seed", range(60))
def test_damaged_content(seed: int, tmp_path: Path) -> None:
    content = tmp_path / "content"
    copytree(GOOD, content)
    dice = random.Random(seed)
    for _ in range(dice.randint(1, 4)):
        _damage(content / dice.choice(FILES), dice)
    library = library_of(content)
    found = findings_of_everything(library)
    assert found == findings_of_everything(library_of(content))
    _look(library, found)


def _look(library: Library, found: tuple[Reported, ...]) -> None:
    keys = [(each.finding.place.file, each.finding.place.line, each.finding.place.column, each.rule) for each in found]
    assert keys == sorted(keys)
    for each in found:
        place = each.finding.place
        assert each.rule in RULES
        assert each.level in LEVELS
        assert each.device in {"", *(guide.id for guide in library.guides)}
        assert (place.line, place.column) <= (place.end_line, place.end_column)
        if place.file in library.texts:
            assert 1 <= place.line <= max(len(library.texts[place.file]), 1)
        mend = [each.finding.mend.text] if each.finding.mend else []
        for text in (each.finding.message, *each.finding.why, *mend):
            ours = re.sub(r'"[^"]*"|`[^`]*`', "x", text)
            assert re.match(r"[^\s]", text)
            assert text.endswith((".", "…")), text
            assert not NEVER_SAID.search(ours), text
    for guide in library.guides:
        errors = [each for each in found if each.level == "error" and each.device in ("", guide.id)]
        assert is_judged(guide) or errors  # a guide whose order was not judged is never published
    for layout in REPORTS:
        assert report(layout, library, found).endswith("\n")
    assert len(json.loads(report("json", library, found))["findings"]) == len(found)


def _damage(path: Path, dice: random.Random) -> None:
    """Take out, double, exchange or spoil one line, or spoil a word."""
    lines = path.read_text("utf-8", errors="replace").splitlines() or [""]
    at = dice.randrange(len(lines))
    other = dice.randrange(len(lines))
    match dice.randrange(6):
        case 0:
            del lines[at]
        case 1:
            lines.insert(at, lines[at])
        case 2:
            lines[at], lines[other] = lines[other], lines[at]
        case 3:
            lines[at] = dice.choice(["", "- x", "a: [", "\tb: 1", "<i>", "[a](part:b)", "&x", "---", "é\u202e"])
        case 4:
            words = re.split(r"(\W+)", lines[at])
            words[dice.randrange(len(words))] = dice.choice(["x", "back-screws", "battery", "90 °C", "front", "undo", "-1"])
            lines[at] = "".join(words)
        case _:
            lines[at] = lines[at][: dice.randint(0, len(lines[at]))]
    path.write_text("\n".join(lines) + "\n", "utf-8")
