"""The author's own prose as a page sets it."""

from __future__ import annotations

import re

from markupsafe import Markup

from generator.languages import direction
from generator.orders.guide import Guide
from generator.pages.addresses import LinkOf
from generator.pages.typography import held_html
from generator.source.prose import Prose, render_prose

_HEADING = re.compile(r"<(/?)h([1-6])>")


def prose_html(prose: Prose | None, link_of: LinkOf, foreign: str = "") -> Markup:
    """Safe HTML with its references linked, its headings below those of the page; nothing for no prose.

    foreign: the language of the words where it is not that of the page.
    """
    if prose is None:
        return Markup()
    html = Markup(held_html(lowered(render_prose(prose, link_of))))
    return Markup('<div lang="{}" dir="{}">\n{}</div>\n').format(foreign, direction(foreign), html) if foreign else html


def foreign_language(guide: Guide, name: str) -> str:
    """The language of a text of the author's that has no translation; empty where it is that of the page.

    name: as in `Guide.foreign`.
    """
    return guide.language if name in guide.foreign else ""


def lowered(html: str, top: int = 4) -> str:
    """The headings moved so that the highest is `top` and none skips a level; six is the lowest there is.

    Prose stands below an h3. Tags are only made by the renderer, so what looks like a heading is one.

    >>> lowered("<h1>a</h1><h3>b</h3>")
    '<h4>a</h4><h5>b</h5>'
    """
    levels = sorted({found[2] for found in _HEADING.finditer(html)})
    return _HEADING.sub(lambda found: f"<{found[1]}h{min(6, top + levels.index(found[2]))}>", html)
