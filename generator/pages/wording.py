"""The author's own prose as a page sets it."""

from __future__ import annotations

import re

from markupsafe import Markup

from generator.pages.addresses import LinkOf
from generator.pages.typography import held_html
from generator.source.prose import Prose, render_prose

_HEADING = re.compile(r"<(/?)h([1-6])>")


def prose_html(prose: Prose | None, link_of: LinkOf) -> Markup:
    """Safe HTML with its references linked, its headings below those of the page; nothing for no prose."""
    return Markup(held_html(lowered(render_prose(prose, link_of)))) if prose is not None else Markup()


def lowered(html: str, top: int = 4) -> str:
    """The headings moved so that the highest is `top` and none skips a level; six is the lowest there is.

    Prose stands below an h3. Tags are only made by the renderer, so what looks like a heading is one.

    >>> lowered("<h1>a</h1><h3>b</h3>")
    '<h4>a</h4><h5>b</h5>'
    """
    levels = sorted({found[2] for found in _HEADING.finditer(html)})
    return _HEADING.sub(lambda found: f"<{found[1]}h{min(6, top + levels.index(found[2]))}>", html)
