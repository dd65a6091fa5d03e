"""What the act fixes for household tumble dryers, all read in the act: parts with their mean steps, points, classes.

Nothing here is shared with the index of phones: absent parts, serial numbers, the upper edge of B, the scale, the rounding
and the tool rows differ.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from generator.indices.workings import Basis, Rung
from generator.languages import later

ACT = later("Delegated Regulation (EU) 2023/2534")
NAME = later("repairability index for household tumble dryers")
VERSION = later("as consolidated on 24 November 2025")
APPLIES = later("1 January 2027")
STATEMENT = later("Own estimate from this guide, not the label. The class on a label is declared by the supplier.")
SCALE = (0, 10)
READ = later("English text as consolidated on 24 November 2025, with (EU) 2025/1353; its formula pictures were missing")
WITHHELD = later(
    "The sum cannot be computed: the weights of the four scores and of the parts stand in pictures that were missing from "
    "the text that was read. The points of each part can."
)


@dataclass(frozen=True, slots=True)
class DryerPart:
    """A priority part; mean_steps: the act's mean step count (MDS), to which the steps of a device are compared."""

    code: str
    name: str
    mean_steps: Decimal
    roles: tuple[str, ...] = ()


PARTS = (
    DryerPart("WP", later("water pump"), Decimal("16.1")),
    DryerPart("B", later("drum bearing"), Decimal("18.9")),
    DryerPart("DB", later("drum belt"), Decimal("40.9")),
    DryerPart("D", later("door"), Decimal("3")),
    DryerPart("M", later("motor"), Decimal("49.4")),
    DryerPart("MB", later("main printed circuit board"), Decimal("13.7"), ("main board", "main circuit board")),
    DryerPart("F", later("fan"), Decimal("7.7")),
    DryerPart("MC", later("motor capacitor"), Decimal("24.9")),
)

DEPTH_BANDS = ((Decimal("0.70"), 10), (Decimal("0.90"), 7), (Decimal("1.10"), 4), (Decimal("1.30"), 1))
"""Steps up to and including that share of the mean earn the points; more than the last earn none."""

REUSABLE, RESUPPLIED, RESUPPLIED_AT_A_COST, REMOVABLE = 10, 7, 4, 0
BASIC_OR_NONE, WITH_SPARE, ON_SALE = 10, 5, 0
FREE, FOR_A_FEE = 10, 0
MOST, LEAST = 10, 0

LADDER = (
    Rung("A", Decimal("9.00"), False),
    Rung("B", Decimal("7.00"), True),
    Rung("C", Decimal("5.00"), True),
    Rung("D", Decimal("3.00"), True),
    Rung("E", Decimal("0.00"), True),
)

CRITERIA = {
    "SDD": later("disassembly depth"),
    "SF": later("fasteners"),
    "ST": later("tools"),
    "SRI": later("repair information"),
}

STEP_RULE = Basis(
    ACT, later("Annex I (36), Annex IV 5.1"), later("a step ends when a part is removed or the tool is changed"),
    READ, "verified"
)
DEPTH_TABLE = Basis(
    ACT, later("Annex IV 5.1"), later("up to 0.70 of the mean steps 10 points, 0.90 7, 1.10 4, 1.30 1, more 0"), READ,
    "verified"
)
PAIRING_RULE = Basis(
    ACT, later("Annex IV 5.1"), later("a serial number to be notified or authorised: no points for depth"), READ, "verified"
)
FASTENER_TABLE = Basis(
    ACT, later("Annex IV 5.2"),
    later("reusable 10, resupplied free 7, resupplied at a cost 4, removable 0; the lowest counts, over the "
    "whole process"), READ, "verified",
)  # fmt: skip
TOOL_TABLE = Basis(
    ACT, later("Annex IV 5.3"),
    later("no tool or basic 10, supplied with the spare part 5, on public sale 0; the lowest counts, over "
    "the whole process; no row for what comes with the product"), READ, "verified",
)  # fmt: skip
INFORMATION_TABLE = Basis(ACT, later("Annex IV 5"), later("free for professionals 10 points, for a reasonable fee 0"),
    READ, "verified")
ABSENT_RULE = Basis(
    ACT, later("Annex IV 5"), later("a part that is absent is dropped and the weights are scaled up to 1"), READ, "verified"
)
CLASS_BOUNDS = Basis(
    ACT, later("Annex II 4"),
    later("the sum, rounded to two decimals: A above 9.00, B 7.00 to 9.00, C from 5.00, D from 3.00"),
    READ, "verified",
)  # fmt: skip


def depth_points(mean_steps: Decimal, steps: int) -> int:
    """
    >>> [depth_points(Decimal("16.1"), steps) for steps in (11, 12, 14, 15, 17, 18, 20, 21)]
    [10, 7, 7, 4, 4, 1, 1, 0]
    """
    return next((points for share, points in DEPTH_BANDS if steps <= share * mean_steps), LEAST)


def class_of(value: Decimal) -> str:
    """The letter of the class, after rounding to two decimals; 9.00 itself is B.

    >>> class_of(Decimal("9.004")), class_of(Decimal("9.005"))
    ('B', 'A')
    """
    rounded = value.quantize(Decimal("0.01"), ROUND_HALF_UP)
    reached = (rung for rung in LADDER if rounded > rung.bound or (rung.holds_bound and rounded == rung.bound))
    return next(reached, LADDER[-1]).letter
