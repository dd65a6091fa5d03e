"""Order of painting and depths that the author left out."""

from __future__ import annotations

from hypothesis import given

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import PartId
from generator.figures.plan.stacking import Layer, box_of, layers, painted
from tests.figures.plan.devices import LAMP, anatomy, devices, joint, part


def test_depth_decides_and_the_far_side_lies_below_the_base() -> None:
    assert painted(LAMP, False, "underside") == ("weight", "foot", "board", "driver", "switch", "shade")
    assert painted(LAMP, True, "underside") == ("shade", "switch", "driver", "board", "foot", "weight")


def test_without_depths_the_first_part_is_outermost_and_what_is_inside_lies_on_top() -> None:
    device = anatomy(
        "d", [part("a", (0, 0, 9, 9)), part("b", (0, 0, 9, 9)), part("c", (0, 0, 3, 3), inside=PartId("b")), part("d")]
    )
    assert painted(device, False, None) == ("b", "c", "a")


def test_under_and_behind_overrule_the_order_of_the_anatomy() -> None:
    box = (0, 0, 9, 9)
    under = anatomy("d", [part("a", box, under=(PartId("b"),)), part("b", box), part("d")])
    assert painted(under, False, None) == ("a", "b")
    behind = anatomy("d", [part("a", box), part("b", box), part("d")], [joint("j", "plug", "ad", behind=(PartId("b"),))])
    assert painted(behind, False, None) == ("a", "b")


def test_parts_that_lie_over_each_other_in_a_ring_are_all_painted() -> None:
    box = (0, 0, 9, 9)
    ring = anatomy("d", [part("a", box, under=(PartId("b"),)), part("b", box, under=(PartId("a"),)), part("d")])
    assert painted(ring, False, None) == ("b", "a")


def test_a_missing_depth_is_that_of_what_lies_over_the_part() -> None:
    device = anatomy(
        "d",
        [
            part("lid", (0, 0, 20, 20), thickness=1.5),
            part("pack", (2, 2, 8, 8), thickness=4.0),
            part("beside", (30, 2, 8, 8), thickness=2.0),
            part("back", (0, 0, 20, 20), face="low", thickness=1.0),
            part("d", (0, 0, 40, 20), thickness=8.0),
        ],
    )
    known, whole = layers(device, "low")
    assert whole == 8.0
    assert known["pack"] == Layer(1.5, 4.0)
    assert known["beside"] == Layer(0.0, 2.0)
    assert known["back"] == Layer(7.0, 1.0)


def test_a_part_without_a_box_is_where_its_carrier_is_but_never_where_the_base_is() -> None:
    device = anatomy(
        "d", [part("a", (1, 2, 3, 4)), part("b", inside=PartId("a")), part("c", inside=PartId("d")), part("d", (0, 0, 9, 9))]
    )
    assert box_of(device, PartId("b")) == device.parts[PartId("a")].box
    assert box_of(device, PartId("c")) is None


@given(devices())
def test_every_part_with_a_box_is_painted_once(device: tuple[Anatomy, tuple[str, ...], object]) -> None:
    made, faces, _ = device
    second = faces[1] if len(faces) > 1 else None
    for from_second in (False, True):
        order = painted(made, from_second, second)
        assert sorted(order) == sorted(name for name, one in made.parts.items() if one.box is not None)
