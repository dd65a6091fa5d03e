"""The verdict of a device as a picture for the end of a film, made only when asked for."""

from __future__ import annotations

from collections.abc import Sequence

from generator.figures.end_card.drawing import end_card_figure
from generator.figures.end_card.geometry import end_card
from generator.figures.index_line.geometry import ClassLine
from generator.indices.scores import Scores
from generator.indices.workings import Index
from generator.languages import say
from generator.orders.guide import Guide
from generator.pages.frame import Fact
from generator.pages.index_card import index_line
from generator.pages.score_words import classes_words
from generator.pages.theme import Theme
from generator.pages.tokens import plain_rules, resolved, tokens_of

SHEET = "moving/end-card.css"


def verdict_card(guide: Guide, figures: Sequence[Fact], scores: Scores, theme: Theme) -> str:
    """The card as one SVG. figures: what was counted, as on the page of the device."""
    device, index = guide.device, scores.index
    words = [(fact.label, fact.value) for fact in figures]
    card = end_card(
        device.name,
        device.verdict or device.about or "",
        (device.verdict_author or "") if device.verdict else "",
        words,
        _line(index),
        _foot(index),
    )
    return end_card_figure(card, "end-card", _style(theme))


def _line(index: Index | None) -> ClassLine | None:
    return index_line(index) if index is not None else None


def _foot(index: Index | None) -> str:
    if index is None or index.low is None:
        return ""
    return say("{act}: {classes}. Own estimate, not the label.", act=say(index.act), classes=classes_words(index))


def _style(theme: Theme) -> str:
    files = dict(theme.files)
    rules, tokens = files.get(SHEET, ""), files.get("tokens.css", "")
    return resolved(plain_rules(str(rules)), tokens_of(str(tokens)))
