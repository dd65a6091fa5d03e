"""ref/unused"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.parts import Part
from generator.orders.guide import Guide, Library
from generator.orders.work import Supply, SupplyId, Tool, ToolId
from generator.rules.finding import Finding, Mend
from generator.rules.prose import references_of
from generator.rules.wording import part_name, quoted, sentence, verb_for


def unused(library: Library) -> Iterator[Finding]:
    """A step file, a tool, a supply or a part that nothing in the guides has anything to do with.

    Why: a step file outside the order is never shown; a tool that no guide takes up, or a part that nothing holds, covers or
    moves, is most often a slip in a name.
    Bad: a file `steps/lift-shade.md` that neither `order` nor `alternatives` of device.yaml names.
    Good: its line in the order, or no such file.
    Silent when: a tool or supply is named anywhere, be it in prose; a part is joined, hides something, lies over something,
    sits in another part or is lifted. Tools and supplies are judged only when every guide could be read.
    """
    for guide in library.guides:
        yield from _steps(guide)
        if guide.is_complete:
            yield from _parts(guide)
    if library.guides and all(guide.is_complete for guide in library.guides):
        yield from _shared(library)


def _steps(guide: Guide) -> Iterator[Finding]:
    if not guide.order and not guide.alternatives and not guide.is_complete:
        return  # device.yaml could not be read: that is said there
    for step in guide.unused:
        file = guide.device.place.file
        yield Finding(
            place=step.place,
            message=f"The step {quoted(step.title)} is never shown: {file} does not name {quoted(step.id)}.",
            mend=Mend(f"Add {quoted(step.id)} to `order` or `alternatives` in {file}, or take the step's file away."),
            level="warning",
        )


def _parts(guide: Guide) -> Iterator[Finding]:
    known = {guide.anatomy.base}
    for joint in guide.anatomy.joints.values():
        known |= {*joint.joins, *joint.behind}
    for part in guide.anatomy.parts.values():
        known |= set(part.under)
        if part.inside is not None:
            known |= {part.id, part.inside}
    known |= {action.part for step in guide.steps for action in step.actions if action.part is not None}
    for part in guide.anatomy.parts.values():
        if part.id not in known:
            yield _loose(guide, part)


def _loose(guide: Guide, part: Part) -> Finding:
    return Finding(
        place=part.place,
        message=(
            f"{sentence(part_name(guide, part.id))} {verb_for(part.name, 'is', 'are')} held by nothing, "
            "and no step has anything to do with it."
        ),
        mend=Mend("Add the joint that holds it, or say what it is `inside`."),
        level="note",
    )


def _shared(library: Library) -> Iterator[Finding]:
    named = {(reference.scheme, reference.target) for guide in library.guides for reference in references_of(guide)}
    tools = {tool for guide in library.guides for tool in _tools_of(guide)}
    for tool in library.tools.values():
        if tool.id not in tools and ("tool", tool.id) not in named:
            yield _idle(tool, "takes up")
    joints = {joint for guide in library.guides for joint in guide.anatomy.joints}
    taken = {supply for guide in library.guides for supply in _supplies_of(guide)}
    for supply in library.supplies.values():
        if supply.id not in taken and ("supply", supply.id) not in named and not joints & set(supply.joints):
            yield _idle(supply, "uses")


def _idle(thing: Tool | Supply, does: str) -> Finding:
    message = f"No guide {does} the {thing.name}."
    return Finding(thing.place, message, mend=Mend("Take it out, or name it where it is needed."), level="note")


def _tools_of(guide: Guide) -> Iterator[ToolId]:
    for joint in guide.anatomy.joints.values():
        yield from (ToolId(tool) for tool in joint.tools)
    for step in (*guide.steps, *guide.unused):
        for action in step.actions:
            yield from guide.tools_of(action)


def _supplies_of(guide: Guide) -> Iterator[SupplyId]:
    for step in (*guide.steps, *guide.unused):
        for action in step.actions:
            yield from action.supplies
