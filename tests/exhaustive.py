"""Answers found by trying everything, for devices small enough to allow it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from generator.anatomy.parts import PartId
from generator.orders.work import Step, StepId, Verb
from tests.devices import Device, untouched
from tests.simulator import Bench

IDLE = (Verb.TURN, Verb.WAIT)


def performable_orders(device: Device, is_laid: bool = True) -> Iterator[tuple[Step, ...]]:
    """Every order of all steps of the device's `order` that can be done, in the author's order of first choice."""

    def go_on(bench: Bench, left: tuple[Step, ...]) -> Iterator[tuple[Step, ...]]:
        if not left:
            yield ()
        for step in left:
            then = bench.after(step)
            if then is not None:
                rest = tuple(other for other in left if other is not step)
                for tail in go_on(then, rest):
                    yield (step, *tail)

    yield from go_on(untouched(device, is_laid), device.order)


def performable_sets(device: Device) -> dict[frozenset[StepId], Bench]:
    """Every set of steps (order and alternatives, idle ones left out) that can be done in some order, faces aside.

    All orders are tried; those that have done the same steps are followed further once only, from whichever came first,
    because without faces it does not matter in what order the same has been done (`test_order_leaves_no_trace`).
    """
    steps = worth_choosing(device)
    found = {frozenset[StepId](): untouched(device)}
    waiting = [frozenset[StepId]()]
    while waiting:
        done = waiting.pop()
        for step in steps:
            if step.id not in done and done | {step.id} not in found:
                then = found[done].after(step)
                if then is not None:
                    found[done | {step.id}] = then
                    waiting.append(done | {step.id})
    return found


def worth_choosing(device: Device) -> tuple[Step, ...]:
    """The steps that do something: those that only turn or wait are never part of a chosen set."""
    return tuple(step for step in device.steps if any(action.verb not in IDLE for action in step.actions))


def least_cost(device: Device, targets: Collection[PartId]) -> int | None:
    """What the cheapest route to the targets costs (seconds or actions, see `cost_of`); None when there is no way."""
    costs = [
        cost_of(device, chosen)
        for chosen in performable_sets(device)
        if set(targets) <= {part for step in device.steps if step.id in chosen for part in step.lifted}
    ]
    return min(costs, default=None)


def cost_of(device: Device, chosen: Collection[StepId]) -> int:
    """Seconds where every step of the guide says how long it takes, else actions and the turns put in between."""
    order = canonical_order(device, chosen)
    if order is None:
        raise ValueError(f"these steps cannot be done by themselves: {sorted(chosen)}")
    if all(step.takes is not None for step in device.steps):
        return sum(step.takes or 0 for step in order)
    return sum(len(step.actions) for step in order) + inserted_turns(device, order)


def canonical_order(device: Device, chosen: Collection[StepId]) -> tuple[Step, ...] | None:
    """The chosen steps, each time the first in the author's order that can be done now, faces aside; None if stuck."""
    left = [step for step in device.steps if step.id in chosen]
    bench = untouched(device)
    order: list[Step] = []
    while left:
        for step in left:
            then = bench.after(step)
            if then is not None:
                bench = then
                order.append(step)
                left.remove(step)
                break
        else:
            return None
    return tuple(order)


def inserted_turns(device: Device, order: Sequence[Step]) -> int:
    """How often the device has to be turned over where the steps themselves do not say so."""
    bench = untouched(device, is_laid=True)
    turns = 0
    for step in order:
        for action in step.actions:
            refusals = [*bench.in_the_way(action)]
            if any(refusal.kind == "face" for refusal in refusals) and action.joint is not None:
                bench.up = device.anatomy.joints[action.joint].face
                turns += 1
            bench.perform(action)
    return turns
