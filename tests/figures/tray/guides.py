"""Guides for the tray: builders with short words, and random ones of 1 to 40 steps."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import strategies as st

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Drive, Joint, JointKind
from generator.anatomy.parts import Box, Feature, JointId, Part, PartId
from generator.orders.guide import Device, Guide
from generator.orders.work import Action, Step, StepId, Verb
from generator.source.places import Place, Places

PLACE = Place("lamp/anatomy.yaml")
PLACES = Places(PLACE)
HOSTILE = '"><script>alert(1)</script>&\x00]]>'
BASE = PartId("base")


def part(name: str, box: Sequence[float] | None = None, **facts: object) -> Part:
    spoken = facts.pop("called", name.replace("-", " "))
    return Part(PartId(name), spoken, str(facts.pop("face", "top")), PLACE, PLACES, box=Box(*box) if box else None, **facts)


def screws(name: str, holds: str, at: Sequence[tuple[float, float]], count: int | None = None, **facts: object) -> Joint:
    """Screws that join a part to the base; M2 × 4 mm unless said otherwise."""
    told: dict[str, object] = {
        "thread": "M2",
        "head": "pan",
        "drive": Drive("cross-recess", "PH0"),
        "face": "top",
        "joins": (PartId(holds), BASE),
        **facts,
    }
    count = len(at) if count is None else count
    told.setdefault("lengths", (4.0,) * count)
    return Joint(JointId(name), JointKind.SCREWS, name, place=PLACE, places=PLACES, count=count, positions=tuple(at), **told)


def plug(name: str, holds: str) -> Joint:
    return Joint(JointId(name), JointKind.PLUG, name, (PartId(holds), BASE), "top", PLACE, PLACES)


def step(name: str, undo: Sequence[str] = (), lift: Sequence[str] = ()) -> Step:
    work = [(Verb.UNDO, joint) for joint in undo] + [(Verb.LIFT, one) for one in lift]
    actions = tuple(
        Action(StepId(name), number, verb, PLACE, **{"joint" if verb is Verb.UNDO else "part": what})
        for number, (verb, what) in enumerate(work)
    )
    return Step(StepId(name), name, actions, PLACE, PLACES)


def guide(
    parts: Sequence[Part],
    joints: Sequence[Joint],
    steps: Sequence[Step],
    name: str = "Lamp",
    faces: tuple[str, ...] = ("top",),
) -> Guide:
    everything = {p.id: p for p in (part(BASE, (0, 0, 200, 120)), *parts)}
    anatomy = Anatomy(BASE, everything, {j.id: j for j in joints})
    return Guide("lamp", Device(name, PLACE, PLACES, faces=faces), anatomy, tuple(steps))


names = st.one_of(
    st.sampled_from(["lid", "board with the long name that goes on and on", HOSTILE, "配線基板の取り付け板", "x" * 90, " "]),
    st.text(max_size=30),
)
_places = st.floats(-30, 200).map(lambda value: round(value, 1))
_sizes = st.one_of(st.floats(1, 70), st.floats(1, 400)).map(lambda value: round(value, 1))
_drives = st.sampled_from([None, Drive("cross-recess", "PH00"), Drive("slotted", None), Drive(HOSTILE, "9")])
_boxes = st.one_of(st.none(), st.tuples(_places, _places, _sizes, _sizes))


@st.composite
def guides(draw: st.DrawFn) -> Guide:
    """1 to 40 steps; each lifts up to two parts and undoes up to two joints, told well, badly or not at all."""
    parts: list[Part] = []
    joints: list[Joint] = []
    steps: list[Step] = []
    many = draw(st.integers(1, 40))
    for number in range(many):
        here = []
        for index in range(draw(st.integers(0, 2))):
            box = draw(_boxes)
            points = st.tuples(_places, _places)
            here.append(
                part(
                    f"part-{number}-{index}",
                    box,
                    face=draw(st.sampled_from(["top", "under"])),
                    called=draw(names) or "part",
                    corner=draw(st.sampled_from([0.0, 3.0, 90.0])),
                    outline=tuple(draw(st.lists(points, max_size=4))),
                    features=(Feature("lens", draw(points), 8.0),) if draw(st.booleans()) else (),
                )
            )
        parts += here
        undone = []
        for index in range(draw(st.integers(0, 2)) if here else 0):
            count = draw(st.sampled_from([1, 2, 3, 4, 6, 9, 9, 9, 75, 500]))
            holds = draw(st.sampled_from(here))
            box = holds.box or Box(0, 0, 20, 20)
            at = st.tuples(
                st.floats(box.x - 1, box.right + 1).map(lambda v: round(v, 1)),
                st.floats(box.y - 1, box.bottom + 1).map(lambda v: round(v, 1)),
            )
            joint = screws(
                f"joint-{number}-{index}",
                holds.id,
                draw(st.lists(at, max_size=min(count, 9))),
                count,
                thread=draw(st.sampled_from(["M1.4", "M3", "M20", "ST2.9", None, HOSTILE])),
                head=draw(st.sampled_from(["pan", "countersunk", None, "hexagon", "x" * 60])),
                drive=draw(_drives),
                lengths=tuple(draw(st.lists(st.sampled_from([2.0, 4.5, 60.0, 3.25]), max_size=min(count, 9)))),
                face=draw(st.sampled_from(["top", "under"])),
            )
            joints.append(joint)
            undone.append(joint.id)
        again = draw(st.lists(st.sampled_from([j.id for j in joints]), max_size=1)) if joints else []
        steps.append(step(f"step-{number}", (*undone, *again), [one.id for one in here]))
    return guide(parts, joints, steps, draw(names), ("top", "under"))
