"""Characters: line ends made plain, signs that cannot be seen found, and values made fit to be shown."""

from __future__ import annotations

import re
from typing import Any

from generator.source.faults import BrokenYaml
from generator.source.places import Place

LONGEST_SHOWN = 80  # characters of a value in a message

# Controls, line separators, halves of surrogate pairs, and the marks that turn the direction of the text around what
# follows (Unicode Bidirectional Algorithm, UAX #9): none can be seen, and each can make a line look like another.
UNSEEN = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufeff\ufffe\uffff]")
# What no text file here may hold: controls other than tab and line end.
BAD_IN_TEXT = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f]")
# Also what the YAML parser would take for the end of a line while no editor does.
BAD_IN_YAML = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\ufeff\ud800-\udfff\ufffe\uffff]")


def with_plain_line_ends(text: str) -> str:
    """Without a byte order mark, and with `\\n` as the only end of a line: positions stay as editors show them."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def unseen_character(text: str, file: str, first_line: int, bad: re.Pattern[str]) -> BrokenYaml | None:
    """The first character of `text` that matches `bad`, as a fault with its line and column."""
    match = bad.search(text)
    if match is None:
        return None
    line = first_line + text.count("\n", 0, match.start())
    column = match.start() - text.rfind("\n", 0, match.start())
    return BrokenYaml(
        Place(file, line, column, line, column + 1),
        f"The unseen character U+{ord(match.group()):04X} stands here.",
        "Take it out.",
    )


def shown(value: Any) -> str:
    """A value as a message can show it: what was written, short, and without signs that cannot be seen.

    >>> shown("a\\x1bb"), shown(None), shown([1])
    ('a\ufffdb', 'nothing', 'a list')
    """
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "keys with their values"
    if isinstance(value, list):
        return "a list"
    text = str(getattr(value, "raw", value))[: LONGEST_SHOWN * 8]
    text = UNSEEN.sub("\ufffd", " ".join(text.split("\n")).strip())
    return text if len(text) <= LONGEST_SHOWN else f"{text[: LONGEST_SHOWN - 1]}…"
