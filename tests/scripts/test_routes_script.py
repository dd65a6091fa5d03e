"""The search in the page against the search of the program: the same steps, in the same order, with the same turns."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

from generator.anatomy.parts import PartId
from generator.orders.guide import Device, Guide
from generator.orders.problems import problem_of
from generator.orders.routes import NoRoute, best_route
from generator.orders.work import Step, ToolId
from tests.devices import PLACE, PLACES, route_device
from tests.pages.sites import demo
from tests.scripts.running import value_of

DEVICES = 600
TOOLS = ("pick", "driver", "tweezers")


def guide_of(seed: int) -> Guide:
    """A device made up at random, with tools in every other one, so that ties are decided by them."""
    one = route_device(seed)
    chance = random.Random(f"tools {seed}")
    record = Device("device", PLACE, PLACES, faces=one.faces, power=one.power)
    order, alternatives = one.order, one.alternatives
    if chance.random() < 0.5:
        order, alternatives = (tuple(_equipped(step, chance) for step in steps) for steps in (order, alternatives))
    return Guide("device", record, one.anatomy, order, alternatives)


def _equipped(step: Step, chance: random.Random) -> Step:
    def tools() -> tuple[ToolId, ...]:
        return tuple(ToolId(name) for name in chance.sample(TOOLS, chance.choice((0, 1, 1, 2))))

    return replace(step, actions=tuple(replace(action, tools=tools()) for action in step.actions))


def asked_of(guide: Guide, seed: int) -> tuple[PartId, ...]:
    """One to four parts, mostly such as some step takes out."""
    chance = random.Random(f"script {seed}")
    lifted = list(dict.fromkeys(part for step in guide.steps for part in step.lifted if part != guide.anatomy.base))
    other = [part for part in guide.anatomy.parts if part != guide.anatomy.base]
    pool = lifted if lifted and chance.random() < 0.95 else other
    return tuple(chance.sample(pool, min(len(pool), chance.choice((1, 2, 2, 3, 4)))))


def program_says(guide: Guide, parts: tuple[PartId, ...]) -> dict[str, Any] | None:
    route = best_route(guide, parts)
    if isinstance(route, NoRoute):
        return None
    number_of = guide.stepwise.numbers()
    return {
        "steps": [number_of[step.id] for step in route.steps],
        "turns": [{"step": number_of[turn.step], "action": turn.number, "face": turn.face} for turn in route.added_turns],
        "cost": route.cost,
        "seconds": route.seconds,
        "toolChanges": route.tool_changes,
        "isOptimal": route.is_optimal,
    }


def compared(cases: list[tuple[Guide, tuple[PartId, ...]]]) -> list[dict[str, Any] | None]:
    data = [{"problem": problem_of(guide), "parts": parts} for guide, parts in cases]
    said = value_of("routes.js", "data.map(({problem, parts}) => partwayRoutes.bestRoute(problem, parts))", data)
    wanted = [program_says(guide, parts) for guide, parts in cases]
    for number, (script, program) in enumerate(zip(said, wanted, strict=True)):
        assert script == program, f"case {number}: {cases[number][1]}"
    return wanted


def test_the_page_finds_the_way_that_the_program_finds_on_any_device() -> None:
    guides = [guide_of(seed) for seed in range(DEVICES)]
    wanted = compared([(guide, asked_of(guide, seed)) for seed, guide in enumerate(guides)])
    found = [route for route in wanted if route is not None]
    assert len(found) >= 300 and len(wanted) - len(found) >= 50
    assert sum(bool(route["turns"]) for route in found) >= 30
    assert sum(route["seconds"] is not None for route in found) >= 30
    assert sum(route["toolChanges"] > 0 for route in found) >= 100


def test_no_step_is_done_for_nothing_by_either() -> None:
    """Devices on which a step more saves a turn and costs as much: the way without it is told."""
    compared([(guide, asked_of(guide, seed)) for seed in (4506, 5454) for guide in [guide_of(seed)]])


def test_the_page_finds_the_way_that_the_program_finds_in_the_demo() -> None:
    guide = demo().guides[0]
    pages = guide.device.pages
    assert pages is not None
    chance = random.Random("demo")
    sets = [tuple(chance.sample(pages, chance.randint(1, len(pages)))) for _ in range(40)]
    wanted = compared([(guide, parts) for parts in sets])
    assert any(route is not None and route["toolChanges"] > 3 for route in wanted)
