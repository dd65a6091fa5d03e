"""The plan as SVG: one stored drawing, hostile names, ids and bytes."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

from generator.figures.plan.drawing import plan_figure
from generator.figures.plan.geometry import plan_of
from generator.figures.svg import ident
from generator.orders.work import Step
from tests.figures.plan.devices import LAMP, LAMP_FACES, LAMP_SIZE, anatomy, before, joint, part, step

HOSTILE = '"><script>alert(1)</script>&\x00]]>'
SVG = "{http://www.w3.org/2000/svg}"


def lamp(work: Step, out: tuple[str, ...] = (), name: str = "lamp-step") -> str:
    return plan_figure(plan_of(LAMP, work, before(out=out), number=4, faces=LAMP_FACES, size=LAMP_SIZE), ident(name))


def test_the_drawing_of_the_lamp() -> None:
    """Stored text; after a wanted change look at the new drawing, then store it."""
    drawn = lamp(step("Take out the driver", ("undo", "driver-pads"), ("lift", "driver")), ("shade",))
    stored = Path(__file__).with_name("lamp-driver.svg.txt")
    assert drawn.replace("><", ">\n<") + "\n" == stored.read_text(encoding="utf-8")


def test_title_and_desc_say_what_the_plan_shows() -> None:
    root = ET.fromstring(lamp(step("Take off the shade", ("undo", "shade-screws"), ("lift", "shade")), ("switch",)))
    svg = root[0]
    assert svg.findtext(f"{SVG}title") == "Plan of step 4: Take off the shade"
    assert svg.findtext(f"{SVG}desc") == (
        "Top view, top up. In hand: shade. Joints: 3 screws (1–3). Lengths: 3.0 mm (1, 3), 4.5 mm (2). "
        "Lift toward you: shade. Already out: switch. Not drawn, because no place is given: cord."
    )


def test_hostile_names_stay_text() -> None:
    device = anatomy(
        "base",
        [part("lid", (0, 0, 50, 90), face=HOSTILE, called=HOSTILE), part("cord", called=HOSTILE), part("base")],
        [joint("s", "screws", ["lid", "base"]), joint("t", "press", ["cord", "base"])],
    )
    work = step(HOSTILE, ("undo", "s"), ("undo", "t"), ("lift", "lid"), ("lift", "cord"), ("check", HOSTILE))
    drawn = plan_figure(plan_of(device, work, before(HOSTILE), number=1, faces=(HOSTILE,)), ident(HOSTILE))
    root = ET.fromstring(drawn)
    assert "script" not in {element.tag.rpartition("}")[2] for element in root.iter()}
    assert "<script" not in drawn


def test_ids_of_two_plans_on_a_page_do_not_meet() -> None:
    work = step("a", ("undo", "driver-pads"), ("lift", "driver"))
    one, other = (set(re.findall(r' id="([^"]+)"', lamp(work, ("shade",), name))) for name in ("a", "b"))
    assert one and not one & other
    assert len(one) == len(re.findall(r' id="', lamp(work, ("shade",), "a")))


def test_every_reference_has_its_id() -> None:
    drawn = lamp(step("a", ("undo", "driver-pads"), ("lift", "driver")), ("shade",))
    ids = set(re.findall(r' id="([^"]+)"', drawn))
    used = set(re.findall(r"url\(#([^)]+)\)", drawn)) | set(" ".join(re.findall(r'labelledby="([^"]+)"', drawn)).split())
    assert used == ids


def test_nothing_but_hatches_is_coloured_here() -> None:
    drawn = lamp(step("a", ("undo", "shade-screws"), ("lift", "shade")))
    assert set(re.findall(r'(?:fill|stroke|font[a-z-]*|style)="([^"]+)"', drawn)) == {"url(#lamp-step-hatch)"}
    assert len(drawn) < 15_000
