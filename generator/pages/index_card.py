"""The index card of a device: what a published index comes to, laid out so that the working is the figure."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.figures.index_line.drawing import class_figure, score_figure
from generator.figures.index_line.geometry import ClassLine, class_line, score_line
from generator.indices.own_measure import SAYS, Effort
from generator.indices.scores import Scores
from generator.indices.workings import Criterion, Effect, Index
from generator.orders.guide import Guide
from generator.pages.addresses import DEVICE, WORKINGS, anchor
from generator.pages.score_words import classes_words, span_words, sum_words
from generator.pages.typography import about_minutes, capital, counted, held, listed

NO_INDEX = (
    "No index is computed for this kind of device: the published ones known here are for smartphones, for tablets and for "
    "household tumble dryers. What can be counted without one stands here."
)
MEASURE = f"Our own measure, of no act. {SAYS}"


@dataclass(frozen=True, slots=True)
class ScoreRow:
    """A criterion; line is empty and score says so where the act's weights are not known."""

    name: str
    href: str
    weight: str
    line: Markup
    score: str
    product: str


@dataclass(frozen=True, slots=True)
class UnknownRow:
    """What is not known, and by how much the range narrows once it is."""

    words: str
    width: str


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """A question the act leaves open, the answer taken, and what another answer would make of the index."""

    id: str
    asks: str
    taken: str
    others: tuple[str, ...]
    makes_difference: bool


@dataclass(frozen=True, slots=True)
class EffortRow:
    """What it takes to reach one part. lost: fasteners that cannot go back; which: their names; no_way: why no figures."""

    part: str
    href: str
    steps: str
    actions: str
    tool_changes: str
    minutes: str
    lost: str
    which: str
    no_way: str


@dataclass(frozen=True, slots=True)
class CardView:
    """has_index: whether there is one at all; withheld: why there is no sum; efforts only where there is no index."""

    has_index: bool
    no_index: str
    name: str
    source: str
    statement: str
    scale: str
    rows: tuple[ScoreRow, ...]
    weight_sum: str
    product_sum: str
    line: Markup
    verdict: str
    from_guide: str
    withheld: str
    outside: tuple[str, ...]
    unknown: tuple[UnknownRow, ...]
    readings: str
    differing: tuple[ReadingRow, ...]
    workings_href: str
    workings_label: str
    measure: str
    efforts: tuple[EffortRow, ...]


def card_of(guide: Guide, scores: Scores, ident: str) -> CardView:
    """The card of the device. ident: prefix of the ids of its figure, unique on its page."""
    index = scores.index
    rows = effort_rows(guide, scores.efforts)
    if index is None:
        return CardView(
            has_index=False, no_index=NO_INDEX, name="", source="", statement="", scale="", rows=(), weight_sum="",
            product_sum="", line=Markup(""), verdict="", from_guide="", withheld="", outside=(), unknown=(), readings="",
            differing=(), workings_href=WORKINGS, workings_label=_label(scores), measure=MEASURE, efforts=rows,
        )  # fmt: skip
    readings = reading_rows(index)
    differing = tuple(row for row in readings if row.makes_difference)
    return CardView(
        has_index=True,
        no_index="",
        name=capital(index.name),
        source=f"{index.act}, {index.version}; applies from {index.applies}.",
        statement=index.statement,
        scale=f"{index.scale[0]} to {index.scale[1]}",
        rows=tuple(_score_row(criterion, index) for criterion in index.criteria),
        weight_sum=_weight_sum(index),
        product_sum=span_words(index.low, index.high, 4) if index.low is not None and index.high is not None else "",
        line=_class_line(index, ident),
        verdict=_verdict(index),
        from_guide=f"Of the sum, what was counted from the guide gives {span_words(*index.from_guide, 4)}; the rest is "
        "declared by the maker or not known."
        if index.from_guide and not index.withheld
        else "",
        withheld=index.withheld or "",
        outside=tuple(capital(words) for words in index.outside),
        unknown=tuple(UnknownRow(capital(entry.fact.words), f"{entry.width:.4f}") for entry in index.widths),
        readings=_readings_words(readings, differing),
        differing=differing,
        workings_href=WORKINGS,
        workings_label="Open the workings: every number, line by line",
        measure="",
        efforts=(),
    )


def reading_rows(index: Index) -> tuple[ReadingRow, ...]:
    """Every open question of the act, with what other readings would do."""
    rows = []
    for taken in index.chosen:
        effects = [effect for effect in index.effects if effect.question == taken.question]
        rows.append(
            ReadingRow(
                id=anchor("reading", taken.question.name),
                asks=taken.question.asks,
                taken=taken.option.words,
                others=tuple(f"{capital(effect.option.words)}: {_effect(index, effect)}" for effect in effects),
                makes_difference=any(_differs(index, effect) for effect in effects),
            )
        )
    return tuple(rows)


def effort_rows(guide: Guide, efforts: tuple[Effort, ...]) -> tuple[EffortRow, ...]:
    """The own measure, one line a part."""
    return tuple(_effort_row(guide, effort) for effort in efforts)


def index_line(index: Index) -> ClassLine | None:
    """The sum between the classes; None where no sum can be given."""
    if index.low is None or index.high is None:
        return None
    ladder = [(rung.letter, rung.bound) for rung in index.ladder]
    return class_line(index.scale, ladder, index.classes, index.low, index.high, sum_words(index))


def _label(scores: Scores) -> str:
    return "The yes or no checks, and what they rest on" if scores.checks else "The workings of these counts"


def _score_row(criterion: Criterion, index: Index) -> ScoreRow:
    href = f"{WORKINGS}#{anchor('criterion', criterion.code)}"
    name = capital(criterion.name)
    if criterion.weight is None or criterion.low is None or criterion.high is None or criterion.product is None:
        return ScoreRow(name, href, "not known", Markup(""), "part by part", "")
    return ScoreRow(
        name=name,
        href=href,
        weight=f"{criterion.weight:.2f}",
        line=Markup(score_figure(score_line(criterion.low, criterion.high, index.scale))),
        score=span_words(criterion.low, criterion.high, 2),
        product=span_words(*criterion.product, 4),
    )


def _weight_sum(index: Index) -> str:
    weights = [criterion.weight for criterion in index.criteria if criterion.weight is not None]
    return f"{sum(weights):.2f}" if len(weights) == len(index.criteria) else ""


def _class_line(index: Index, ident: str) -> Markup:
    line = index_line(index)
    if line is None:
        return Markup("")
    bounds = ", ".join(f"{rung.letter} from {rung.bound:.2f}" for rung in index.ladder)
    title = f"The sum on the line from {index.scale[0]} to {index.scale[1]}"
    return Markup(class_figure(line, ident, title, f"{_verdict(index)} The classes: {bounds}."))


def _verdict(index: Index) -> str:
    if index.low is None or index.high is None:
        return ""
    exact = f"exactly {span_words(index.low, index.high, 4)}"
    start = "No index: outside the scale. With the fewest points for what is outside" if index.outside else "Index"
    return f"{start} {sum_words(index)}, {exact}, {classes_words(index)}."


def _readings_words(readings: tuple[ReadingRow, ...], differing: tuple[ReadingRow, ...]) -> str:
    if not readings:
        return ""
    start = f"The act can be read in more than one way in {counted(len(readings), 'place', 'places')}."
    if not differing:
        return f"{start} No other reading changes the result."
    told = "one of them" if len(differing) == 1 else f"{len(differing)} of them"
    return f"{start} Another reading changes the result in {told}:"


def _differs(index: Index, effect: Effect) -> bool:
    return (effect.low, effect.high, effect.classes) != (index.low, index.high, index.classes)


def _effect(index: Index, effect: Effect) -> str:
    if not _differs(index, effect):
        return "no difference."
    return f"{span_words(effect.low, effect.high, 4)}, class {listed(effect.classes, 'or')}."


def _effort_row(guide: Guide, effort: Effort) -> EffortRow:
    name = guide.part(effort.part).name
    href = f"{DEVICE}#{anchor('part', effort.part)}"
    if not effort.is_reached:
        return EffortRow(name, href, "", "", "", "", "", "", "no way in this guide takes it out")
    lost = [(guide.joint(joint).name, count) for joint, count in effort.not_reusable]
    which = [f"{joint} ({count})" if count > 1 else joint for joint, count in lost]
    unsaid = [guide.joint(joint).name for joint in effort.unsaid]
    told = [", ".join(which)] if which else []
    told += [f"not said of {listed(unsaid)}"] if unsaid else []
    return EffortRow(
        part=name,
        href=href,
        steps=str(effort.steps),
        actions=str(effort.actions),
        tool_changes=str(effort.tool_changes),
        minutes=about_minutes(effort.seconds) if effort.seconds is not None else "not given",
        lost=str(sum(count for _, count in lost)),
        which=held("; ".join(told)),
        no_way="",
    )
