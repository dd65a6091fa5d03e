"""Small devices for the plans: builders with short words, a lamp, and random ones."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import strategies as st

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Drive, Joint, JointKind
from generator.anatomy.parts import Box, Feature, JointId, Part, PartId, Point
from generator.figures.plan.before import Before
from generator.orders.work import Action, Step, StepId, Verb
from generator.source.places import Place, Places

PLACE = Place("lamp/anatomy.yaml")
PLACES = Places(PLACE)


def part(name: str, box: Sequence[float] | None = None, face: str = "top", **facts: object) -> Part:
    spoken = facts.pop("called", name.replace("-", " "))
    return Part(PartId(name), spoken, face, PLACE, PLACES, box=Box(*box) if box else None, **facts)


def joint(name: str, kind: str, joins: Sequence[str], count: int = 1, **facts: object) -> Joint:
    ends = tuple(PartId(end) for end in joins)
    spoken = name.replace("-", " ")
    return Joint(JointId(name), JointKind(kind), spoken, ends, "top", PLACE, PLACES, count=count, **facts)


def anatomy(base: str, parts: Sequence[Part], joints: Sequence[Joint] = ()) -> Anatomy:
    return Anatomy(PartId(base), {p.id: p for p in parts}, {j.id: j for j in joints})


def step(title: str, *work: tuple[str, str]) -> Step:
    """A step of (verb, what): a joint for undo, heat and soak, a part for lift and fold, a face for turn, else words."""
    actions = []
    for number, (verb, what) in enumerate(work):
        key = {"undo": "joint", "heat": "joint", "soak": "joint", "lift": "part", "fold": "part", "turn": "face"}.get(
            verb, "words"
        )
        actions.append(Action(StepId("step"), number, Verb(verb), PLACE, **{key: what}))
    return Step(StepId("step"), title, tuple(actions), PLACE, PLACES)


def before(face: str = "top", out: Sequence[str] = (), folded: Sequence[str] = ()) -> Before:
    return Before(face, frozenset(map(PartId, out)), frozenset(map(PartId, folded)))


LAMP = anatomy(
    "foot",
    [
        part("shade", (10, 10, 60, 40), thickness=12.0, depth=0.0, corner=4.0, features=(Feature("coil", (40, 30), 20.0),)),
        part("switch", (2, 52, 10, 6), thickness=4.0, depth=2.0),
        part("board", (20, 15, 40, 30), thickness=2.0, depth=14.0, holes=(Box(30, 20, 8, 8),)),
        part("driver", (24, 30, 10, 8), thickness=1.0, depth=13.0, inside=PartId("board")),
        part("weight", (15, 12, 50, 36), face="underside", thickness=5.0, depth=1.0),
        part("cord"),
        part("foot", (0, 0, 80, 60), thickness=20.0, depth=2.0, corner=6.0),
    ],
    [
        joint(
            "shade-screws", "screws", ["shade", "foot"], 3, lengths=(3.0, 4.5, 3.0), positions=((15, 15), (65, 15), (40, 45))
        ),
        joint("shade-clips", "clips", ["shade", "foot"], 4),
        joint("board-plug", "plug", ["board", "switch"]),
        joint("board-glue", "glue", ["board", "foot"], softens="heat"),
        joint("driver-pads", "solder", ["driver", "board"], 2, positions=((26, 32), (32, 32))),
        joint("weight-screws", "screws", ["weight", "foot"], 2, positions=((20, 16), (60, 44))),
        joint("cord-seat", "press", ["cord", "foot"]),
    ],
)
LAMP_FACES = ("top", "underside")
LAMP_SIZE = (80.0, 60.0)

_lengths = st.floats(0, 120, allow_nan=False).map(lambda value: round(value, 1))
_points: st.SearchStrategy[Point] = st.tuples(_lengths, _lengths)
_boxes = st.one_of(st.none(), st.tuples(_lengths, _lengths, st.floats(0.5, 90), st.floats(0.5, 90)))


@st.composite
def devices(draw: st.DrawFn) -> tuple[Anatomy, tuple[str, ...], tuple[float, float] | None]:
    """A device of up to seven parts and six joints, with its faces and its size or None."""
    faces = draw(st.sampled_from([("top",), ("top", "underside"), ("top", "underside", "rim")]))
    names = [f"part-{index}" for index in range(draw(st.integers(1, 7)))]
    parts = [
        part(
            name,
            draw(_boxes),
            draw(st.sampled_from(faces)),
            thickness=draw(st.one_of(st.none(), st.floats(0.1, 30))),
            depth=draw(st.one_of(st.none(), st.floats(0, 30))),
            corner=draw(st.sampled_from([0.0, 3.0, 60.0])),
            outline=tuple(draw(st.lists(_points, max_size=5))),
            inside=PartId(draw(st.sampled_from(names[:index]))) if index > 1 and draw(st.booleans()) else None,
            under=tuple(map(PartId, draw(st.lists(st.sampled_from(names), max_size=2)))),
        )
        for index, name in enumerate(names)
    ]
    joints = [
        joint(
            f"joint-{index}",
            draw(st.sampled_from(list(JointKind))),
            draw(st.lists(st.sampled_from(names), min_size=2, max_size=2, unique=True)),
            draw(st.one_of(st.integers(1, 6), st.integers(1, 500))),
            positions=tuple(draw(st.lists(_points, max_size=8))),
            run=tuple(draw(st.lists(_points, max_size=5))),
            lengths=tuple(draw(st.lists(st.sampled_from([2.5, 4.0, 12.25]), max_size=9))),
            drive=draw(
                st.sampled_from([None, Drive("cross-recess", "PH0"), Drive("hexalobular", "T3"), Drive("odd", None)])
            ),
            thread=draw(st.sampled_from([None, "M2", "M5"])),
            head=draw(st.sampled_from([None, "pan", "hexagon"])),
            behind=tuple(map(PartId, draw(st.lists(st.sampled_from(names), max_size=2)))),
        )
        for index in range(draw(st.integers(0, 6)) if len(names) > 1 else 0)
    ]
    size = draw(st.one_of(st.none(), st.tuples(st.floats(1, 500), st.floats(1, 500))))
    return anatomy(names[0], parts, joints), faces, size


@st.composite
def steps_on(draw: st.DrawFn, device: Anatomy, faces: tuple[str, ...]) -> tuple[Step, Before]:
    """A step of up to six actions on the device, and how it stands before."""
    parts, joints = list(device.parts), list(device.joints)
    loose = [name for name in parts if name != device.base]
    choices = [st.tuples(st.just("turn"), st.sampled_from(faces)), st.tuples(st.just("check"), st.text(max_size=8))]
    if loose:
        choices.append(st.tuples(st.sampled_from(["lift", "fold"]), st.sampled_from(loose)))
    if joints:
        choices.append(st.tuples(st.sampled_from(["undo", "heat", "soak"]), st.sampled_from(joints)))
    work = draw(st.lists(st.one_of(choices), min_size=1, max_size=6))
    gone = st.lists(st.sampled_from(loose), max_size=3) if loose else st.just([])
    return step("Do it", *work), before(draw(st.sampled_from(faces)), draw(gone), draw(gone))
