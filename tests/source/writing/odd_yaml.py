"""Data written as odd as the format allows: keys in any order, any quotes, brackets, indents, blank lines and comments."""

from __future__ import annotations

import json
from random import Random
from typing import Any

from generator.source.yaml_tree import read_yaml

WORDS = (
    "cover",
    "no",
    "on",
    "1:30",
    "0x1F",
    "3.0",
    "010",
    "a  b",
    "it's",
    'say "so"',
    "x: y",
    "# five",
    "a # b",
    "- dash",
    "[a]",
    "{b",
    "50 % of it",
    "*star",
    "&and",
    "!bang",
    "| pipe",
    "> fold",
    "ends:",
    "back\\slash",
    "ä €  µ",
    "tilde ~",
    "@at",
    "`tick`",
    "?",
    "null",
    "a, b",
    "2026-03-12",
    "'",
    '"',
    "%",
    "a very long text that goes on and on, so that it cannot stand on one line of data any more, "
    'and then some more of it: with a colon, a # sign and "quotes" in it',
)
IDS = ("lid", "frame", "board", "pack", "lid-screws", "5", "on", "no", "a1")


def document(random: Random, value: dict[str, Any]) -> str:
    """A mapping as YAML; the seed decides how."""
    lines = [*_remarks(random, ""), *_block(random, value, 0), *_remarks(random, "")]
    if random.random() < 0.1:
        lines = ["---", *lines]
    return "".join(f"{line}\n" for line in lines)


def _remarks(random: Random, pad: str) -> list[str]:
    """Blank lines and comments, on lines of their own."""
    made: list[str] = []
    while random.random() < 0.25:
        made.append(random.choice(["", f"{pad}# note {random.randrange(1000)}", f"{' ' * random.randrange(7)}# far off"]))
    return made


def _behind(random: Random) -> str:
    return (
        f"{' ' * random.randint(1, 3)}#{random.choice(['', ' '])}behind {random.randrange(1000)}"
        if random.random() < 0.15
        else ""
    )


def _block(random: Random, value: Any, indent: int) -> list[str]:
    pad = " " * indent
    lines: list[str] = []
    step = random.choice([2, 2, 3, 4])
    if isinstance(value, dict):
        keys = list(value)
        random.shuffle(keys)
        for key in keys:
            lines += _remarks(random, pad)
            lines += _entry(random, f"{pad}{_quoted_key(random, key)}:", value[key], indent, indent + step)
        return lines
    for each in value:
        lines += _remarks(random, pad)
        if isinstance(each, dict | list) and each and random.random() < 0.6:
            inner = _block(random, each, indent + 2)
            if inner and inner[0].strip() and not inner[0].lstrip().startswith("#"):
                lines += [f"{pad}- {inner[0].lstrip()}", *inner[1:]]
            else:
                lines += [f"{pad}-", *inner]
        else:
            lines += _entry(random, f"{pad}-", each, indent, indent + 2)
    return lines


def _entry(random: Random, head: str, value: Any, indent: int, below: int) -> list[str]:
    if isinstance(value, dict | list):
        if not value or random.random() < 0.5:
            return _flow_lines(random, head, value, below)
        return [f"{head}{_behind(random)}", *_block(random, value, below)]
    if isinstance(value, str) and random.random() < 0.15 and value.strip() == value and not value.startswith("#"):
        sign = random.choice([">-", "|-", ">", "|"])
        return [f"{head} {sign}{_behind(random)}", f"{' ' * (below + 1)}{value}", *random.choice([[], [""]])]
    text = _scalar(random, value, is_in_flow=False)
    if " " in text and text[0] not in "\"'" and "  " not in text and random.random() < 0.1:
        first, rest = text.split(" ", 1)
        if not rest.startswith("#"):
            return [f"{head} {first}", f"{' ' * (below + 1)}{rest}{_behind(random)}"]
    return [f"{head} {text}{_behind(random)}"]


def _flow_lines(random: Random, head: str, value: Any, indent: int) -> list[str]:
    """Brackets on one line, or broken after commas with comments between."""
    pieces = _flow_pieces(random, value)
    lines, line = [], f"{head} "
    for piece in pieces:
        line += piece
        if piece.endswith(", ") and random.random() < 0.1:
            lines.append(line.rstrip() + _behind(random))
            lines += [each for each in _remarks(random, " " * (indent + 1)) if each.strip()]
            line = " " * (indent + 1)
    return [*lines, line + _behind(random)]


def _flow_pieces(random: Random, value: Any) -> list[str]:
    if isinstance(value, dict):
        pieces = ["{"]
        for number, (key, each) in enumerate(value.items()):
            if number:
                pieces[-1] += ", "
            pieces.append(f"{_quoted_key(random, key)}: ")
            pieces += _flow_pieces(random, each)
        return [*pieces, "}"]
    if isinstance(value, list):
        pieces = ["["]
        for number, each in enumerate(value):
            if number:
                pieces[-1] += ", "
            pieces += _flow_pieces(random, each)
        return [*pieces, "]"]
    return [_scalar(random, value, is_in_flow=True)]


def _quoted_key(random: Random, key: str) -> str:
    return random.choice([key, key, key, f'"{key}"', f"'{key}'"])


def _scalar(random: Random, value: Any, is_in_flow: bool) -> str:
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if not isinstance(value, str):
        return str(value)
    ways = [value, value, json.dumps(value, ensure_ascii=random.random() < 0.5), f"'{value.replace(chr(39), chr(39) * 2)}'"]
    random.shuffle(ways)
    for way in ways:
        tree = read_yaml(f"k: [{way}]\n" if is_in_flow else f"k: {way}\n", "")
        if not tree.faults and tree.value == {"k": [value] if is_in_flow else value}:
            return way
    return json.dumps(value)
