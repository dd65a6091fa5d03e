"""The workings page of a device: every number of its scores opens onto the lines it was made from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.indices.checks import Answer, Check, Found
from generator.indices.scores import Scores
from generator.indices.workings import Basis, Cell, Criterion, Index, Line
from generator.languages import later, say
from generator.orders.guide import Guide
from generator.orders.routes import Route
from generator.orders.work import StepId
from generator.pages.addresses import DEVICE, WHOLE, WORKINGS, anchor, source_address
from generator.pages.frame import Crumb, Fact, FrameView, frame_of
from generator.pages.index_card import CardView, EffortRow, ReadingRow, card_of, effort_rows, measure_words, reading_rows
from generator.pages.score_words import (
    amounts_words,
    cell_words,
    classes_words,
    decimals,
    points_words,
    span_words,
    sum_words,
    tag_words,
)
from generator.pages.survey import Survey, up_to_stop
from generator.pages.typography import capital, held, sentence

ANSWERS = {Answer.YES: later("yes"), Answer.NO: later("no"), Answer.OPEN: later("not settled")}

NOT_SHOWN = later("work that is for licensed practice only, and not shown in this guide")


@dataclass(frozen=True, slots=True)
class Cite:
    """The rule a line rests on: its number on the page and how well it is known."""

    number: int
    href: str
    tag: str


@dataclass(frozen=True, slots=True)
class LineView:
    """One line of a working. amount in brackets does not enter the sum; step_href is empty where no step is named."""

    amount: str
    words: str
    step: str
    step_href: str
    cite: Cite


@dataclass(frozen=True, slots=True)
class CellView:
    id: str
    name: str
    figures: str
    weight: str
    lines: tuple[LineView, ...]
    besides: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CriterionView:
    """formula: weight times score and what it gives; empty where the weights are not known."""

    id: str
    name: str
    formula: str
    cite: Cite
    cells: tuple[CellView, ...]


@dataclass(frozen=True, slots=True)
class FoundView:
    answer: str
    words: str
    step: str
    step_href: str


@dataclass(frozen=True, slots=True)
class CheckView:
    part: str
    name: str
    answer: str
    found: tuple[FoundView, ...]
    not_known: str
    cite: Cite


@dataclass(frozen=True, slots=True)
class RuleView:
    id: str
    number: int
    act: str
    says: str
    source: str
    tag: str


@dataclass(frozen=True, slots=True)
class WorkingsPage:
    """has_index: whether a published index stands on the page; card has its table and its line."""

    frame: FrameView
    name: str
    lede: str
    block: tuple[Fact, ...]
    card: CardView
    criteria: tuple[CriterionView, ...]
    sum_cites: tuple[Cite, ...]
    readings: tuple[ReadingRow, ...]
    notes: tuple[str, ...]
    checks: tuple[CheckView, ...]
    measure: str
    efforts: tuple[EffortRow, ...]
    rules: tuple[RuleView, ...]


class _Rules:
    """The rules cited, numbered as they come up."""

    def __init__(self) -> None:
        self.numbers: dict[Basis, int] = {}

    def cite(self, basis: Basis) -> Cite:
        number = self.numbers.setdefault(basis, len(self.numbers) + 1)
        return Cite(number, f"#{anchor('rule', str(number))}", tag_words(basis.tag))

    def views(self) -> tuple[RuleView, ...]:
        return tuple(
            RuleView(
                id=anchor("rule", str(number)),
                number=number,
                act=f"{say(basis.act)}, {say(basis.clause)}",
                says=sentence(say(basis.says)),
                source=sentence(say(basis.source)),
                tag=capital(tag_words(basis.tag)),
            )
            for basis, number in self.numbers.items()
        )


def workings_page(survey: Survey, scores: Scores) -> WorkingsPage:
    """The page of a device's scores, in the order of the report that the program prints."""
    guide, index = survey.guide, scores.index
    rules = _Rules()
    steps = _Steps(survey)
    criteria = tuple(_criterion(criterion, rules, steps) for criterion in index.criteria) if index else ()
    sum_cites = tuple(rules.cite(basis) for basis in index.bases) if index else ()
    checks = tuple(_check(guide, check, rules, steps) for check in scores.checks)
    card = card_of(guide, scores, "index-line")
    return WorkingsPage(
        frame=frame_of(
            survey.library,
            path=f"{guide.id}/{WORKINGS}",
            title=f"{say('{device}, the workings', device=guide.device.name)} – {survey.library.title}",
            description=say("{device}: how its scores were worked out, line by line.", device=guide.device.name),
            crumbs=(
                Crumb(survey.library.title, "../index.html"),
                Crumb(guide.device.name, DEVICE),
                Crumb(say("The workings"), ""),
            ),
            skip=("#sum", say("Skip to the sum")) if index else ("#measure", say("Skip to the counts")),
            source_href=source_address(survey.library.sources, f"{guide.id}/device.yaml"),
        ),
        name=guide.device.name,
        lede=say(index.statement) if index else card.no_index,
        block=_block(index),
        card=card,
        criteria=criteria,
        sum_cites=sum_cites,
        readings=reading_rows(index) if index else (),
        notes=tuple(say(note) for note in index.notes) if index else (),
        checks=checks,
        measure=measure_words(),
        efforts=effort_rows(guide, scores.efforts),
        rules=rules.views(),
    )


def _block(index: Index | None) -> tuple[Fact, ...]:
    if index is None:
        return (Fact(say("Index"), say("none for this kind")),)
    facts = [
        Fact(say("Act"), say(index.act)),
        Fact(say("Text"), say(index.version)),
        Fact(say("Applies"), say("from {day}", day=say(index.applies))),
    ]
    if index.low is not None:
        facts += [
            Fact(say("Index"), f"{sum_words(index)}, {classes_words(index)}"),
            Fact(say("Standing"), say("own estimate")),
        ]
    return tuple(facts)


class _Steps:
    """Where a step of a working is linked to, and which work is shown to nobody."""

    def __init__(self, survey: Survey) -> None:
        self.guide = survey.guide
        ways = [up_to_stop(survey.guide, way.steps)[0] for way in survey.ways.values() if isinstance(way, Route)]
        self.shown = {step.id for run in (survey.shown, *ways) for step in run}

    def is_shown(self, step: StepId | None) -> bool:
        return step is None or step in self.shown

    def link(self, step: StepId | None) -> tuple[str, str]:
        """The words for a step and its address; both empty for none."""
        if step is None or step not in self.guide.step_by_id:
            return "", ""
        number = self.guide.number_of.get(step)
        words = say("step~{number}", number=number) if number else self.guide.step_by_id[step].title
        return words, f"{WHOLE}#{anchor('step', step)}"


def _criterion(criterion: Criterion, rules: _Rules, steps: _Steps) -> CriterionView:
    formula = ""
    if criterion.weight is not None and criterion.low is not None and criterion.high is not None and criterion.product:
        score = span_words(criterion.low, criterion.high, 2)
        formula = say(
            "weight {weight} × score {score} = {product}",
            weight=decimals(criterion.weight, 2),
            score=score,
            product=span_words(*criterion.product, 4),
        )
    return CriterionView(
        id=anchor("criterion", criterion.code),
        name=capital(say(criterion.name)),
        formula=formula,
        cite=rules.cite(criterion.basis),
        cells=tuple(_cell(cell, rules, steps) for cell in criterion.cells),
    )


def _cell(cell: Cell, rules: _Rules, steps: _Steps) -> CellView:
    besides = [
        say("Beside it, {words}, {points}", words=say(beside.words), points=points_words(beside.low, beside.high))
        for beside in cell.beside
    ]
    return CellView(
        id=anchor("cell", f"{cell.criterion}-{cell.code}"),
        name=capital(say(cell.name)),
        figures=cell_words(cell),
        weight=say("weight {weight}", weight=decimals(cell.weight, 2))
        if cell.weight is not None and cell.code != cell.criterion
        else "",
        lines=tuple(_line(cell, line, rules, steps) for line in cell.lines),
        besides=tuple(sentence(words) for words in (*besides, *cell.notes)),
    )


def _line(cell: Cell, line: Line, rules: _Rules, steps: _Steps) -> LineView:
    amount = amounts_words(line.amounts)
    if cell.steps and line.amounts:
        amount = f"+{amount}"
    words = line.words if steps.is_shown(line.step) else say(NOT_SHOWN)
    return LineView(
        amount if line.is_counted else f"({amount})", capital(held(words)), *steps.link(line.step), rules.cite(line.basis)
    )


def _check(guide: Guide, check: Check, rules: _Rules, steps: _Steps) -> CheckView:
    return CheckView(
        part=capital(guide.part(check.part).name),
        name=say(check.name),
        answer=say(ANSWERS[check.answer]),
        found=_found(check.found, steps),
        not_known=f"{'; '.join(say(words) for words in check.not_known)}." if check.not_known else "",
        cite=rules.cite(check.basis),
    )


def _found(found: Sequence[Found], steps: _Steps) -> tuple[FoundView, ...]:
    return tuple(
        FoundView(capital(say(ANSWERS[one.answer])), held(one.words), *steps.link(one.step)) for one in found
    )
