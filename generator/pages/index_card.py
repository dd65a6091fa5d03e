"""The index card of a device: what a published index comes to, laid out so that the working is the figure."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from markupsafe import Markup

from generator.figures.index_line.drawing import class_figure, score_figure
from generator.figures.index_line.geometry import ClassLine, class_line, score_line
from generator.indices.own_measure import SAYS, Effort
from generator.indices.scores import Scores
from generator.indices.workings import Criterion, Effect, Index
from generator.languages import later, say, say_many
from generator.orders.guide import Guide
from generator.pages.addresses import DEVICE, WORKINGS, anchor
from generator.pages.score_words import cell_words, classes_words, decimals, span_words, sum_words
from generator.pages.typography import about_minutes, capital, held, listed

NO_INDEX = later(
    "No index is computed for this kind of device: the published ones known here are for smartphones, for tablets and for "
    "household tumble dryers. What can be counted without one stands here."
)


def measure_words() -> str:
    """What the measure of our own is, and is not."""
    return say("Our own measure, of no act. {says}", says=say(SAYS))


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
class PointsRow:
    """A part of the act and what each criterion gives it, in the order of the columns."""

    name: str
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PointsView:
    """The points of each part, where they are all that can be given.

    columns: name and address of each criterion; others: the same of those that are about no part, each with its points.
    """

    columns: tuple[tuple[str, str], ...]
    rows: tuple[PointsRow, ...]
    others: tuple[tuple[str, str, str], ...]


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
    points: PointsView | None = None


def card_of(guide: Guide, scores: Scores, ident: str) -> CardView:
    """The card of the device. ident: prefix of the ids of its figure, unique on its page."""
    index = scores.index
    rows = effort_rows(guide, scores.efforts)
    if index is None:
        return CardView(
            has_index=False, no_index=say(NO_INDEX), name="", source="", statement="", scale="", rows=(), weight_sum="",
            product_sum="", line=Markup(""), verdict="", from_guide="", withheld="", outside=(), unknown=(), readings="",
            differing=(), workings_href=WORKINGS, workings_label=_label(scores), measure=measure_words(), efforts=rows,
        )  # fmt: skip
    readings = reading_rows(index)
    differing = tuple(row for row in readings if row.makes_difference)
    return CardView(
        has_index=True,
        no_index="",
        name=capital(say(index.name)),
        source=say(
            "{act}, {version}; applies from {day}.",
            act=say(index.act),
            version=say(index.version),
            day=say(index.applies),
        ),
        statement=say(index.statement),
        scale=say("{low} to {high}", low=index.scale[0], high=index.scale[1]),
        rows=tuple(_score_row(criterion, index) for criterion in index.criteria),
        weight_sum=_weight_sum(index),
        product_sum=span_words(index.low, index.high, 4) if index.low is not None and index.high is not None else "",
        line=_class_line(index, ident),
        verdict=_verdict(index),
        from_guide=say(
            "Of the sum, what was counted from the guide gives {points}; the rest is declared by the maker or not known.",
            points=span_words(*index.from_guide, 4),
        )
        if index.from_guide and not index.withheld
        else "",
        withheld=say(index.withheld) if index.withheld else "",
        outside=tuple(capital(words) for words in index.outside),
        unknown=tuple(UnknownRow(capital(entry.fact.words), decimals(entry.width, 4)) for entry in index.widths),
        readings=_readings_words(readings, differing),
        differing=differing,
        workings_href=WORKINGS,
        workings_label=say("Open the workings: every number, line by line"),
        measure="",
        efforts=(),
        points=_points(index) if index.withheld else None,
    )


def _points(index: Index) -> PointsView:
    partwise = [criterion for criterion in index.criteria if all(cell.code != criterion.code for cell in criterion.cells)]
    codes = dict.fromkeys((cell.code, cell.name) for criterion in partwise for cell in criterion.cells)
    figures = {(cell.criterion, cell.code): cell_words(cell) for cell in index.cells}
    return PointsView(
        columns=tuple((capital(say(criterion.name)), _working(criterion)) for criterion in partwise),
        rows=tuple(
            PointsRow(capital(say(name)), tuple(figures.get((criterion.code, code), "") for criterion in partwise))
            for code, name in codes
        ),
        others=tuple(
            (capital(say(criterion.name)), _working(criterion), cell_words(cell))
            for criterion in index.criteria
            if criterion not in partwise
            for cell in criterion.cells
        ),
    )


def _working(criterion: Criterion) -> str:
    return f"{WORKINGS}#{anchor('criterion', criterion.code)}"


def reading_rows(index: Index) -> tuple[ReadingRow, ...]:
    """Every open question of the act, with what other readings would do."""
    rows = []
    for taken in index.chosen:
        effects = [effect for effect in index.effects if effect.question == taken.question]
        rows.append(
            ReadingRow(
                id=anchor("reading", taken.question.name),
                asks=say(taken.question.asks),
                taken=say(taken.option.words),
                others=tuple(f"{capital(say(effect.option.words))}: {_effect(index, effect)}" for effect in effects),
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
    return say("The yes or no checks, and what they rest on") if scores.checks else say("The workings of these counts")


def _score_row(criterion: Criterion, index: Index) -> ScoreRow:
    href = _working(criterion)
    name = capital(say(criterion.name))
    if criterion.weight is None or criterion.low is None or criterion.high is None or criterion.product is None:
        return ScoreRow(name, href, say("not known"), Markup(""), say("part by part"), "")
    return ScoreRow(
        name=name,
        href=href,
        weight=decimals(criterion.weight, 2),
        line=Markup(score_figure(score_line(criterion.low, criterion.high, index.scale))),
        score=span_words(criterion.low, criterion.high, 2),
        product=span_words(*criterion.product, 4),
    )


def _weight_sum(index: Index) -> str:
    weights = [criterion.weight for criterion in index.criteria if criterion.weight is not None]
    return decimals(sum(weights, Decimal(0)), 2) if len(weights) == len(index.criteria) else ""


def _class_line(index: Index, ident: str) -> Markup:
    line = index_line(index)
    if line is None:
        return Markup("")
    bounds = ", ".join(
        say("{letter} from {bound}", letter=rung.letter, bound=decimals(rung.bound, 2)) for rung in index.ladder
    )
    title = say("The sum on the line from {low} to {high}", low=index.scale[0], high=index.scale[1])
    classes = say("The classes: {bounds}.", bounds=bounds)
    return Markup(class_figure(line, ident, title, f"{_verdict(index)} {classes}"))


def _verdict(index: Index) -> str:
    if index.low is None or index.high is None:
        return ""
    told = {
        "sum": sum_words(index),
        "exact": span_words(index.low, index.high, 4),
        "classes": classes_words(index),
    }
    if index.outside:
        return say(
            "No index: outside the scale. With the fewest points for what is outside {sum}, exactly {exact}, {classes}.",
            **told,
        )
    return say("Index {sum}, exactly {exact}, {classes}.", **told)


def _readings_words(readings: tuple[ReadingRow, ...], differing: tuple[ReadingRow, ...]) -> str:
    if not readings:
        return ""
    start = say_many(
        "The act can be read in more than one way in {n}~place.",
        "The act can be read in more than one way in {n}~places.",
        len(readings),
    )
    if not differing:
        return f"{start} {say('No other reading changes the result.')}"
    changes = say_many(
        "Another reading changes the result in one of them:",
        "Another reading changes the result in {n} of them:",
        len(differing),
    )
    return f"{start} {changes}"


def _differs(index: Index, effect: Effect) -> bool:
    return (effect.low, effect.high, effect.classes) != (index.low, index.high, index.classes)


def _effect(index: Index, effect: Effect) -> str:
    if not _differs(index, effect):
        return say("no difference.")
    points = span_words(effect.low, effect.high, 4)
    return say("{points}, class {classes}.", points=points, classes=listed(effect.classes, "or"))


def _effort_row(guide: Guide, effort: Effort) -> EffortRow:
    name = guide.part(effort.part).name
    href = f"{DEVICE}#{anchor('part', effort.part)}"
    if not effort.is_reached:
        return EffortRow(name, href, "", "", "", "", "", "", say("no way in this guide takes it out"))
    lost = [(guide.joint(joint).name, count) for joint, count in effort.not_reusable]
    which = [f"{joint} ({count})" if count > 1 else joint for joint, count in lost]
    unsaid = [guide.joint(joint).name for joint in effort.unsaid]
    told = [", ".join(which)] if which else []
    told += [say("not said of {joints}", joints=listed(unsaid))] if unsaid else []
    return EffortRow(
        part=name,
        href=href,
        steps=str(effort.steps),
        actions=str(effort.actions),
        tool_changes=str(effort.tool_changes),
        minutes=about_minutes(effort.seconds) if effort.seconds is not None else say("not given"),
        lost=str(sum(count for _, count in lost)),
        which=held("; ".join(told)),
        no_way="",
    )
