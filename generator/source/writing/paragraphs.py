"""Prose set down in one way: paragraphs filled to PROSE_WIDTH, one blank line between blocks, and nothing else touched.

Lists, tables, headings, quotes, code, pictures' and links' words, and paragraphs with a line end that is to be seen stay as
they are. What cannot be filled without being read as something else stays too.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from markdown_it.token import Token

from generator.source.prose import markdown_tokens
from generator.source.writing.layout import PROSE_WIDTH

_WHOLE = re.compile(
    r"(`+)(?!`).*?(?<!`)\1(?!`)"  # code
    r"|!?\[(?:[^\[\]]|\[[^\]]*\])*\]\((?:[^()\s]|\([^()]*\))*(?:\s[^)]*)?\)"  # a link or a picture
)
_STARTS_SOMETHING = re.compile(r"[-+*]$|\d{1,9}[.)]$|#{1,6}$|>|<|[=-]+$|[*_-]{3,}$|```|~~~|\||:?-+:?$|\[[^\]]*\]:")
_UNIT = re.compile(r"(?:mm|cm|m|g|kg|s|min|h|V|A|W|Ω|mAh|Wh|Pa|bar|N|%|°C?|K)\b|[%°Ω]|N·m|µ|℃|×|x ")
_BLANK = re.compile(r"(?<! ) (?! )")


def filled(text: str) -> str:
    """Markdown with its paragraphs filled anew; it is read as before. Ends with one line end, if not empty.

    >>> filled("One\\nline.\\n\\n\\n- a\\n  list\\n")
    'One line.\\n\\n- a\\n  list\\n'
    """
    tokens = markdown_tokens(text)
    was = reading_of(tokens)
    lines = text.split("\n")
    blocks = _blocks(tokens, lines)
    new = _joined(lines, blocks, {number for number, block in enumerate(blocks) if block.words})
    if reading_of(markdown_tokens(new)) == was:
        return new
    kept: set[int] = set()
    for number, block in enumerate(blocks):
        if block.words and reading_of(markdown_tokens(_joined(lines, blocks, kept | {number}))) == was:
            kept.add(number)
    new = _joined(lines, blocks, kept)
    return new if reading_of(markdown_tokens(new)) == was else text


def reading_of(tokens: Sequence[Token]) -> tuple[Any, ...]:
    """What Markdown says, whatever lines it stands on: blocks, and their words with what marks them up."""
    return tuple(_reading(token) for token in tokens)


def _reading(token: Token) -> tuple[Any, ...]:
    content = "" if token.type == "inline" else token.content
    marks = (token.type, token.tag, token.level, token.markup, token.info, tuple(sorted(token.attrs.items())))
    return (*marks, content, _words_of(token.children or ()))


def _words_of(children: Sequence[Token]) -> str:
    parts: list[str] = []
    for child in children:
        if child.type == "softbreak":
            parts.append(" ")
        elif child.type == "text":
            parts.append(child.content)
        else:
            inner = _words_of(child.children or ())
            parts.append(f"\0{child.type}\0{child.markup}\0{sorted(child.attrs.items())}\0{child.content}\0{inner}\0")
    return "".join(parts)


class _Block:
    """Lines first to end (not included) of the text; words: what to fill, in pieces that stay on one line."""

    def __init__(self, first: int, end: int, words: tuple[str, ...]) -> None:
        self.first, self.end, self.words = first, end, words


def _blocks(tokens: Sequence[Token], lines: Sequence[str]) -> list[_Block]:
    found: list[_Block] = []
    for number, token in enumerate(tokens):
        if token.level or token.nesting < 0 or not token.map or token.type == "inline":
            continue
        first, end = token.map
        while end > first and not lines[end - 1].strip():
            end -= 1
        inline = tokens[number + 1] if token.type == "paragraph_open" else None
        is_plain = inline is not None and not any(child.type == "hardbreak" for child in inline.children or ())
        found.append(_Block(first, end, _pieces(lines[first:end]) if is_plain else ()))
    return found


def _pieces(lines: Sequence[str]) -> tuple[str, ...]:
    """The words of a paragraph. Links, code, and a number with its unit stay in one piece, and so does what would start
    something else at the head of a line."""
    text = " ".join(line.strip(" \t") for line in lines)
    held = _WHOLE.sub(lambda match: match[0].replace(" ", "\0"), text)
    pieces: list[str] = []
    for piece in _BLANK.split(held):
        word = piece.replace("\0", " ")
        if pieces and (_STARTS_SOMETHING.match(word) or (pieces[-1][-1:].isdigit() and _UNIT.match(word))):
            pieces[-1] = f"{pieces[-1]} {word}"
        else:
            pieces.append(word)
    return tuple(pieces)


def _joined(lines: Sequence[str], blocks: Sequence[_Block], chosen: set[int]) -> str:
    """All lines, the chosen blocks filled, and between blocks one blank line where there were more."""
    made: list[str] = []
    at = 0
    for number, block in enumerate(blocks):
        made += _gap(lines[at : block.first], is_start=not made)
        made += _fill(block.words) if number in chosen else lines[block.first : block.end]
        at = max(at, block.end)
    made += _gap(lines[at:], is_start=not made)
    while made and not made[-1].strip():
        made.pop()
    return "".join(f"{line}\n" for line in made)


def _gap(lines: Sequence[str], is_start: bool) -> list[str]:
    kept: list[str] = []
    for line in lines:
        if line.strip():
            kept.append(line)
        elif kept[-1:] != [""] and not (is_start and not kept):
            kept.append("")
    return kept


def _fill(words: Sequence[str]) -> list[str]:
    made: list[str] = []
    line = ""
    for word in words:
        if line and len(line) + 1 + len(word) > PROSE_WIDTH:
            made.append(line)
            line = word
        else:
            line = f"{line} {word}" if line else word
    return [*made, line]
