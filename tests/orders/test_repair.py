"""Repair of an order against trying everything; its reasons, its pinned steps, and what is known about hard cases."""

from __future__ import annotations

import random
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import networkx
import pytest

from generator.orders.antichains import largest_antichain
from generator.orders.chaining import members
from generator.orders.keeping import order_keeping
from generator.orders.necessity import gates_of
from generator.orders.repair import Conflict, NoOrder, Repair, repair_order, repaired
from tests.orders.needs import can_stay, fewest_moves, is_possible, made_up, numbers_of, stepwise_of
from tests.orders.test_published_graphs import GRAPHS, waits_of
from tests.orders.test_routes import ANATOMY, DEVICE, box

CASES = 400
SHARES = (0.0, 0.5, 0.9)


def case(seed: int) -> tuple[list[list[int]], list[int]]:
    """Needs of 2 to 8 steps, every third time with filmed ones among them."""
    chance = random.Random(f"repair {seed}")
    needs = made_up(chance, chance.randint(2, 8), SHARES[seed % 3])
    filmed = [number for number in range(len(needs)) if chance.random() < 0.2] if chance.random() < 0.3 else []
    return needs, filmed


def moves(needs: list[list[int]], order: list[int]) -> Repair:
    """The repair when the author has the items of `needs` in `order`; steps are named by their place in it."""
    place = {item: index for index, item in enumerate(order)}
    placed = [[sum(1 << place[m] for m in members(clause)) for clause in needs[item]] for item in order]
    found = repaired(stepwise_of(placed))
    assert isinstance(found, Repair)
    return found


# --- against trying everything ---


@pytest.mark.parametrize("share", range(4))
def test_no_repair_moves_fewer_steps(share: int) -> None:
    for seed in range(share, CASES, 4):
        needs, filmed = case(seed)
        found, least = repaired(stepwise_of(needs, filmed)), fewest_moves(needs, filmed)
        if isinstance(found, NoOrder):
            assert least is None, f"case {seed}"
            assert (found.ring is None) == can_stay(needs, ()), f"case {seed}"
        else:
            assert (len(found.moved), found.bound, found.is_optimal) == (least, least, True), f"case {seed}"


def test_cases_are_of_every_kind() -> None:
    found = [repaired(stepwise_of(*case(seed))) for seed in range(CASES)]
    assert sum(isinstance(each, NoOrder) and each.ring is None for each in found) > 0.02 * CASES
    assert sum(isinstance(each, Repair) and len(each.moved) > 1 for each in found) > 0.3 * CASES
    assert sum(isinstance(each, Repair) and any(c.stay > 1 for c in each.because) for each in found) > 0.01 * CASES


def test_the_repaired_order_is_possible_and_leaves_what_stays_in_its_order() -> None:
    for seed in range(CASES):
        needs, filmed = case(seed)
        found = repaired(stepwise_of(needs, filmed))
        if isinstance(found, Repair):
            order, moved = numbers_of(found.order), set(numbers_of(found.moved))
            assert sorted(order) == list(range(len(needs)))
            assert is_possible(needs, order), f"case {seed}"
            kept = [number for number in order if number not in moved]
            assert kept == sorted(kept), f"case {seed}"
            assert not moved & {*filmed}, f"case {seed}"


def test_a_possible_order_is_repaired_to_itself() -> None:
    for seed in range(CASES):
        needs, _ = case(seed)
        found = repaired(stepwise_of(needs))
        if isinstance(found, Repair):
            again = moves(needs, numbers_of(found.order))
            assert (again.moved, numbers_of(again.order)) == ((), list(range(len(needs)))), f"case {seed}"


# --- reasons ---


def test_conflicts_are_true_and_chains_share_no_step() -> None:
    for seed in range(CASES):
        needs, filmed = case(seed)
        found = repaired(stepwise_of(needs, filmed))
        if not isinstance(found, Repair):
            continue
        seen: set[int] = set()
        for chain in found.chains:
            numbers = numbers_of(chain.steps)
            assert numbers == sorted(numbers) and not seen & set(numbers), f"case {seed}"
            seen |= set(numbers) - set(filmed)
            assert_true(needs, chain)
        for step, conflict in zip(found.moved, found.because, strict=True):
            assert step in conflict.steps and not set(found.moved) & (set(conflict.steps) - {step}), f"case {seed}"
            assert_true(needs, conflict)


def test_a_conflict_seen_at_once_is_told_without_what_it_can_spare() -> None:
    """Step 1 waits for 2, 3 or 4, which all come later; 4 waits for 2 or 3 itself, so that 1, 2 and 3 are enough to say."""
    needs = [[20], [28], [48], [36, 36], [12], []]
    found = repaired(stepwise_of(needs))
    assert isinstance(found, Repair) and found.is_optimal and len(found.moved) == 2
    for chain in found.chains:
        assert_true(needs, chain)


def assert_true(needs: list[list[int]], conflict: Conflict) -> None:
    """As said: any `stay` of them can stay, no more; and each link is a way of single needs."""
    numbers = numbers_of(conflict.steps)
    if conflict.stay == 1:
        assert all(not can_stay(needs, pair) for pair in pairwise(numbers))
    else:
        assert conflict.stay == len(numbers) - 1 and not can_stay(needs, numbers)
        assert all(can_stay(needs, [n for n in numbers if n != spared]) for spared in numbers)
    for link, pair in zip(conflict.links, pairwise(numbers), strict=bool(conflict.links)):
        way = numbers_of(link)
        assert (way[0], way[-1]) == pair
        assert all(1 << after in needs[before] for before, after in pairwise(way))


def test_chains_alone_prove_the_number_of_moves_where_every_need_is_certain() -> None:
    for seed in range(0, CASES, 3):
        needs, filmed = case(seed)
        found = repaired(stepwise_of(needs, filmed))
        if isinstance(found, Repair):
            assert found.proved_by_chains == len(found.moved), f"case {seed}"
            assert all(len(chain.links) == len(chain.steps) - 1 for chain in found.chains)


def test_never_more_is_proved_than_found() -> None:
    chance = random.Random("bounds")
    for _ in range(30):
        needs = made_up(chance, 40, 0.8)
        for limit in (0, 3, 1000):
            found = repaired(stepwise_of(needs), limit)
            if isinstance(found, Repair):
                assert found.proved_by_chains <= found.bound <= len(found.moved)


# --- known cases ---


def test_of_three_any_two_can_stay_but_not_all() -> None:
    """c, a, b where c waits for a or b."""
    needs = [[0b110], [], []]
    assert all(can_stay(needs, pair) for pair in ((0, 1), (0, 2), (1, 2)))
    found = repaired(stepwise_of(needs))
    assert isinstance(found, Repair)
    assert (len(found.moved), found.bound) == (1, 1)
    assert [(numbers_of(c.steps), c.stay) for c in found.because] == [([0, 1, 2], 2)]


def test_a_ring_of_five_is_covered_by_three() -> None:
    """Vertex cover as an order: of each edge one end has to come before its six copies; the least cover of a 5-ring is 3."""
    ends = [30 + corner for corner in range(5)]
    needs = [[1 << ends[edge] | 1 << ends[(edge + 1) % 5]] for edge in range(5) for _ in range(6)] + [[]] * 5
    found = repaired(stepwise_of(needs))
    assert isinstance(found, Repair)
    assert (len(found.moved), found.bound) == (3, 3)
    assert set(numbers_of(found.moved)) <= set(ends)


def test_one_step_late_is_one_move() -> None:
    """The last step is needed by all others: it moves to the front, nothing else does."""
    needs = [[1 << 9]] * 9 + [[]]
    found = repaired(stepwise_of(needs))
    assert isinstance(found, Repair)
    assert numbers_of(found.order) == [9, *range(9)]
    assert numbers_of(found.moved) == [9]


def test_what_is_not_needed_early_is_not_brought_forward() -> None:
    assert order_keeping([[1 << 4], [], [1 << 5], [], [], []], 0b001111) == (4, 0, 1, 5, 2, 3)
    with pytest.raises(ValueError, match="cannot come"):
        order_keeping([[0b10], []], 0b11)


@pytest.mark.parametrize("name", GRAPHS)
def test_published_graphs_mixed_up(name: str) -> None:
    """The moves are the size of a maximum matching, as another program finds it."""
    waits = waits_of(GRAPHS[name])
    needs = [[sum(1 << m for m in clause) for clause in each] for each in waits]
    chance = random.Random(name)
    order = chance.sample(range(len(needs)), len(needs))
    found = moves(needs, order)
    closed: networkx.DiGraph[int] = networkx.DiGraph((m, n) for n, each in enumerate(waits) for (m,) in each)
    closed = networkx.transitive_closure_dag(closed)
    place = {item: index for index, item in enumerate(order)}
    pairs: networkx.Graph[tuple[str, int]] = networkx.Graph()
    pairs.add_edges_from((("waits", b), ("late", a)) for a, b in closed.edges if place[b] < place[a])
    waiting = [node for node in pairs if node[0] == "waits"]
    matching = networkx.bipartite.hopcroft_karp_matching(pairs, waiting)
    assert len(found.moved) == found.bound == found.proved_by_chains == len(matching) // 2


def test_gates_are_what_cannot_be_spared() -> None:
    for seed in range(60):
        needs, _ = case(seed)
        everything = (1 << len(needs)) - 1
        if not can_stay(needs, ()):
            continue
        for item, gates in enumerate(gates_of(needs, everything)):
            for other in range(len(needs)):
                assert bool(gates >> other & 1) == (other != item and not can_stay(needs, (item, other))), f"case {seed}"


def test_where_either_could_stay_the_awaited_one_does() -> None:
    """Of each pair what is awaited stays and what waits for it moves."""
    assert largest_antichain([0b10, 0, 0b1000, 0], 0b1111).items == 0b1010
    assert largest_antichain([0b110, 0, 0], 0b111).items == 0b110


# --- guides ---


def test_a_guide_is_repaired_with_what_is_filmed_in_its_place(tmp_path: Path) -> None:
    late = DEVICE.replace("take-cell, take-board", "take-cell")
    late = late.replace("open-lid, unplug-cell", "unplug-cell, take-board, open-lid")
    found = box(tmp_path, late).repair
    assert isinstance(found, Repair)
    assert [step.id for step in found.moved] == ["open-lid"]
    filmed = box(
        tmp_path, late, open_lid="filmed: true\nwork: [{undo: lid-screws}, {lift: lid}]"
    ).repair
    assert isinstance(filmed, Repair)
    assert [step.id for step in filmed.moved] == ["unplug-cell", "take-board"]
    assert [step.id for step in filmed.order][:3] == ["open-lid", "unplug-cell", "take-board"]


def test_filmed_steps_that_cannot_all_stay_are_named(tmp_path: Path) -> None:
    guide = box(
        tmp_path,
        DEVICE.replace("open-lid, unplug-cell", "unplug-cell, open-lid"),
        open_lid="filmed: true\nwork: [{undo: lid-screws}, {lift: lid}]",
        unplug_cell="filmed: true\nwork: [{undo: cell-plug, with: lever}]",
    )
    found = repair_order(guide)
    assert isinstance(found, NoOrder) and found.ring is None and found.filmed is not None
    assert [step.id for step in found.filmed.steps] == ["unplug-cell", "open-lid"]


def test_a_ring_is_no_matter_of_moving_steps(tmp_path: Path) -> None:
    found = repair_order(box(tmp_path, anatomy=ANATOMY.replace("board: {", "board: {under: fan, ")))
    assert isinstance(found, NoOrder) and found.ring is not None
    assert len(found.ring.steps) == 2


def test_what_no_step_does_is_left_aside(tmp_path: Path) -> None:
    found = box(tmp_path, DEVICE.replace("open-lid, unplug-cell, take-cell, take-board", "take-board, unplug-cell")).repair
    assert isinstance(found, Repair)
    assert len(found.moved) == 1


def test_the_same_under_any_order_of_hashes() -> None:
    script = (
        "import random\nfrom tests.orders.needs import made_up, stepwise_of\nfrom generator.orders.repair import repaired\n"
        "chance = random.Random(7)\n"
        "print([repaired(stepwise_of(made_up(chance, 30, 0.7)), 50) for _ in range(6)])"
    )
    root = Path(__file__).parents[2]
    answers = {
        subprocess.run([sys.executable, "-c", script], cwd=root, env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(root)},
                       capture_output=True, check=True).stdout
        for seed in ("1", "77")
    }  # fmt: skip
    assert len(answers) == 1
