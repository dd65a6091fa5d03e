"""Counted steps against the vectors S1 to S14 in every reading, and the fewest steps against trying every order."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.anatomy.parts import PartId
from generator.indices import counting
from generator.indices.counting import Counting, Ending, counted_steps, depth_of, fewest_steps
from generator.indices.operations import CLEAN, HEAT, LOOK, WORK, Operation
from generator.indices.phones_2023_1669.depth import depth_points
from generator.indices.phones_2023_1669.tables import PAIRING_STEPS
from tests.indices.tables import rows
from tests.wandering import examples

VECTORS = {row["id"]: row for row in rows("step_vectors")}
READINGS = {
    "steps": Counting(),
    "steps_hand_is_tool": Counting(is_hand_a_tool=True),
    "steps_tools_at_once_count_one": Counting(is_each_tool_counted=False),
    "steps_set_aside_ignored": Counting(set_aside_ends=False),
}


def operations_of(written: str) -> list[Operation]:
    """`driver; hand -> removes BC; [heat] pad; hand -> sets aside DA` as operations."""
    return [operation_of(piece.strip()) for piece in written.split(";")] if written.strip() else []


def operation_of(piece: str) -> Operation:
    match = re.fullmatch(r"(?:\[(heat|clean)\] )?(\S+)(?: -> (removes|sets aside) (\S+))?", piece)
    assert match is not None, piece
    kind, tools, effect, parts = match.groups()
    moved = tuple(PartId(part) for part in (parts or "").split("+") if part)
    return Operation(
        {"heat": HEAT, "clean": CLEAN, None: WORK}[kind],
        frozenset() if tools == "hand" else frozenset(tools.split("+")),
        removes=moved if effect == "removes" else (),
        sets_aside=moved if effect == "sets aside" else (),
    )


def test_all_vectors_are_there() -> None:
    assert sorted(VECTORS, key=lambda name: int(name[1:])) == [f"S{number}" for number in range(1, 15)]


@pytest.mark.parametrize("reading", READINGS)
@pytest.mark.parametrize("name", VECTORS)
def test_vector(name: str, reading: str) -> None:
    row = VECTORS[name]
    steps = depth_of(counted_steps(operations_of(row["operations"]), READINGS[reading]))
    steps += PAIRING_STEPS * int(row["serial_processes"])
    assert steps == int(row[reading])
    if reading == "steps":
        assert depth_points(steps) == int(row["points"])


def test_every_step_says_what_ended_it() -> None:
    endings = [step.ending for step in counted_steps(operations_of(VECTORS["S10"]["operations"]))]
    assert endings == [Ending.BEFORE_HEAT, Ending.CLEANED, Ending.REMOVED]
    endings = [step.ending for step in counted_steps(operations_of(VECTORS["S13"]["operations"]))]
    assert endings == [Ending.SET_ASIDE, Ending.REMOVED]
    endings = [step.ending for step in counted_steps(operations_of("a; b; a; hand"))]
    assert endings == [Ending.TOOL, Ending.TOOL, Ending.LAST]


def test_a_mere_look_counts_nothing() -> None:
    look = Operation(LOOK)
    run = operations_of(VECTORS["S5"]["operations"])
    spread = [piece for operation in run for piece in (look, operation)]
    assert depth_of(counted_steps(spread)) == depth_of(counted_steps(run))


# --- the fewest steps over all orders -------------------------------------------------------------------------------

RUNS = st.lists(
    st.builds(
        Operation,
        st.sampled_from((WORK, WORK, WORK, HEAT, CLEAN, LOOK)),
        st.sets(st.sampled_from("abc"), max_size=2).map(frozenset),
        removes=st.sampled_from(((), (), (PartId("p"),))),
        sets_aside=st.sampled_from(((), (), (), (PartId("q"),))),
    ),
    max_size=6,
)


def tried(run: Sequence[Operation], needs: Sequence[Sequence[int]], counting: Counting) -> int:
    """The least count over every order that meets all needs."""
    counts = []
    for order in permutations(range(len(run))):
        done = 0
        for number in order:
            if not all(choice & done for choice in needs[number]):
                break
            done |= 1 << number
        else:
            counts.append(depth_of(counted_steps([run[number] for number in order], counting)))
    return min(counts)


@settings(max_examples=examples(120))
@given(RUNS, st.data(), st.booleans(), st.booleans(), st.booleans())
def test_fewest_steps_are_those_of_trying_every_order(
    run: list[Operation], data: st.DataObject, set_aside: bool, hand: bool, each: bool
) -> None:
    counting = Counting(set_aside, hand, each)
    needs = [
        tuple(data.draw(st.lists(st.integers(1, (1 << number) - 1), max_size=2))) if number else ()
        for number in range(len(run))
    ]
    assert fewest_steps(run, needs, counting) == tried(run, needs, counting)


def test_a_look_does_not_raise_the_bound() -> None:
    run = [
        Operation(WORK, frozenset("a")),
        Operation(WORK, sets_aside=(PartId("q"),)),
        Operation(WORK),
        Operation(LOOK, removes=(PartId("p"),)),
    ]
    needs: list[tuple[int, ...]] = [(), (), (1,), ()]
    assert fewest_steps(run, needs, Counting(is_hand_a_tool=True)) == tried(run, needs, Counting(is_hand_a_tool=True)) == 2


def test_no_figure_where_the_proof_would_take_too_long(monkeypatch: pytest.MonkeyPatch) -> None:
    run = [Operation(WORK, frozenset(tool)) for tool in "abcabc"]
    needs = [(1 << (number - 3),) if number >= 3 else () for number in range(6)]
    assert fewest_steps(run, needs) == 3
    monkeypatch.setattr(counting, "STATE_LIMIT", 3)
    assert fewest_steps(run, needs) is None
