"""The end card as a document of its own."""

from __future__ import annotations

from generator.figures.end_card.geometry import HEIGHT, MARGIN, WIDTH, EndCard
from generator.figures.index_line.drawing import class_content
from generator.figures.svg import NAMESPACE, element, escaped, number, text


def end_card_figure(card: EndCard, ident: str, style: str) -> str:
    """style: rules without custom properties, so that any program can draw it; ident: prefix of its ids."""
    x, y = card.line_at
    return element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "class": "end-card",
            "viewBox": f"0 0 {number(WIDTH)} {number(HEIGHT)}",
            "width": WIDTH,
            "height": HEIGHT,
            "role": "img",
            "aria-labelledby": f"{ident}-of",
        },
        element("title", {"id": f"{ident}-of"}, escaped(card.title)),
        element("style", {}, escaped(style)),
        element("rect", {"class": "end-card__ground", "width": WIDTH, "height": HEIGHT}),
        element("path", {"class": "end-card__mark", "d": f"M{number(MARGIN)} {number(MARGIN - 30)}h120"}),
        element(
            "path",
            {
                "class": "end-card__rule",
                "d": "".join(f"M{number(left)} {number(at)}H{number(right)}" for left, right, at in card.rules),
            },
        ),
        element(
            "g",
            {"transform": f"translate({number(x)} {number(y)}) scale({number(card.line_scale)})"},
            *class_content(card.line),
        )
        if card.line
        else "",
        *(text(word.words, {"class": f"end-card__{word.kind}", "x": word.at[0], "y": word.at[1]}) for word in card.words),
    )
