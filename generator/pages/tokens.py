"""The tokens of a theme and plain rules, for pictures that stand alone: no page lends them its style sheet."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_TOKEN = re.compile(r"--([a-z0-9-]+)\s*:\s*([^;}]+)")
_USE = re.compile(r"var\(--([a-z0-9-]+)(?:\s*,\s*([^()]*))?\)")
_DARK = "prefers-color-scheme: dark"


def tokens_of(sheet: str, *, dark: bool = False) -> Mapping[str, str]:
    """The tokens of a theme's `tokens.css` in light, or what dark changes of them."""
    found: dict[str, str] = {}
    for head, body in _blocks(sheet):
        if head == ":root" and not dark:
            found.update(_TOKEN.findall(body))
        elif head.startswith("@media") and _DARK in head and dark:
            found.update(token for inner, rules in _blocks(body) if inner == ":root" for token in _TOKEN.findall(rules))
    return {name: value.strip() for name, value in found.items()}


def plain_rules(*sheets: str) -> str:
    """The rules of sheets, one a line, without what depends on a medium: a picture has no page around it."""
    rules = (f"{head}{{{' '.join(body.split())}}}" for sheet in sheets for head, body in _blocks(sheet) if head[:1] != "@")
    return "\n".join(rules)


def rules_about(rules: str, words: Iterable[str]) -> str:
    """Those of plain rules that name one of the classes."""
    wanted = tuple(f".{word}" for word in words)
    return "\n".join(rule for rule in rules.splitlines() if any(word in rule.partition("{")[0] for word in wanted))


def resolved(rules: str, tokens: Mapping[str, str]) -> str:
    """Rules with the values of tokens in place of their names, for programs that know no custom properties.

    A token that is not there gives way to what the rule has in its stead, or is left out.
    """
    for _ in range(4):  # a value may name a token in turn
        rules = _USE.sub(lambda found: tokens.get(found[1], found[2] or "none"), rules)
    return rules


def declared(tokens: Mapping[str, str], names: Iterable[str]) -> str:
    """The chosen tokens as declarations."""
    return ";".join(f"--{name}:{tokens[name]}" for name in names if name in tokens)


def _blocks(sheet: str) -> Iterable[tuple[str, str]]:
    """Heads and bodies of the outermost blocks."""
    sheet = _COMMENT.sub("", sheet)
    depth, start, head = 0, 0, ""
    for at, sign in enumerate(sheet):
        if sign == "{":
            if depth == 0:
                head, start = sheet[start:at].strip(), at + 1
            depth += 1
        elif sign == "}":
            depth -= 1
            if depth == 0:
                yield head, sheet[start:at].strip()
                start = at + 1
