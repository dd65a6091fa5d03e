"""order/far"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.parts import JointId
from generator.orders.guide import Guide
from generator.orders.work import Action, Verb
from generator.rules.finding import Finding, Mend
from generator.rules.wording import it_is, joint_name, sentence, step_name


def far(guide: Guide) -> Iterator[Finding]:
    """Glue is warmed or soaked in one step and undone in a later one, with other work in between.

    Why: it has cooled or dried by the time the reader comes to it, and holds as before.
    Bad: step 1 does `heat: back-glue`, step 2 undoes screws, step 3 does `undo: back-glue`.
    Good: `heat: back-glue` and `undo: back-glue` in one step.
    Silent when: only turning over, waiting or checking lies in between, or all of it stands in one step.
    """
    softened: dict[JointId, Action] = {}
    between: dict[JointId, Action] = {}
    for action in (action for step in guide.order for action in step.actions):
        if action.verb in (Verb.HEAT, Verb.SOAK) and action.joint is not None:
            softened[action.joint] = action
            between.pop(action.joint, None)
        elif action.verb in (Verb.UNDO, Verb.LIFT, Verb.FOLD):
            if action.verb is Verb.UNDO and action.joint is not None:
                earlier = softened.pop(action.joint, None)
                if earlier is not None and earlier.step != action.step and action.joint in between:
                    yield _finding(guide, earlier, action)
            for joint in softened:
                between.setdefault(joint, action)


def _finding(guide: Guide, earlier: Action, action: Action) -> Finding:
    assert action.joint is not None
    name, plain = joint_name(guide, action.joint), guide.joint(action.joint).name
    where = step_name(guide, action.step)
    done = "warmed" if earlier.verb is Verb.HEAT else "soaked"
    lost = "cool" if earlier.verb is Verb.HEAT else "dry"
    return Finding(
        place=earlier.place,
        message=f"{sentence(name)} will be {lost} again before {it_is(plain)} undone.",
        why=(f"{sentence(where)} undoes {name}, with other work in between.",),
        mend=Mend(f"Let {name} be {done} in {where}."),
    )
