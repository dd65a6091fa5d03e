"""Style for a drawing that stands alone: the theme's rules with its light colours written out."""

from __future__ import annotations

import re
from collections.abc import Sequence

from generator.pages.theme import Theme

_TOKEN = re.compile(r"(--[a-z0-9-]+)\s*:\s*([^;]+);")
_USE = re.compile(r"var\((--[a-z0-9-]+)\)")


def plain_style(theme: Theme, components: Sequence[str]) -> str:
    """The sheets of these components without media queries, every token replaced by its first, light value."""
    sheets = {name: content for name, content in theme.files if isinstance(content, str)}
    tokens = tokens_of(theme)
    rules = [sheets["cover.css"], *(sheets[f"components/{name}/{name}.css"] for name in components)]
    return _USE.sub(lambda found: tokens[found[1]], _without_queries("\n".join(rules)))


def tokens_of(theme: Theme) -> dict[str, str]:
    """The theme's tokens with their first value, which is the one for light screens."""
    tokens: dict[str, str] = {}
    sheet = dict(theme.files)["tokens.css"]
    for name, value in _TOKEN.findall(sheet if isinstance(sheet, str) else sheet.decode("utf-8")):
        tokens.setdefault(name, value.strip())
    return tokens


def _without_queries(sheet: str) -> str:
    """Rules that hold everywhere: comments and blocks that begin with @ are left out."""
    sheet = re.sub(r"/\*.*?\*/", "", sheet, flags=re.DOTALL)
    return re.sub(r"@[^{;]*\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}", "", sheet).strip()
