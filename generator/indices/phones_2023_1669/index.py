"""The index of one guide: a cell for every priority part and criterion, the sum, its class, what other readings would do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from generator.anatomy.parts import PartId
from generator.indices.counting import fewest_steps
from generator.indices.declarations import absent_roles, is_pairing_declared
from generator.indices.naming import unknown_words
from generator.indices.operations import NoPath, Path
from generator.indices.phones_2023_1669.declared import declared_cells
from generator.indices.phones_2023_1669.depth import depth_points, part_depth
from generator.indices.phones_2023_1669.fasteners import worst_fastener
from generator.indices.phones_2023_1669.formula import (
    ADMISSIBLE,
    check_points,
    reachable_classes,
    terms_of,
    weight_of,
)
from generator.indices.phones_2023_1669.parts import Priorities, priorities_of
from generator.indices.phones_2023_1669.readings import RECOMMENDED, Readings, chosen, others
from generator.indices.phones_2023_1669.tables import (
    ABSENT_RULE,
    ACT,
    APPLIES,
    CLASS_BOUNDS,
    CRITERIA,
    DEPTH_TABLE,
    FASTENER_TABLE,
    FORMULA,
    INCREMENT_RULE,
    INFORMATION_TABLE,
    LADDER,
    LEAST,
    MERGING_RULE,
    MOST,
    NAME,
    PAIRING_STEPS,
    PART_WEIGHTS,
    SCALE,
    SEVERAL_RULE,
    SPARE_TABLE,
    STATEMENT,
    TOOL_TABLE,
    UPDATE_TABLE,
    VERSION,
    WEIGHTS,
    PriorityPart,
)
from generator.indices.phones_2023_1669.tools import worst_tool
from generator.indices.sums import highest, lowest, widths
from generator.indices.workings import Basis, Beside, Cell, Criterion, Effect, Fact, Index, Line
from generator.languages import list_of, say, say_many
from generator.orders.guide import Guide

PARTWISE = ("SDD", "SF", "ST")

BASES: Mapping[str, Basis] = {
    "SDD": DEPTH_TABLE,
    "SF": FASTENER_TABLE,
    "ST": TOOL_TABLE,
    "SSP": SPARE_TABLE,
    "SSU": UPDATE_TABLE,
    "SRI": INFORMATION_TABLE,
}


def phone_index(guide: Guide, readings: Readings = RECOMMENDED) -> Index:
    """The repairability index of a phone, foldable phone or tablet, as far as the guide tells; all workings with it.

    The depth that counts is that of the guide's own order; the fewest steps over all orders stand beside it.
    """
    priorities = priorities_of(guide)
    cells = tuple(_with_second_figures(guide, priorities, readings, cell) for cell in _cells(guide, priorities, readings))
    for cell in cells:
        for points in (cell.ceiling, *(points for fact in cell.facts for points in fact.points)):
            check_points(cell.criterion, cell.code, points)
    terms = terms_of(cells)
    classes, within_rounding_of, is_exact = reachable_classes(cells, readings.rounding)
    from_guide = terms_of([cell for cell in cells if cell.criterion in PARTWISE])
    return Index(
        act=ACT,
        name=NAME,
        version=VERSION,
        applies=APPLIES,
        statement=STATEMENT,
        scale=SCALE,
        ladder=LADDER,
        criteria=tuple(_criterion(code, cells) for code in CRITERIA),
        low=lowest(terms),
        high=highest(terms),
        from_guide=(lowest(from_guide), highest(from_guide)),
        classes=classes,
        within_rounding_of=within_rounding_of,
        are_classes_exact=is_exact,
        outside=tuple(
            f"{say(cell.name)}, {say(CRITERIA[cell.criterion])}: {words}" for cell in cells for words in cell.outside
        ),
        widths=widths(terms),
        chosen=chosen(readings),
        effects=tuple(_effects(guide, priorities, readings)),
        notes=tuple(_notes(guide, priorities)),
        bases=(FORMULA, PART_WEIGHTS, CLASS_BOUNDS),
    )


def _criterion(code: str, cells: Sequence[Cell]) -> Criterion:
    mine = tuple(cell for cell in cells if cell.criterion == code)
    terms = terms_of(mine)
    weight = WEIGHTS[code]
    return Criterion(code, CRITERIA[code], weight, mine, BASES[code], lowest(terms) / weight, highest(terms) / weight)


def _effects(guide: Guide, priorities: Priorities, readings: Readings) -> Iterable[Effect]:
    for question, option, other in others(readings):
        cells = _cells(guide, priorities, other)
        terms = terms_of(cells)
        classes, _, _ = reachable_classes(cells, other.rounding)
        yield Effect(question, option, lowest(terms), highest(terms), classes)


def _notes(guide: Guide, priorities: Priorities) -> Iterable[str]:
    if not guide.is_complete:
        yield say("Some of this guide could not be read, so the figures may be wrong.")
    yield say("Weights of foldable devices.") if priorities.is_foldable else say("Weights of rigid devices.")
    clause = say(FORMULA.clause)
    yield say(
        "{clause} of the act was not read itself, and the annexes have been amended since: each rule has its tag.",
        clause=clause,
    )
    if guide.device.kind == "phone" and priorities.is_foldable:
        yield say("A part has the role of a folding mechanism, so the weights of foldable devices hold.")
    for role in sorted(absent_roles(guide.device)):
        told = next(((priority, parts) for priority, parts in priorities.parts if role in priority.roles), None)
        if told is None:
            yield say(
                '"{role}" under index.absent in device.yaml is no priority part of this device, so it changes nothing.',
                role=role,
            )
        elif told[1]:
            name = guide.part(told[1][0]).name
            yield say(
                '"{role}" stands under index.absent in device.yaml, yet the {part} has that role: it counts.',
                role=role,
                part=name,
            )
        elif not told[0].may_be_absent:
            yield say(
                '"{role}" stands under index.absent in device.yaml, but no such device is without one: it is left open.',
                role=role,
            )


# --- cells ---------------------------------------------------------------------------------------------------------


def _cells(guide: Guide, priorities: Priorities, readings: Readings) -> tuple[Cell, ...]:
    found = [
        cell for priority, parts in priorities.parts for cell in _part_cells(guide, priorities, priority, parts, readings)
    ]
    in_order = [cell for criterion in PARTWISE for cell in found if cell.criterion == criterion]
    return (*in_order, *declared_cells(guide.device, priorities.is_foldable))


def _part_cells(
    guide: Guide, priorities: Priorities, priority: PriorityPart, parts: tuple[PartId, ...], readings: Readings
) -> tuple[Cell, ...]:
    """Depth, fasteners and tools of one priority part; of several with its role the lowest, for each by itself."""
    if not parts:
        return tuple(_unnamed(guide, priorities, priority, criterion, readings) for criterion in PARTWISE)
    each = [_one_part(guide, priorities, priority, part, readings) for part in parts]
    if len(each) == 1:
        return each[0]
    return tuple(_lowest_of(guide, cells) for cells in zip(*each, strict=True))


def _one_part(
    guide: Guide, priorities: Priorities, priority: PriorityPart, part: PartId, readings: Readings
) -> tuple[Cell, ...]:
    path = priorities.paths[part]
    if isinstance(path, NoPath) or (path.taken != part and not priority.may_be_merged):
        return tuple(_unreached(guide, priorities, priority, path, criterion) for criterion in PARTWISE)
    operations = path.whole if readings.beyond_need == "counted" else path.operations
    first = 0 if readings.path == "whole-path" else priorities.first_since_last_part(operations)
    notes: tuple[str, ...] = ()
    if path.taken != part:
        out = say("Comes out with the {part}.", part=guide.part(path.taken).name)
        notes = (f"{out} {say(MERGING_RULE.act)}: {say(MERGING_RULE.says)}.",)
    depth = part_depth(guide, path.part, operations, readings)
    fasteners = worst_fastener(guide, operations, first)
    tools = worst_tool(guide, operations, first, readings.basic_supplied)
    blank = [_blank(priorities, priority, criterion, part, notes) for criterion in PARTWISE]
    return (
        replace(blank[0], ceiling=depth.ceiling, facts=depth.facts, lines=depth.lines, steps=depth.steps),
        fasteners.within(blank[1]),
        tools.within(blank[2]),
    )


def _blank(
    priorities: Priorities, priority: PriorityPart, criterion: str, part: PartId | None, notes: tuple[str, ...] = ()
) -> Cell:
    weight = weight_of(priority, priorities.is_foldable)
    return Cell(
        criterion, priority.code, priority.name, weight, weight * WEIGHTS[criterion], MOST, notes=notes, part=part
    )  # fmt: skip


def _open(cell: Cell, words: str, basis: Basis) -> Cell:
    points = ADMISSIBLE[cell.criterion]
    fact = Fact(f"{cell.criterion}:{cell.part or cell.code}", unknown_words(cell), points)
    return replace(cell, facts=(fact,), lines=(Line(words, points, basis),))


def _unnamed(
    guide: Guide, priorities: Priorities, priority: PriorityPart, criterion: str, readings: Readings
) -> Cell:
    cell = _blank(priorities, priority, criterion, None)
    if priority.may_be_absent and absent_roles(guide.device).intersection(priority.roles):
        return replace(cell, lines=(Line(say("not in the device, as declared"), (MOST,), ABSENT_RULE),))
    if readings.unnamed_part == "absent" and priority.may_be_absent:
        return replace(cell, lines=(Line(say("taken to be absent from the device"), (MOST,), ABSENT_RULE),))
    return _open(cell, say('no part of the guide has the role "{role}"', role=priority.name), ABSENT_RULE)


def _unreached(guide: Guide, priorities: Priorities, priority: PriorityPart, path: Path | NoPath, criterion: str) -> Cell:
    """A part that the guide does not take out, or that cannot come out on its own though the act wants it to."""
    cell = _blank(priorities, priority, criterion, path.part)
    name = guide.part(path.part).name
    is_stuck = path.is_fixed if isinstance(path, NoPath) else True
    if is_stuck and not priority.may_be_merged:
        words = say("no joint parts the {part} from what holds it", part=name)
        return replace(cell, ceiling=LEAST, lines=(Line(words, (), MERGING_RULE),), outside=(words,))
    is_base = path.part == guide.anatomy.base
    words = say("everything is mounted on the {part}", part=name)
    if not is_base:
        words = say("no way in this guide takes out the {part}", part=name)
    return _open(cell, words, BASES[criterion])


def _lowest_of(guide: Guide, cells: Sequence[Cell]) -> Cell:
    """One cell for several parts of one role."""
    names = [guide.part(cell.part).name for cell in cells if cell.part is not None]
    lowest_cell = min(cells, key=lambda cell: (cell.low, cell.high))
    return replace(
        lowest_cell,
        ceiling=min(cell.ceiling for cell in cells),
        facts=tuple({fact.key: fact for cell in cells for fact in cell.facts}.values()),
        lines=tuple(
            replace(line, words=f"{name}: {line.words}")
            for name, cell in zip(names, cells, strict=True)
            for line in cell.lines
        ),
        steps=max((cell.steps for cell in cells), default=()),
        outside=tuple(words for cell in cells for words in cell.outside),
        notes=(f"{list_of(names)}: {say(SEVERAL_RULE.says)}.", *dict.fromkeys(n for cell in cells for n in cell.notes)),
    )


# --- second figures ------------------------------------------------------------------------------------------------


def _with_second_figures(guide: Guide, priorities: Priorities, readings: Readings, cell: Cell) -> Cell:
    """The cell with what it would be counted another way, where that is one part's doing."""
    path = priorities.paths.get(cell.part) if cell.part is not None else None
    several = sum(cell.part in parts and len(parts) > 1 for _, parts in priorities.parts)
    if not isinstance(path, Path) or cell.outside or several:
        return cell
    if cell.criterion == "SDD":
        beside = _fewest(guide, path, readings)
        return replace(cell, beside=(beside,)) if beside else cell
    operations = path.whole if readings.beyond_need == "counted" else path.operations
    first = priorities.first_since_last_part(operations) if readings.path == "whole-path" else 0
    if cell.criterion == "SF":
        other = worst_fastener(guide, operations, first)
    else:
        other = worst_tool(guide, operations, first, readings.basic_supplied)
    counted = other.within(cell)
    words = say(INCREMENT_RULE.says) if readings.path == "whole-path" else say("all from the complete device on")
    return replace(cell, beside=(Beside(words, counted.low, counted.high),))


def _fewest(guide: Guide, path: Path, readings: Readings) -> Beside | None:
    fewest = fewest_steps(path.operations, path.needs, readings.counting)
    if fewest is None:
        return None
    more = PAIRING_STEPS * (2 if readings.pairing == "twice" else 1)
    sure = more if path.part in guide.device.paired else 0
    open_steps = 0 if is_pairing_declared(guide.device) else more
    low, high = depth_points(fewest + sure + open_steps), depth_points(fewest + sure)
    words = say_many(
        "fewest over the orders in which the same can be done: {n} steps",
        "fewest over the orders in which the same can be done: {n} steps",
        fewest + sure,
    )
    return Beside(words, low, high)
