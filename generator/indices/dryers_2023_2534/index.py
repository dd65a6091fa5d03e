"""The points of each part of a tumble dryer; no sum, since the weights are not known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import PartId
from generator.indices.basic_tools import basic_tool, basic_tool_for
from generator.indices.counting import CountedStep, counted_steps, depth_of
from generator.indices.declarations import absent_roles, is_pairing_declared, roles_in
from generator.indices.dryers_2023_2534.tables import (
    ABSENT_RULE,
    ACT,
    APPLIES,
    BASIC_OR_NONE,
    CLASS_BOUNDS,
    CRITERIA,
    DEPTH_TABLE,
    FASTENER_TABLE,
    FOR_A_FEE,
    FREE,
    INFORMATION_TABLE,
    LADDER,
    LEAST,
    MOST,
    NAME,
    ON_SALE,
    PAIRING_RULE,
    PARTS,
    REMOVABLE,
    RESUPPLIED,
    RESUPPLIED_AT_A_COST,
    REUSABLE,
    SCALE,
    STATEMENT,
    STEP_RULE,
    TOOL_TABLE,
    VERSION,
    WITH_SPARE,
    WITHHELD,
    DryerPart,
    depth_points,
)
from generator.indices.naming import same_words, step_words, unknown_words
from generator.indices.operations import NoPath, Operation, Path, path_to
from generator.indices.workings import Cell, Criterion, Fact, Index, Line
from generator.indices.worst import Classed, Met, worst_of
from generator.languages import say
from generator.orders.guide import Guide
from generator.orders.work import ToolId

NOT_RENEWED = (JointKind.SCREWS, JointKind.PLUG, JointKind.CLIPS, JointKind.PRESS)

FREE_WORDS = frozenset(
    {"open to everyone", "public", "publicly available", "free for professionals", "no cost", "at no cost"}
)
FEE_WORDS = frozenset({"for a fee", "professionals for a fee", "professionals for a reasonable fee"})


def dryer_index(guide: Guide) -> Index:
    """Points for depth, fasteners and tools of every priority part that the guide names, with their workings."""
    named = [(part, _with_role(guide, part)) for part in PARTS]
    found = [_cells_of(guide, part, ids) for part, ids in named if ids]
    cells = (*(cell for of_part in found for cell in of_part), _information(guide))
    return Index(
        act=ACT,
        name=NAME,
        version=VERSION,
        applies=APPLIES,
        statement=STATEMENT,
        scale=SCALE,
        ladder=LADDER,
        criteria=tuple(_criterion(code, cells) for code in CRITERIA),
        low=None,
        high=None,
        from_guide=None,
        classes=(),
        outside=tuple(
            f"{say(cell.name)}, {say(CRITERIA[cell.criterion])}: {words}" for cell in cells for words in cell.outside
        ),
        withheld=WITHHELD,
        notes=tuple(_notes(guide, named)),
        bases=(CLASS_BOUNDS, ABSENT_RULE),
    )


def _with_role(guide: Guide, part: DryerPart) -> tuple[PartId, ...]:
    roles = {part.name, *part.roles}
    return tuple(known.id for known in guide.anatomy.parts.values() if roles.intersection(roles_in(known.role)))


def _criterion(code: str, cells: Sequence[Cell]) -> Criterion:
    mine = tuple(cell for cell in cells if cell.criterion == code)
    basis = {"SDD": DEPTH_TABLE, "SF": FASTENER_TABLE, "ST": TOOL_TABLE, "SRI": INFORMATION_TABLE}[code]
    return Criterion(code, CRITERIA[code], None, mine, basis, None, None)


def _notes(guide: Guide, named: Sequence[tuple[DryerPart, tuple[PartId, ...]]]) -> Iterator[str]:
    declared = absent_roles(guide.device)
    absent = [part.name for part, ids in named if not ids and declared.intersection((part.name, *part.roles))]
    missing = [part.name for part, ids in named if not ids and part.name not in absent]
    if absent:
        parts = ", ".join(say(name) for name in absent)
        yield say(
            "Not in the device, as declared: {parts}. {act}: {says}.",
            parts=parts,
            act=say(ABSENT_RULE.act),
            says=say(ABSENT_RULE.says),
        )
    for part, ids in named:
        if ids and declared.intersection((part.name, *part.roles)):
            name = guide.part(ids[0]).name
            yield say(
                '"{role}" stands under index.absent in device.yaml, yet the {part} has that role: it counts.',
                role=part.name,
                part=name,
            )
    for role in sorted(declared - {name for part in PARTS for name in (part.name, *part.roles)}):
        yield say(
            '"{role}" under index.absent in device.yaml is no priority part of a dryer, so it changes nothing.', role=role
        )
    if missing:
        parts = ", ".join(say(name) for name in missing)
        yield say(
            "Not named by any role in the guide: {parts}. A dryer that has them has points for them too.", parts=parts
        )


def _cells_of(guide: Guide, part: DryerPart, ids: Sequence[PartId]) -> tuple[Cell, ...]:
    """Three cells; of several parts with the role the lowest of each."""
    each = [_one_part(guide, part, number) for number in ids]
    return tuple(min(cells, key=lambda cell: (cell.low, cell.high)) for cells in zip(*each, strict=True))


def _one_part(guide: Guide, part: DryerPart, number: PartId) -> tuple[Cell, ...]:
    path = path_to(guide, number)
    blank = [Cell(criterion, part.code, part.name, None, None, MOST, part=number) for criterion in ("SDD", "SF", "ST")]
    if isinstance(path, NoPath) or path.taken != number:
        rows = ((0, 1, 4, 7, 10), (0, 4, 7, 10), (0, 5, 10))
        return tuple(_open(guide, cell, points) for cell, points in zip(blank, rows, strict=True))
    fasteners = worst_of(_fasteners(guide, path.operations), MOST, LEAST, Line(say("no fastener"), (MOST,), FASTENER_TABLE))
    tools = worst_of(_tools(guide, path.operations), MOST, LEAST, Line(say("no tool"), (BASIC_OR_NONE,), TOOL_TABLE))
    return (_depth(guide, part, path, blank[0]), fasteners.within(blank[1]), tools.within(blank[2]))


def _open(guide: Guide, cell: Cell, points: tuple[int, ...]) -> Cell:
    assert cell.part is not None
    words = say("no way in this guide takes out the {part}", part=guide.part(cell.part).name)
    fact = Fact(f"{cell.criterion}:{cell.part}", unknown_words(cell), points)
    line = Line(words, points, DEPTH_TABLE)
    return Cell(cell.criterion, cell.code, cell.name, None, None, MOST, (fact,), (line,), part=cell.part)


def _depth(guide: Guide, part: DryerPart, path: Path, cell: Cell) -> Cell:
    counted: tuple[CountedStep, ...] = counted_steps(path.operations)
    steps = depth_of(counted)
    lines = [Line(step_words(guide, step), (step.count,), STEP_RULE, step=step.operations[-1].step) for step in counted]
    points = depth_points(part.mean_steps, steps)
    facts: tuple[Fact, ...] = ()
    if path.part in guide.device.paired:
        lines.append(Line(say("its serial number has to be notified or authorised"), (), PAIRING_RULE))
        points = LEAST
    elif not is_pairing_declared(guide.device) and points > LEAST:
        words = say("whether the serial number of the {part} has to be notified or authorised", part=say(part.name))
        facts = (Fact(f"paired:{path.part}", words, (LEAST, points)),)
    return Cell(
        cell.criterion, cell.code, cell.name, None, None, points, facts, tuple(lines), (steps,), part=path.part
    )  # fmt: skip


def _fasteners(guide: Guide, operations: Iterable[Operation]) -> Iterator[Met]:
    undone = {operation.undoes: operation.step for operation in operations if operation.undoes is not None}
    for name, step in undone.items():
        joint = guide.joint(name)
        yield Met(f"joint:{name}", joint.name, _fastener_class(joint), step)


def _fastener_class(joint: Joint) -> Classed:
    match joint.reusable:
        case "yes":
            return Classed((REUSABLE,), say("reusable, as declared"), FASTENER_TABLE)
        case "supplied with spare":
            words = say("resupplied with the spare part; at a cost or not is not known")
            return Classed((RESUPPLIED_AT_A_COST, RESUPPLIED), words, FASTENER_TABLE)
        case "no":
            return Classed((REMOVABLE,), say("removable, not reusable, not supplied"), FASTENER_TABLE)
    if joint.kind in NOT_RENEWED and not joint.is_renewed:
        return Classed((REUSABLE,), same_words(joint), FASTENER_TABLE)
    rows = (REMOVABLE, RESUPPLIED_AT_A_COST, RESUPPLIED)
    if joint.is_renewed or joint.kind is JointKind.SOLDER:
        return Classed(rows, say("made anew: not known whether it comes with the spare part"), FASTENER_TABLE)
    return Classed((*rows, REUSABLE), say("glue that may hold again: `reusable` is not said"), FASTENER_TABLE)


def _tools(guide: Guide, operations: Iterable[Operation]) -> Iterator[Met]:
    seen: set[str] = set()
    for operation in operations:
        for held in sorted(operation.tools - seen):
            seen.add(held)
            name, classed = _tool_class(guide, held, operation)
            yield Met(f"tool:{held}", name, classed, operation.step)


def _tool_class(guide: Guide, held: str, operation: Operation) -> tuple[str, Classed]:
    if held in guide.tools:
        tool = guide.tools[ToolId(held)]
        if basic := basic_tool(tool.type):
            return tool.name, Classed((BASIC_OR_NONE,), say("basic: {tool}", tool=say(basic.name)), TOOL_TABLE)
        if tool.supplied == "spare":
            return tool.name, Classed((WITH_SPARE,), say("supplied with the spare part"), TOOL_TABLE)
        if tool.supplied == "product":
            words = say("supplied with the product, for which there is no row: outside the scale")
            return tool.name, Classed((), words, TOOL_TABLE)
        if tool.sale == "proprietary":
            return tool.name, Classed((), say("proprietary: outside the scale"), TOOL_TABLE)
        return tool.name, Classed((ON_SALE,), say("not on the list of basic tools, on public sale"), TOOL_TABLE)
    if operation.undoes is None or held in guide.supplies:
        name = next((supply.name for supply in guide.supplies.values() if supply.id == held), held)
        return name, Classed((ON_SALE,), say("applied; not on the list of basic tools, on public sale"), TOOL_TABLE)
    joint = guide.joint(operation.undoes)
    name = say("tool for the {joint}", joint=joint.name)
    if basic := basic_tool_for(joint):
        return name, Classed((BASIC_OR_NONE,), say("basic: {tool}", tool=say(basic.name)), TOOL_TABLE)
    points = (ON_SALE,) if joint.drive is not None else (ON_SALE, WITH_SPARE, BASIC_OR_NONE)
    return name, Classed(points, say("not named in the guide"), TOOL_TABLE)


def _information(guide: Guide) -> Cell:
    written = guide.device.information
    plain = " ".join((written or "").lower().replace(",", " ").split())
    if plain in FREE_WORDS or plain in FEE_WORDS:
        points = FREE if plain in FREE_WORDS else FOR_A_FEE
        return _information_cell(points, (), written or "", (points,))
    subject = say("whether professionals get the repair information free")
    words = say("not declared")
    if written is not None:
        words = say('"{words}" fits no row of the table', words=written)
    return _information_cell(FREE, (Fact("SRI", subject, (FOR_A_FEE, FREE)),), words, (FOR_A_FEE, FREE))


def _information_cell(ceiling: int, facts: tuple[Fact, ...], words: str, amounts: tuple[int, ...]) -> Cell:
    lines = (Line(words, amounts, INFORMATION_TABLE),)
    return Cell("SRI", "SRI", CRITERIA["SRI"], None, None, ceiling, facts, lines)
