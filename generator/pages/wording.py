"""The author's own prose as a page sets it."""

from __future__ import annotations

from markupsafe import Markup

from generator.pages.addresses import LinkOf
from generator.pages.typography import held_html
from generator.source.prose import Prose, render_prose


def prose_html(prose: Prose | None, link_of: LinkOf) -> Markup:
    """Safe HTML with its references linked; nothing for no prose."""
    return Markup(held_html(render_prose(prose, link_of))) if prose is not None else Markup()
