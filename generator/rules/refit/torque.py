"""refit/torque"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.trade.threads import looked_up_as
from generator.rules.trade.torque import torque_range
from generator.rules.wording import joint_name, number, sentence


def torque(guide: Guide) -> Iterator[Finding]:
    """A torque would break the screw (a warning), or lies outside all published tables for its thread (a note).

    Why: a small screw breaks at a few hundredths of a newton-metre, and a slip of the decimal point is soon made.
    Bad: `torque: 0.6 N·m` for `thread: M1.6`, whose screws may break from 0.16 N·m on.
    Good: `torque: 0.06 N·m`.
    Silent when: the thread is in no table, or the torque lies between the least value published for soft joints and the
    greatest for class 8.8 that stays below the breaking torque.
    """
    for joint in guide.anatomy.joints.values():
        thread = looked_up_as(joint.thread) if joint.thread is not None else None
        published = torque_range(thread.name) if thread is not None else None
        if joint.torque is None or thread is None or published is None:
            continue
        place = joint.places.value("joints", joint.id, "torque")
        usual = f"Published values for {thread.name} lie between {number(published.low)} and {number(published.high)} N·m."
        if published.breaking is not None and joint.torque >= published.breaking:
            yield Finding(
                place=place,
                message=(
                    f"{sentence(joint_name(guide, joint.id))} may break at {number(joint.torque)} N·m: "
                    f"{thread.name} of class 8.8 breaks from {number(published.breaking)} N·m on."
                ),
                why=(usual,),
                mend=Mend("Check the decimal point."),
            )
        elif not published.low <= joint.torque <= published.high:
            side = "above" if joint.torque > published.high else "below"
            yield Finding(
                place=place,
                message=f"{number(joint.torque)} N·m for {joint_name(guide, joint.id)} lies {side} every published value.",
                why=(usual,),
                mend=Mend("Check the decimal point; leave it as it is if the maker gives it."),
                level="note",
            )
