"""What of the film a run of steps needs: drawn together, in the order of the work, and nothing lost between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import Part, PartId
from generator.orders.guide import Device, Guide
from generator.orders.stretches import PAUSE, Stretch, shots_of, watching
from generator.orders.work import Step, StepId
from generator.source.places import Place, Places

PLACE = Place("f")
PLACES = Places(PLACE)
BASE = PartId("base")

Film = tuple[int, int | None] | None


def film_of(*films: Film, length: int | None = None, alternatives: Sequence[Film] = ()) -> Guide:
    """A guide whose steps `a`, `b`, ... are filmed as given; those of `alternatives` go on with the letters."""
    every = enumerate((*films, *alternatives))
    steps = [Step(StepId(chr(97 + number)), f"Step {number}", (), PLACE, PLACES, film=film) for number, film in every]
    count = len(films)
    anatomy = Anatomy(BASE, {BASE: Part(BASE, "base", "front", PLACE, PLACES)})
    device = Device("Thing", PLACE, PLACES, film_length=length)
    return Guide("thing", device, anatomy, tuple(steps[:count]), tuple(steps[count:]))


def spans(stretches: Sequence[Stretch]) -> list[tuple[int, int | None, str]]:
    return [(each.start, each.end, "".join(step.id for step in each.steps)) for each in stretches]


def seen(guide: Guide, names: str) -> tuple[list[tuple[int, int | None, str]], list[tuple[int, int | None, str]], str]:
    found = watching(guide, [guide.step_by_id[StepId(name)] for name in names])
    return spans(found.parts), spans(found.skips), "".join(step.id for step in found.unfilmed)


def test_steps_filmed_one_after_the_other_are_one_stretch() -> None:
    guide = film_of((20, 60), (65, 100), (100, 140), (150, 200), length=260)
    assert seen(guide, "abc") == ([(20, 140, "abc")], [(0, 20, ""), (140, 260, "d")], "")


def test_a_step_that_is_not_needed_is_skipped_however_short() -> None:
    guide = film_of((0, 30), (31, 34), (35, 60), length=60)
    assert seen(guide, "ac") == ([(0, 30, "a"), (35, 60, "c")], [], "")
    guide = film_of((0, 30), (30, 50), (50, 60), length=60)
    assert seen(guide, "ac") == ([(0, 30, "a"), (50, 60, "c")], [(30, 50, "b")], "")


def test_the_parts_follow_the_work_even_where_the_film_does_not() -> None:
    guide = film_of((300, 360), (100, 150), (155, 200), length=400)
    parts, skips, _ = seen(guide, "abc")
    assert parts == [(300, 360, "a"), (100, 200, "bc")]
    assert skips == [(0, 100, ""), (200, 300, ""), (360, 400, "")]


def test_a_step_that_is_not_filmed_is_told() -> None:
    guide = film_of((0, 30), None, (40, 60), length=60)
    assert seen(guide, "abc") == ([(0, 60, "ac")], [], "b")
    assert seen(film_of(None, None), "ab") == ([], [], "ab")


def test_a_stretch_without_an_end_lasts_until_the_next_begins_or_the_film_ends() -> None:
    guide = film_of((10, None), (50, None), (120, None), length=200)
    assert spans(tuple(shots_of(guide).values())) == [(10, 50, "a"), (50, 120, "b"), (120, 200, "c")]
    open_end = film_of((10, None), (50, None))
    assert spans(tuple(shots_of(open_end).values())) == [(10, 50, "a"), (50, None, "b")]
    assert seen(open_end, "b") == ([(50, None, "b")], [(0, 50, "a")], "")
    assert seen(open_end, "a") == ([(10, 50, "a")], [(0, 10, ""), (50, None, "b")], "")


def test_what_runs_backwards_or_beyond_the_end_is_not_believed() -> None:
    assert spans(tuple(shots_of(film_of((60, 20), (90, 400), (500, 600), length=120)).values())) == [
        (60, 90, "a"),
        (90, 120, "b"),
    ]


def test_a_film_used_out_of_the_order_gives_up_its_alternatives_too() -> None:
    guide = film_of((0, 30), (30, 60), length=120, alternatives=[(70, 110)])
    assert seen(guide, "ac") == ([(0, 30, "a"), (70, 110, "c")], [(30, 70, "b"), (110, 120, "")], "")


FILMS = st.lists(
    st.none() | st.tuples(st.integers(0, 300), st.none() | st.integers(0, 320)), min_size=1, max_size=8
)


@given(FILMS, st.none() | st.integers(1, 320), st.data())
def test_parts_and_skips_never_share_a_second_and_every_step_is_somewhere(
    films: list[Film], length: int | None, data: st.DataObject
) -> None:
    guide = film_of(*films, length=length)
    steps = data.draw(st.permutations(guide.order))[: data.draw(st.integers(0, len(films)))]
    found = watching(guide, steps)
    assert [s for part in found.parts for s in part.steps] == [s for s in steps if s not in found.unfilmed]
    for part in found.parts:
        assert part.end is None or part.end > part.start
        for skip in found.skips:
            assert skip.start >= (part.end if part.end is not None else 10**9) or (
                skip.end is not None and skip.end <= part.start
            )
    for skip in found.skips:
        assert skip.end is None or skip.end - skip.start >= PAUSE
        assert not {step.id for step in skip.steps} & {step.id for step in steps}
    assert found == watching(replace(guide), steps)
