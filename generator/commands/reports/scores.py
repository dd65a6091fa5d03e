"""Scores as text that a person can follow line by line, each rule with its source."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from textwrap import wrap

from generator.commands.reports.scores_json import scores_as_json
from generator.indices.checks import Check
from generator.indices.differences import Difference
from generator.indices.motion_times import LEFT_OUT, handling_of, seconds_of
from generator.indices.own_measure import SAYS, Effort
from generator.indices.phones_2023_1669.formula import two_decimals
from generator.indices.scores import Scores
from generator.indices.workings import Basis, Cell, Criterion, Effect, Index, Line, Points
from generator.orders.guide import Guide, minutes
from generator.orders.routes import Route, best_route

WIDTH = 110

__all__ = ["scores_as_json", "scores_as_text"]


def scores_as_text(
    guide: Guide, scores: Scores, motion_times: bool, change: str | None = None, told: Difference | None = None
) -> str:
    """The index with its workings, the checks, the own measure, and the rules that the numbers in brackets stand for.

    change: the change of the design under which all this holds; told: what it does to the index.
    """
    rules = _Rules()
    blocks = [
        _change(change, told) if change is not None else [],
        _index(guide, scores.index, rules) if scores.index else _no_index(guide, scores.no_index or ""),
        _checks(guide, scores.checks, rules),
        _efforts(guide, scores.efforts),
        _handling(guide, scores.efforts) if motion_times else [],
    ]
    blocks.append(rules.lines())
    return "\n".join("".join(f"{line}\n" for line in block) for block in blocks if block)


class _Rules:
    """The rules cited, numbered as they come up."""

    def __init__(self) -> None:
        self.numbers: dict[Basis, int] = {}

    def cite(self, basis: Basis) -> str:
        return f"[{self.numbers.setdefault(basis, len(self.numbers) + 1)}]"

    def lines(self) -> list[str]:
        if not self.numbers:
            return []
        lines = ["Rules, with where they were read and how well they are known"]
        width = len(str(len(self.numbers))) + 2
        for basis, number in self.numbers.items():
            words = f"{basis.act}, {basis.clause}: {basis.says}. {basis.tag.capitalize()}: {basis.source}."
            lines += _wrapped(f"  {f'[{number}]':>{width}} ", words)
        return lines


# --- the index -----------------------------------------------------------------------------------------------------


def _no_index(guide: Guide, words: str) -> list[str]:
    return [f"{guide.device.name}: no index", *_wrapped("", words)]


def _index(guide: Guide, index: Index, rules: _Rules) -> list[str]:
    lines = [f"{guide.device.name}: {index.name}", f"{index.act}, {index.version}; applies from {index.applies}"]
    lines += [index.statement, "", *_verdict(index), ""]
    lines += _table(index, rules)
    if index.widths:
        lines += ["", "What is not known, and by how much the range narrows once it is"]
        lines += [f"  {entry.width:.4f}  {entry.fact.words}" for entry in index.widths]
    for criterion in index.criteria:
        lines += ["", *_criterion(criterion, rules)]
    lines += _readings(index)
    lines += ["", *(line for note in index.notes for line in _wrapped("", note))] if index.notes else []
    if index.bases:
        cited = " ".join(rules.cite(basis) for basis in index.bases)
        lines += _wrapped("", f"The sum, the weights and the classes: {cited}")
    return lines


def _verdict(index: Index) -> Iterator[str]:
    if index.withheld or index.low is None or index.high is None:
        yield from _wrapped("", index.withheld or "")
        return
    value = f"{_span(two_decimals(index.low), two_decimals(index.high), 2)} (exact {_span(index.low, index.high, 4)})"
    classes = f"class {_either(index.classes)}"
    if index.within_rounding_of:
        classes += f", within rounding of {_either(index.within_rounding_of)}"
    if not index.are_classes_exact:
        classes += " (all between the ends; too much is unknown to try each)"
    if index.outside:
        yield "No R: outside the scale."
        for words in index.outside:
            yield from _wrapped("  ", words)
        yield f"With 1 point, the best case, for what is outside: at most {value}, {classes}"
    else:
        yield f"R {value}, {classes}"
    if index.from_guide:
        yield f"Of this the guide gives {_span(*index.from_guide, 4)}; the rest is declared in device.yaml or not known."


def _table(index: Index, rules: _Rules) -> Iterator[str]:
    least, most = index.scale
    yield f"{'Criterion':<22}{'Weight':>7}  {'Score':<14}{'Product':<20}{least} to {most}"
    for criterion in index.criteria:
        weight = f"{criterion.weight:.2f}" if criterion.weight is not None else "?"
        if criterion.low is None or criterion.high is None or criterion.product is None:
            yield f"{criterion.name:<22}{weight:>7}  see below".ljust(65) + rules.cite(criterion.basis)
            continue
        score = _span(criterion.low, criterion.high, 2)
        line = f"{criterion.name:<22}{weight:>7}  {score:<14}{_span(*criterion.product, 4):<20}"
        yield f"{line}{_bar(criterion.low, criterion.high, index.scale)}  {rules.cite(criterion.basis)}"
    if index.low is not None and index.high is not None:
        line = f"{'sum':<22}{'1.00':>7}  {'':<14}{_span(index.low, index.high, 4):<20}"
        yield f"{line}{_bar(index.low, index.high, index.scale)}"


def _bar(low: Decimal, high: Decimal, scale: tuple[int, int], width: int = 21) -> str:
    """The range on a line from the least to the most: `|----==-----|`."""
    least, most = scale
    first = int((low - least) / (most - least) * (width - 1))
    last = int((high - least) / (most - least) * (width - 1))
    return f"|{''.join('=' if first <= place <= last else '-' for place in range(width))}|"


def _criterion(criterion: Criterion, rules: _Rules) -> Iterator[str]:
    yield f"{criterion.name.capitalize()} {rules.cite(criterion.basis)}"
    for cell in criterion.cells:
        yield from _cell(cell, rules)


def _cell(cell: Cell, rules: _Rules) -> Iterator[str]:
    share = f", weight {cell.weight:.2f}" if cell.weight is not None and cell.code != cell.criterion else ""
    outside = ": outside the scale" if cell.outside else ""
    yield f"  {cell.name}: {_figures(cell)}{outside}{share}"
    for line in cell.lines:
        yield from _line(cell, line, rules)
    for beside in cell.beside:
        yield from _wrapped("           ", f"beside it, {beside.words}, {_points(beside.low, beside.high)}")
    for note in cell.notes:
        yield from _wrapped("           ", note)


def _line(cell: Cell, line: Line, rules: _Rules) -> Iterator[str]:
    amounts = " or ".join(str(amount) for amount in line.amounts) if line.amounts else "none"
    if cell.steps and line.amounts:
        amounts = f"+{amounts}"
    mark = amounts if line.is_counted else f"({amounts})"
    step = f", in {line.step}" if line.step else ""
    yield from _wrapped(f"    {mark:>10} ", f"{line.words}{step} {rules.cite(line.basis)}")


def _readings(index: Index) -> Iterator[str]:
    if not index.chosen:
        return
    yield ""
    yield "Readings taken where the act leaves a question open (change one with --reading NAME=VALUE)"
    for taken in index.chosen:
        question = taken.question
        yield from _wrapped("  ", f"{question.name}={taken.option.value}: {question.asks} {taken.option.words}", 4)
        for effect in index.effects:
            if effect.question == question:
                yield f"      with {effect.option.value}: {_difference(index, effect)}"


def _difference(index: Index, effect: Effect) -> str:
    if (effect.low, effect.high, effect.classes) == (index.low, index.high, index.classes):
        return "no difference"
    return f"{_span(effect.low, effect.high, 4)}, class {_either(effect.classes)}"


def _change(change: str, told: Difference | None) -> list[str]:
    lines = _wrapped("If ", f"{change}: all below is of the device so changed; nothing is written.")
    if told is None or told.before.low is None or told.before.high is None:
        return lines
    before, after = told.before, told.after
    lines.append(f"  before  {_span(told.before.low, told.before.high, 4)}, class {_either(before.classes)}")
    if after.low is not None and after.high is not None:
        lines.append(f"  after   {_span(after.low, after.high, 4)}, class {_either(after.classes)}")
    for moved in told.moved:
        cell = moved.after or moved.before
        if cell is not None:
            words = f"{cell.name}, {told.after.criterion_name(cell.criterion)}"
            lines.append(f"  {words}: {_figures(moved.before)} before; {_figures(moved.after)} after")
    return lines if told.moved else [*lines, "  No step and no point differs."]


def _figures(cell: Cell | None) -> str:
    if cell is None:
        return "not there"
    counts = " or ".join(str(steps) for steps in cell.steps)
    steps = f"{counts} step{'' if counts == '1' else 's'}, " if counts else ""
    return f"{steps}{_points(cell.low, cell.high)}{' at best' if cell.outside else ''}"


# --- checks and measures -------------------------------------------------------------------------------------------


def _checks(guide: Guide, checks: Sequence[Check], rules: _Rules) -> list[str]:
    lines = ["Checks that a guide can answer in part"] if checks else []
    for check in checks:
        lines.append(f"  {guide.part(check.part).name}, {check.name}: {check.answer} {rules.cite(check.basis)}")
        for found in check.found:
            step = f", in {found.step}" if found.step else ""
            lines += _wrapped("      ", f"{found.answer}: {found.words}{step}")
        lines += _wrapped("      ", f"not known from a guide: {'; '.join(check.not_known)}")
    return lines


def _efforts(guide: Guide, efforts: Sequence[Effort]) -> list[str]:
    if not efforts:
        return []
    lines = ["Our own measure, of no act", *_wrapped("", SAYS)]
    width = max(len(guide.part(effort.part).name) for effort in efforts)
    lines.append(f"  {'':<{width}}  steps  actions  tool changes  minutes  fasteners not reusable")
    return lines + [_effort(guide, effort, width) for effort in efforts]


def _effort(guide: Guide, effort: Effort, width: int) -> str:
    name = f"  {guide.part(effort.part).name:<{width}}"
    if not effort.is_reached:
        return f"{name}  no way in this guide takes it out"
    time = str(minutes(effort.seconds)) if effort.seconds is not None else "not given"
    lost = sum(count for _, count in effort.not_reusable)
    unsaid = f", {len(effort.unsaid)} not said" if effort.unsaid else ""
    return f"{name}  {effort.steps:>5}  {effort.actions:>7}  {effort.tool_changes:>12}  {time:>7}  {lost}{unsaid}".rstrip()


def _handling(guide: Guide, efforts: Sequence[Effort]) -> list[str]:
    lines = ["Handling time from published motion times: a floor, no duration", *_wrapped("", LEFT_OUT)]
    for effort in efforts:
        route = best_route(guide, (effort.part,), tells_others=False)
        if isinstance(route, Route):
            handling = handling_of(guide, route.steps)
            lines.append(f"  {guide.part(effort.part).name}: {seconds_of(handling):.1f} s")
            lines += [
                f"      {entry.times} × {entry.motion.name}, {entry.motion.tmu} TMU each = {entry.seconds:.2f} s "
                f"({entry.motion.source}; {entry.motion.tag})"
                for entry in handling
            ]
    return lines


# --- words ---------------------------------------------------------------------------------------------------------


def _span(low: Decimal, high: Decimal, places: int) -> str:
    return f"{low:.{places}f}" if low == high else f"{low:.{places}f} to {high:.{places}f}"


def _points(low: Points, high: Points) -> str:
    return f"{low} point{'' if low == 1 else 's'}" if low == high else f"{low} to {high} points"


def _either(letters: Sequence[str]) -> str:
    return f"{', '.join(letters[:-1])} or {letters[-1]}" if len(letters) > 1 else "".join(letters)


def _wrapped(start: str, words: str, more: int = 0) -> list[str]:
    indent = " " * (len(start) + more)
    return wrap(words, WIDTH, initial_indent=start, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False)
