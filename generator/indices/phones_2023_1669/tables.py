"""What the act fixes: priority parts, weights, points, classes. Each with where it was read and how well it is known.

Annex IV point 5 itself could not be read; what stands here of it comes from other public texts and says so in its tag.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from generator.indices.basic_tools import ED, LIST, READ
from generator.indices.workings import Basis, Rung
from generator.languages import later

ACT = later("Delegated Regulation (EU) 2023/1669")
NAME = later("repairability index for smartphones and slate tablets")
VERSION = later("OJ L 214, 31 August 2023")
APPLIES = later("20 June 2025")
STATEMENT = later("Own estimate from this guide, not the label. The class on a label is declared by the supplier.")
SCALE = (1, 5)

LIBRARY = later("an open-source library written from the Official Journal")
PAGE = later("a public page on the index")


@dataclass(frozen=True, slots=True)
class PriorityPart:
    """roles: what `role` in anatomy.yaml calls it; may_be_absent: a device of this kind can do without it.

    may_be_merged: may lawfully sit in a higher assembly ((EU) 2023/1670, Annex II B 1.1(1)(b)), so that one removal serves
    several parts; rigid and foldable are weights, rigid None for what only a foldable device has.
    """

    code: str
    name: str
    rigid: Decimal | None
    foldable: Decimal
    roles: tuple[str, ...]
    definition: str
    may_be_absent: bool = True
    may_be_merged: bool = False


def _part(
    code: str, name: str, rigid: str | None, foldable: str, definition: str, *roles: str,
    may_be_absent: bool = True, may_be_merged: bool = False,
) -> PriorityPart:  # fmt: skip
    weight = Decimal(rigid) if rigid is not None else None
    return PriorityPart(code, name, weight, Decimal(foldable), (name, *roles), definition, may_be_absent, may_be_merged)


PARTS = (
    _part("BAT", later("battery"), "0.30", "0.25", "(11)", may_be_absent=False),
    _part("DA", later("display assembly"), "0.30", "0.25", "(25)", later("display"), may_be_absent=False),
    _part("BC", later("back cover"), "0.10", "0.09", "(12)", "back cover assembly", may_be_absent=False),
    _part("FFC", later("front-facing camera"), "0.05", "0.04", "(14)", "front-facing camera assembly",
          later("front camera")),
    _part("RFC", later("rear-facing camera"), "0.05", "0.04", "(15)", "rear-facing camera assembly", later("rear camera")),
    _part("EC", later("external charging port"), "0.05", "0.04", "(17)", later("charging port"), may_be_merged=True),
    _part("BUT", later("mechanical button"), "0.05", "0.04", "(18)", later("button"), may_be_merged=True),
    _part("MIC", later("main microphone"), "0.05", "0.04", "(19)", "main microphones", later("microphone"),
          may_be_merged=True),
    _part("SPK", later("speaker"), "0.05", "0.04", "(20)", later("loudspeaker"), may_be_merged=True),
    _part("FM", later("folding mechanism"), None, "0.17", "(21), (22)", later("hinge"), "hinge assembly",
          "mechanical display folding mechanism", "hinge or folding mechanism", may_be_absent=False),
)  # fmt: skip

WEIGHTS = {code: Decimal(weight) for code, weight in (
    ("SDD", "0.25"), ("SF", "0.15"), ("ST", "0.15"), ("SSP", "0.15"), ("SSU", "0.15"), ("SRI", "0.15"),
)}  # fmt: skip

CRITERIA = {
    "SDD": later("disassembly depth"),
    "SF": later("fasteners"),
    "ST": later("tools"),
    "SSP": later("spare parts"),
    "SSU": later("software updates"),
    "SRI": later("repair information"),
}

LADDER = (
    Rung("A", Decimal("4.00"), True),
    Rung("B", Decimal("3.35"), True),
    Rung("C", Decimal("2.55"), True),
    Rung("D", Decimal("1.75"), True),
    Rung("E", Decimal("1.00"), True),
)

DEPTH_BANDS = ((2, 5), (5, 4), (10, 3), (15, 2))
"""Steps up to and including the first number earn the second; more than the last earn DEPTH_REST."""

DEPTH_REST = 1
DEPTH_POINTS = (1, 2, 3, 4, 5)

PAIRING_STEPS = 5

REUSABLE, RESUPPLIED, REMOVABLE = 5, 3, 1
FASTENER_POINTS = (REMOVABLE, RESUPPLIED, REUSABLE)

NO_TOOL, BASIC, WITH_SPARE, WITH_PRODUCT, ON_SALE = 5, 4, 3, 2, 1
TOOL_POINTS = (1, 2, 3, 4, 5)

MOST = 5
LEAST = 1

SPARE_LEVELS = (
    (5, frozenset({"BAT", "DA", "BC", "FFC", "RFC", "EC", "BUT", "MIC", "SPK"})),
    (4, frozenset({"DA", "BAT", "BC", "FFC", "RFC"})),
    (3, frozenset({"DA", "BAT", "BC"})),
    (2, frozenset({"DA", "BAT"})),
    (1, frozenset({"DA"})),
)
"""Points for the spare parts offered to end users as well as professionals; the rest go to professionals."""

UPDATE_YEARS = ((7, 5), (6, 3), (5, 1))
"""Years of updates, at least, and what they earn."""

PRODUCT_POINTS = {"SSP": (1, 2, 3, 4, 5), "SSU": (1, 3, 5), "SRI": (1, 3, 5)}

# --- what each rule rests on ---------------------------------------------------------------------------------------

ANNEX = later("Annex IV point 5")
TWO_SOURCES = later(
    "public guidance for suppliers, in four languages; an open-source library written from the Official Journal"
)

FORMULA = Basis(
    ACT, ANNEX, later("R = 0.25 depth + 0.15 fasteners + 0.15 tools + 0.15 spare parts + 0.15 updates + 0.15 information"),
    TWO_SOURCES, "secondary",
)  # fmt: skip
CLASS_BOUNDS = Basis(
    ACT, later("Annex II, Table 4"), later("A from 4.00, B from 3.35, C from 2.55, D from 1.75"), TWO_SOURCES, "secondary"
)
PART_WEIGHTS = Basis(ACT, ANNEX, later("each priority part has a weight; the weights sum to 1"), LIBRARY, "secondary")
DEPTH_TABLE = Basis(
    ACT, ANNEX, later("2 steps or fewer 5 points, 3 to 5 4, 6 to 10 3, 11 to 15 2, more 1"),
    later("an analyst's article of 2025 on the index; an open-source library written from the Official Journal"),
    "secondary",
)
STEP_RULE = Basis(
    ACT, ANNEX, later("a step ends when a part is removed or the tool is changed; bare hands are no tool"),
    later("recalled; the same stands in (EU) 2023/2534, Annex I (36) and Annex IV 5.1, read"), "memory",
)  # fmt: skip
AT_ONCE_RULE = Basis(
    ACT, ANNEX, later("of several tools needed at the same time each counts one step"),
    later("recalled; the same stands in (EU) 2023/2534, Annex IV 5.1, read"), "memory",
)  # fmt: skip
HEAT_RULE = Basis(
    ACT, ANNEX, later("heating, cleaning and removing traces count as steps"),
    later("recalled; the same stands in (EU) 2023/2534, Annex IV 5.1, read"), "memory",
)  # fmt: skip
ASIDE_RULE = Basis(
    ACT, ANNEX, later("a part moved aside, still attached, counts as removed"),
    later("taken over from (EU) 2023/2534, Annex IV 5.1, read"), "recommended",
)  # fmt: skip
PAIRING_RULE = Basis(
    ACT, ANNEX, later("a part whose code has to be notified or authorised from afar takes 5 steps more"), LIBRARY,
    "secondary"
)
FASTENER_TABLE = Basis(
    ACT, ANNEX, later("reusable 5, resupplied 3, removable 1; the worst counts"),
    later("an open-source library written from the Official Journal; an analyst's article of 2025 on the index; that the "
    "worst counts: recalled"), "secondary",
)  # fmt: skip
REUSABLE_MEANS = Basis(ED, later("Annex I (8)"), later("reusable: can be fully used again for the same purpose"),
    READ, "verified")
RESUPPLIED_MEANS = Basis(ED, later("Annex I (9)"), later("resupplied: comes with the spare part at no extra cost"),
    READ, "verified")
REMOVABLE_MEANS = Basis(
    ED, later("Annex I (10)"),
    later("removable: not reusable, but comes off without damage or residue that prevents reassembly"),
    READ, "verified",
)  # fmt: skip
INCREMENT_RULE = Basis(
    ACT, ANNEX, later("only what is met after the priority part taken out before this one"),
    later("recalled, without support"), "memory"
)
TOOL_TABLE = Basis(
    ACT, ANNEX,
    later("no tool 5, basic 4, supplied with the spare part 3, with the product 2, on public sale 1; the worst counts"),
    LIBRARY, "secondary",
)  # fmt: skip
ON_SALE_MEANS = Basis(
    ED, later("Annex I (51)"), later("commercially available: on public sale, neither basic nor proprietary"), READ,
    "verified"
)
PROPRIETARY_MEANS = Basis(
    ED, later("Annex I (49)"), later("proprietary: not on public sale, or its patents not licensed fairly"), READ, "verified"
)
BASIC_LIST = LIST
ABSENT_RULE = Basis(
    ACT, ANNEX, later("a priority part the device does not have earns 5 points; the weights stay"), LIBRARY, "secondary"
)
SEVERAL_RULE = Basis(
    ACT, ANNEX, later("of a part that is there several times the lowest counts, for each criterion by itself"),
    later("an open-source library written from the Official Journal; the same stands in (EU) 2023/2534, Annex IV 5, read"),
    "secondary",
)  # fmt: skip
MERGING_RULE = Basis(
    ED, later("Annex II B 1.1(1)(b)"), later("a small part may sit in a higher assembly, under conditions of reliability"),
    READ, "verified",
)  # fmt: skip
SPARE_TABLE = Basis(ACT, ANNEX, later("spare parts to end users: display 1 point, up to all priority parts 5"), PAGE,
    "secondary")
UPDATE_TABLE = Basis(ACT, ANNEX, later("updates for 7 years 5 points, 6 years 3, 5 years 1"),
    later("an open-source library written from the Official Journal; a public page on the index"), "secondary",
)
INFORMATION_TABLE = Basis(
    ACT, ANNEX, later("information open to end users 5 points, free for professionals 3, for a fee 1"),
    later("a public page on the index; what the 3-point row means: recalled"), "secondary",
)  # fmt: skip
