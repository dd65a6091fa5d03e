"""What authors wrote, made fit to stand in a terminal and in Markdown: it can neither command nor mark up."""

from __future__ import annotations

import re

from generator.source.characters import UNSEEN

_MARKUP = re.compile(r"([\\*_\[\]<>&|#~$!@])")


def visible(text: str) -> str:
    """Without signs that a terminal would obey or that turn the text around."""
    return UNSEEN.sub("\ufffd", text)


def plain_markdown(text: str) -> str:
    """Text that stands for itself in Markdown; what the message itself sets in backquotes stays code."""
    pieces = visible(text).split("`")
    if len(pieces) % 2 == 0:
        return "\\`".join(_MARKUP.sub(r"\\\1", piece) for piece in pieces)
    return "".join(f"`{piece}`" if index % 2 else _MARKUP.sub(r"\\\1", piece) for index, piece in enumerate(pieces))
