"""order/gone"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import NotSoftened
from generator.orders.work import Verb
from generator.rules.finding import Finding, Mend
from generator.rules.wording import object_name, step_name


def gone(guide: Guide) -> Iterator[Finding]:
    """A joint is warmed or soaked after it has been undone.

    Why: it has let go already; the heat only harms what lies beside it.
    Bad: step 2 does `undo: back-glue`, step 3 does `heat: back-glue`.
    Good: `heat: back-glue` before `undo: back-glue`.
    Silent when: the joint is undone later than it is warmed, or it was undone without being softened at all
    (`order/soften` speaks of that).
    """
    unsoftened = {entry.reason.joint for entry in guide.walk.unmet if isinstance(entry.reason, NotSoftened)}
    for repeat in guide.walk.repeats:
        if repeat.kind == "gone" and repeat.action.joint not in unsoftened:
            done = "Warming" if repeat.action.verb is Verb.HEAT else "Soaking"
            where = step_name(guide, repeat.first.step)
            if repeat.first.step == repeat.action.step:
                where = f"line {repeat.first.place.line} of this step"
            name = object_name(guide, repeat.action)
            yield Finding(
                place=repeat.action.place,
                message=f"{done} {name} helps nothing here: {where} has undone that joint before.",
                mend=Mend(f"Move this line before {where}, or leave it out."),
            )
