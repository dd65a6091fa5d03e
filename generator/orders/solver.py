"""A second opinion on big choices, from a solver for whole-number programs, where one is installed (the extra `solver`).

A step is 0 or 1; of every clause of a step that is done one member has to be done, and one step of each goal. A solution may
still hold steps that wait for each other in a ring: for these it is then asked that something from outside the ring is done.
The first of the ring's steps to be done needs such a thing, so no way is cut off.
Source: reference notes on ordering, section 3. HiGHS: Huangfu and Hall, Math. Prog. Comp. 10, 2018,
doi:10.1007/s12532-017-0130-5.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from importlib import import_module
from importlib.metadata import PackageNotFoundError, version
from typing import Any

from generator.orders.chaining import ItemSet, Needs, item_set, members, saturate

SOLVED_AGAIN = 30
"""Times rings are cut off before what is known by then is given."""

NODES = 400
"""Branches of each solve. Nothing is limited by time, so that the same question has the same answer on any machine."""

SETTINGS = (
    ("output_flag", False), ("log_to_console", False), ("threads", 1), ("random_seed", 0), ("mip_max_nodes", NODES),
    ("mip_rel_gap", 0.0),
)  # fmt: skip

SLACK = 1e-6


def can_solve() -> bool:
    """Whether a version of the solver is installed that says nothing by itself.

    From 1.16 on it writes a notice of its licence to standard output, where a document for programs may be expected.
    """
    try:
        found = version("highspy").split(".")
    except PackageNotFoundError:
        return False
    return found[0] == "1" and found[1].isdecimal() and 15 <= int(found[1]) < 16


def cheapest_by_solver(
    needs: Needs, costs: Sequence[int], allowed: ItemSet, certain: ItemSet, goals: Sequence[ItemSet]
) -> tuple[ItemSet | None, int]:
    """A cheap set that can be done, holds `certain` and meets every goal, and what no such set costs less than.

    None instead of a set where none was found before a limit. allowed: items that can be done, all of them together.
    """
    program = _Program(needs, costs, allowed, certain, goals)
    bound = 0
    for _ in range(SOLVED_AGAIN):
        chosen, proved = program.solved()
        bound = max(bound, proved)
        if chosen is None:
            break
        doable = saturate(needs, chosen)
        if all(goal & doable for goal in goals) and not certain & ~doable:
            return doable, bound
        program.cut_off(_ring(needs, chosen & ~doable, doable, allowed))
    return None, bound


class _Program:
    """The whole-number program, to which rows are added as rings come up."""

    def __init__(
        self, needs: Needs, costs: Sequence[int], allowed: ItemSet, certain: ItemSet, goals: Sequence[ItemSet]
    ) -> None:
        highspy: Any = import_module("highspy")
        self.items = list(members(allowed))
        self.column = {item: column for column, item in enumerate(self.items)}
        self.kinds = highspy
        self.highs = highspy.Highs()
        self.infinite = float(highspy.kHighsInf)
        for option, value in SETTINGS:
            self.highs.setOptionValue(option, value)
        for item in self.items:
            self.highs.addVar(float(certain >> item & 1), 1.0)
        for column, item in enumerate(self.items):
            self.highs.changeColCost(column, float(costs[item]))
            self.highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)
        for item in self.items:
            for clause in needs[item]:
                self._wants(item, clause & allowed)
        for goal in goals:
            self._wants(None, goal & allowed)

    def cut_off(self, ring: tuple[ItemSet, ItemSet]) -> None:
        """No item of a ring without something that one of them waits for from outside."""
        items, outside = ring
        for item in members(items):
            self._wants(item, outside)

    def solved(self) -> tuple[ItemSet | None, int]:
        """The cheapest solution found, and a whole number that none costs less than."""
        self.highs.run()
        info = self.highs.getInfo()
        bound = info.mip_dual_bound
        whole = math.ceil(bound - SLACK) if math.isfinite(bound) else 0
        if info.primal_solution_status != self.kinds.SolutionStatus.kSolutionStatusFeasible:
            return None, whole
        values = self.highs.getSolution().col_value
        return item_set([item for item, value in zip(self.items, values, strict=True) if value > 0.5]), whole

    def _wants(self, item: int | None, others: ItemSet) -> None:
        """One of `others` if `item` is done; in any case if it is None."""
        if item is not None and others >> item & 1:
            return
        columns = [self.column[other] for other in members(others)]
        weights = [1.0] * len(columns)
        if item is not None:
            columns.append(self.column[item])
            weights.append(-1.0)
        self.highs.addRow(1.0 if item is None else 0.0, self.infinite, len(columns), columns, weights)


def _ring(needs: Needs, stuck: ItemSet, done: ItemSet, allowed: ItemSet) -> tuple[ItemSet, ItemSet]:
    """Stuck items that wait for each other, as few as are found, and what else the needs between them could be met by."""
    waits = {item: next(clause for clause in needs[item] if not clause & done) & allowed for item in members(stuck)}
    items = min(_closures(waits, stuck), key=lambda found: (found.bit_count(), found))
    outside = 0
    for item in members(items):
        outside |= waits[item]
    return items, outside & ~items


def _closures(waits: dict[int, ItemSet], stuck: ItemSet) -> Iterator[ItemSet]:
    """For each stuck item all that it waits for, directly or not, of what is stuck as well."""
    for start in waits:
        found, fresh = 1 << start, 1 << start
        while fresh:
            reached = 0
            for item in members(fresh):
                reached |= waits[item] & stuck
            fresh = reached & ~found
            found |= fresh
        yield found
