"""How long orders take to check, repair, route and regroup, as a table: `python -m tests.bench.orders [LARGEST]`.

Made-up devices of 20 to 5000 steps (up to LARGEST; 1000 if not given, which takes about a minute). Not part of the tests:
what is right is tested elsewhere, this only tells seconds, and how far above a proved bound a found value lies. `noted` is
what was measured for prototypes of the same methods, some of them with a solver, on another machine of the same kind.
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import PartId
from generator.orders.chaining import members
from generator.orders.critical import critical_chain
from generator.orders.guide import Device, Guide
from generator.orders.repair import Repair, repaired
from generator.orders.rings import rings
from generator.orders.routes import Route, best_route
from generator.orders.setups import fewest_changes
from generator.orders.stepwise import StepClause, Stepwise
from generator.orders.walk import walk
from generator.orders.work import ToolId, Verb
from tests.devices import BASE, PLACE, PLACES, action, part, random_fixture, step
from tests.orders.needs import stepwise_of

SIZES = (20, 40, 80, 160, 1000, 5000)
SEEDS = 3

Needs = list[list[int]]
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Line:
    """One computation on one size: the worst of some seeds. value and bound of that one; noted: the prototype's seconds."""

    computation: str
    steps: int
    seconds: float
    value: int
    bound: int
    proved: str
    noted: str


def table(largest: int) -> Iterator[Line]:
    for size in (size for size in SIZES if size <= largest):
        yield from checks(size)
        yield from repairs(size)
        yield from routes(size)
        yield from setups(size)


# --- made-up needs ------------------------------------------------------------------------------------------------


def device_like(chance: random.Random, size: int, share_of_choices: float) -> tuple[Needs, list[int]]:
    """Nested parts, each held by one to four fasteners that lie behind its holder; and the steps that take parts out.

    Steps come in a possible order. Choices ask for one of two parts, besides what is asked anyway.
    """
    needs: Needs = []
    parts: list[int] = []
    while len(needs) < size:
        holder = parts[max(0, len(parts) - 1 - int(chance.expovariate(0.5)))] if parts else None
        fasteners = []
        for _ in range(min(chance.choice((1, 2, 2, 3, 4)), size - 1 - len(needs))):
            asked = [1 << holder] if holder is not None else []
            if parts and chance.random() < 0.1:
                asked.append(1 << chance.choice(parts))
            if len(parts) > 1 and chance.random() < share_of_choices:
                asked.append(sum(1 << other for other in chance.sample(parts, 2)))
            fasteners.append(len(needs))
            needs.append(asked)
        parts.append(len(needs))
        needs.append([1 << fastener for fastener in fasteners])
    return needs, parts


def windowed(chance: random.Random, size: int, share_of_choices: float) -> Needs:
    """Two needs a step, each for a step at most 30 before it, or for one of two such steps."""
    needs: Needs = [[] for _ in range(size)]
    for number in range(1, size):
        for _ in range(2):
            wanted = {chance.randrange(max(0, number - 30), number)}
            if chance.random() < share_of_choices:
                wanted.add(chance.randrange(max(0, number - 30), number))
            needs[number].append(sum(1 << each for each in wanted))
    return needs


def mixed_up(chance: random.Random, needs: Needs, moves: int) -> Needs:
    """The same needs where `moves` steps have been taken out of their place and put elsewhere."""
    order = list(range(len(needs)))
    for _ in range(moves):
        order.insert(chance.randrange(len(order)), order.pop(chance.randrange(len(order))))
    place = {item: index for index, item in enumerate(order)}
    return [[sum(1 << place[m] for m in members(clause)) for clause in needs[item]] for item in order]


def guide_of(needs: Needs, tools: Sequence[int]) -> Guide:
    """A guide whose steps lift one part each, by hand (0) or with a tool, and wait for each other as `needs` says."""
    names = [PartId(f"p{number}") for number in range(len(needs))]
    anatomy = Anatomy(BASE, {BASE: part(BASE), **{name: part(name) for name in names}})
    steps = tuple(
        step(f"s{number}", [action(Verb.LIFT, part=name, tools=(ToolId(f"t{tool}"),) if tool else ())])
        for number, (name, tool) in enumerate(zip(names, tools, strict=True))
    )
    guide = Guide("bench", Device("bench", PLACE, PLACES), anatomy, steps)
    plain = stepwise_of(needs)
    clauses = tuple(StepClause(clause.step, clause.items, clause.source) for clause in plain.clauses)
    guide.__dict__["stepwise"] = Stepwise(steps, clauses, plain.needs, plain.needs)
    return guide


# --- what is timed --------------------------------------------------------------------------------------------------


def checks(size: int) -> Iterator[Line]:
    """A whole walk of a made-up device (to 160 steps), then rings and the critical chain of bare needs."""
    if size <= 160:
        one = random_fixture(size, max(size // 2, 3))
        order = one.order[:size]
        seconds, found = timed(lambda: walk(one.anatomy, one.faces, one.power, order))
        yield Line("check: walk", len(order), seconds, len(found.unmet), len(found.unmet), "-", "0.0002 (80), 0.01 (5000)")
    needs, _ = device_like(random.Random(size), size, 0.1)
    plain = stepwise_of(needs)
    seconds, chain = timed(lambda: (rings(plain), critical_chain(plain))[1])
    yield Line("rings and critical chain", size, seconds, len(chain), len(chain), "-", "")


def repairs(size: int) -> Iterator[Line]:
    noted = {
        (0.0, 20): {5000: "2.2", 1000: "0.05"},
        (0.0, 1): {5000: "0.3", 1000: "0.02"},
        (0.1, 20): {160: "0.02", 1000: "0.17 (500)"},
        (0.5, 20): {160: "0.02", 1000: "0.17 (500)"},
        (0.1, 1): {40: "0.02", 160: "0.8"},
        (0.5, 1): {40: "0.03", 160: "10.7"},
    }
    for share, apart in noted:
        if share and size > (1000 if apart > 1 else 160):
            continue
        chances = [random.Random(f"{size} {seed} {share} {apart}") for seed in range(SEEDS)]
        plains = [stepwise_of(mixed_up(c, windowed(c, size, share), max(3, size // apart))) for c in chances]

        def repair(plain: Stepwise) -> tuple[int, int]:
            found = repaired(plain)
            assert isinstance(found, Repair)
            return len(found.moved), found.bound

        name = f"repair: choices {share:.0%}, {'5% displaced' if apart > 1 else 'all displaced'}"
        yield worst(name, size, repair, plains, noted[share, apart].get(size, ""))


def routes(size: int) -> Iterator[Line]:
    for share in (0.1, 0.4):
        found = [device_like(random.Random(f"{size} {seed} {share}"), size, share) for seed in range(SEEDS)]
        guides = [(guide_of(needs, [0] * size), PartId(f"p{parts[-1]}")) for needs, parts in found]

        def route(asked: tuple[Guide, PartId]) -> tuple[int, int]:
            way = best_route(asked[0], (asked[1],))
            assert isinstance(way, Route)
            return way.cost, way.bound

        noted = {160: "0.01 (200)", 1000: "0.15", 5000: "0.04"}.get(size, "0.01")
        yield worst(f"route: device-like, choices {share:.0%}", size, route, guides, noted)
    if size > 160:
        return
    for share in (0.3, 0.7):
        needs = [windowed(random.Random(f"{size} {seed} {share}"), size, share) for seed in range(SEEDS)]
        asked = [(guide_of(each, [0] * size), PartId(f"p{size - 1}")) for each in needs]
        noted = {160: "0.03-0.20 (200, with a solver)"}.get(size, "0.01")
        yield worst(f"route: random, choices {share:.0%}", size, route, asked, noted)


def setups(size: int) -> Iterator[Line]:
    if size > 160:
        return
    noted = {(80, 6): "0.05", (160, 6): "0.43", (80, 8): "0.08", (160, 8): "3.4"}
    for tools in (6, 8):
        guides = []
        for seed in range(SEEDS):
            chance = random.Random(f"{size} {seed} tools")
            needs, parts = device_like(chance, size, 0.1)
            tool = 1
            held = []
            for number in range(size):
                tool = chance.randint(1, tools) if chance.random() < 0.35 else tool
                held.append(0 if number in parts and chance.random() < 0.5 else tool)
            guides.append(guide_of(needs, held))

        def changes(guide: Guide) -> tuple[int, int]:
            found = fewest_changes(guide, guide.order)
            assert found is not None
            return found.changes, found.bound[0]

        yield worst(f"tool changes: device-like, {tools} tools", size, changes, guides, noted.get((size, tools), "0.00"))


def worst(name: str, size: int, work: Callable[[T], tuple[int, int]], cases: Sequence[T], noted: str) -> Line:
    """The slowest of the cases, with its value and bound, and how many of them were proved."""
    lines = []
    for case in cases:
        seconds, answer = timed(partial(work, case))
        lines.append((seconds, *answer))
    proved = sum(value == bound for _, value, bound in lines)
    seconds, value, bound = max(lines)
    return Line(name, size, seconds, value, bound, f"{proved} of {len(lines)}", noted)


def timed(work: Callable[[], T]) -> tuple[float, T]:
    """Seconds of processor time, and the answer."""
    start = time.process_time()
    answer = work()
    return time.process_time() - start, answer


def main(largest: int) -> None:
    print(f"{'computation':<42} {'steps':>5} {'seconds':>8} {'value':>6} {'bound':>6}  {'proved':<7} noted")
    for line in table(largest):
        print(
            f"{line.computation:<42} {line.steps:>5} {line.seconds:>8.3f} {line.value:>6} {line.bound:>6}  "
            f"{line.proved:<7} {line.noted}",
            flush=True,
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
