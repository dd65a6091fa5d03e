"""ref/unknown-part"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.parts import PartId
from generator.orders.guide import Guide, Library
from generator.rules.dangling import dangling
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted


def unknown_part(read: Guide | Library) -> Iterator[Finding]:
    """A joint, a step, the prose or a note names a part that the device does not have; or a joint joins a part to itself.

    Why: the order cannot be judged, and the reader is sent to something that is not there.
    Bad: `lift: shad`, where anatomy.yaml has `shade`.
    Good: `lift: shade`.
    Silent when: the name is one of anatomy.yaml's parts.
    """
    parts = read.anatomy.parts if isinstance(read, Guide) else {}
    for finding, name in zip(
        dangling(read, "part", "{device}/anatomy.yaml"), (each for each in read.dangling if each.kind == "part"), strict=True
    ):
        if PartId(name.name) in parts:
            yield Finding(
                place=name.place,
                message=f"A joint joins the part {quoted(name.name)} to itself.",
                mend=Mend("Name the two parts that it holds together."),
            )
        else:
            yield finding
