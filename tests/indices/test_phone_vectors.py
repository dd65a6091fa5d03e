"""The phone index against its vectors V1 to V18, I1 to I6 and the register rows, all exact."""

from __future__ import annotations

from decimal import Decimal

import pytest

from generator.indices.phones_2023_1669.depth import depth_points
from generator.indices.phones_2023_1669.formula import (
    NotInTheTables,
    class_of,
    classes_of,
    subscore,
    total,
    two_decimals,
    weighted,
)
from generator.indices.phones_2023_1669.tables import (
    DEPTH_BANDS,
    DEPTH_REST,
    FASTENER_POINTS,
    LADDER,
    PARTS,
    PRODUCT_POINTS,
    TOOL_POINTS,
    UPDATE_YEARS,
    WEIGHTS,
)
from generator.indices.sums import Term, highest, lowest, reachable
from generator.indices.workings import Fact
from tests.indices.tables import by_code, decimals, rows

VECTORS = {row["id"]: row for row in rows("vectors")}
INTERVALS = {row["id"]: row for row in rows("interval_vectors")}
POINTS = {"SDD": "dd_points", "SF": "fastener_points", "ST": "tool_points"}
PRODUCT = ("SSP", "SSU", "SRI")


def points_of(row: dict[str, str]) -> dict[str, dict[str, int]]:
    return {criterion: by_code(row[column]) for criterion, column in POINTS.items()}


def test_all_vectors_are_there() -> None:
    assert sorted(VECTORS) == sorted(f"V{number}" for number in range(1, 19))
    assert sorted(INTERVALS) == [f"I{number}" for number in range(1, 7)]


@pytest.mark.parametrize("name", sorted(VECTORS, key=lambda name: int(name[1:])))
def test_vector(name: str) -> None:
    row = VECTORS[name]
    points = points_of(row)
    assert ("FM" in points["SDD"]) == (row["foldable"] == "1")
    for criterion, of_parts in points.items():
        assert subscore(criterion, of_parts) == Decimal(row[criterion])
    value = total(points, {code: int(row[code]) for code in PRODUCT})
    assert value == Decimal(row["R_exact"])
    assert f"{value:.4f}" == row["R_exact"]
    assert class_of(value) == row["class_exact"]
    assert str(two_decimals(value)) == row["R_2dp"]
    assert class_of(value, "half-up") == row["class_2dp"]
    assert (class_of(value) != class_of(value, "half-up")) == (row["rounding_sensitive"] == "1")


@pytest.mark.parametrize("name", ["V3", "V4", "V16"])
def test_steps_of_a_vector_earn_its_points(name: str) -> None:
    row = VECTORS[name]
    steps, points = by_code(row["steps"]), by_code(row["dd_points"])
    assert {code: depth_points(count) for code, count in steps.items()} == points


@pytest.mark.parametrize("name", ["V13", "V14", "V15"])
def test_binary_fractions_would_give_the_class_below(name: str) -> None:
    """Why decimals: the same sum of floats falls below the bound it stands on."""
    row = VECTORS[name]
    assert class_of(Decimal(row["R_binary_float"])) > row["class_exact"] == class_of(Decimal(row["R_exact"]))


def test_v18_the_two_roundings_disagree() -> None:
    value = Decimal(VECTORS["V18"]["R_exact"])
    assert (class_of(value), class_of(value, "half-up"), class_of(value, "half-even")) == ("D", "C", "D")


@pytest.mark.parametrize("name", sorted(INTERVALS))
def test_interval(name: str) -> None:
    row = INTERVALS[name]
    terms = []
    for criterion, weight in WEIGHTS.items():
        values = decimals(row[criterion])
        facts = (Fact(criterion, criterion, values),) if len(values) > 1 else ()
        terms.append(Term(weight, values[-1], facts))
    assert (lowest(terms), highest(terms)) == (Decimal(row["R_min"]), Decimal(row["R_max"]))
    reach = reachable(terms)
    assert reach.is_exact and (min(reach.values), max(reach.values)) == (lowest(terms), highest(terms))
    assert "".join(classes_of(reach.values)) == row["classes"]


def test_register_row_e1() -> None:
    row = next(row for row in rows("eprel_vectors") if row["id"] == "E1")
    years = int(row["declared_update_years"])
    updates = next(points for least, points in UPDATE_YEARS if years >= least)
    assert str(updates) == row["SSU_from_years"]
    scores = {"SDD": row["SDD"], "SF": row["SF"], "ST": row["ST"], "SSP": row["SSP_inferred"], "SRI": row["SRI_inferred"]}
    value = weighted({**{code: Decimal(score) for code, score in scores.items()}, "SSU": Decimal(updates)})
    assert (f"{value:.4f}", str(two_decimals(value)), class_of(value)) == (
        row["R_recomputed"],
        row["R_declared_2dp"],
        row["class_declared"],
    )


def test_register_row_e2_has_its_class() -> None:
    row = next(row for row in rows("eprel_vectors") if row["id"] == "E2")
    assert class_of(Decimal(row["R_declared_2dp"])) == row["class_declared"]


# --- tables --------------------------------------------------------------------------------------------------------


def test_weights_are_the_tables() -> None:
    for row, part in zip(rows("part_weights"), PARTS, strict=True):
        assert row["code"] == part.code
        assert part.rigid == (Decimal(row["weight_rigid"]) if row["weight_rigid"] else None)
        assert part.foldable == Decimal(row["weight_foldable"])
    assert sum(part.rigid for part in PARTS if part.rigid is not None) == 1
    assert sum(part.foldable for part in PARTS) == 1
    assert sum(WEIGHTS.values()) == 1


def test_points_are_the_tables() -> None:
    listed: dict[str, list[int]] = {}
    for row in rows("points"):
        listed.setdefault(row["parameter"], []).append(int(row["points"]))
    assert listed["SDD"] == [*(points for _, points in DEPTH_BANDS), DEPTH_REST]
    assert sorted(listed["SF"]) == list(FASTENER_POINTS)
    assert sorted(listed["ST"]) == list(TOOL_POINTS)
    assert {code: tuple(sorted(listed[code])) for code in PRODUCT} == PRODUCT_POINTS
    assert listed["SSU"] == [points for _, points in UPDATE_YEARS]


def test_every_class_begins_at_its_bound() -> None:
    for rung, better in zip(LADDER[1:], LADDER, strict=False):
        assert class_of(rung.bound) == rung.letter
        assert class_of(better.bound - Decimal("0.0005")) == rung.letter


# --- what has to be refused ----------------------------------------------------------------------------------------

TOP = {"SSP": 5, "SSU": 5, "SRI": 5}


def rigid(**changed: int) -> dict[str, int]:
    return {**by_code("5 5 5 5 5 5 5 5 5"), **changed}


@pytest.mark.parametrize("wrong", [0, 6, -1])
def test_points_outside_one_to_five_are_refused(wrong: int) -> None:
    for criterion in POINTS:
        with pytest.raises(NotInTheTables):
            total({**{each: rigid() for each in POINTS}, criterion: rigid(BAT=wrong)}, TOP)
    with pytest.raises(NotInTheTables):
        total({each: rigid() for each in POINTS}, {**TOP, "SSP": wrong})
    with pytest.raises(NotInTheTables):
        weighted({code: Decimal(wrong) for code in WEIGHTS})


@pytest.mark.parametrize("wrong", [2, 4])
def test_fastener_points_that_no_row_gives_are_refused(wrong: int) -> None:
    with pytest.raises(NotInTheTables):
        total({"SDD": rigid(), "SF": rigid(DA=wrong), "ST": rigid()}, TOP)
    for code in ("SSU", "SRI"):
        with pytest.raises(NotInTheTables):
            total({each: rigid() for each in POINTS}, {**TOP, code: wrong})


@pytest.mark.parametrize("only", sorted(POINTS))
def test_a_folding_mechanism_in_one_criterion_only_is_refused(only: str) -> None:
    with pytest.raises(NotInTheTables):
        total({**{each: rigid() for each in POINTS}, only: rigid(FM=5)}, TOP)


def test_a_part_or_a_score_missing_is_refused() -> None:
    short = {code: points for code, points in rigid().items() if code != "MIC"}
    with pytest.raises(NotInTheTables):
        total({"SDD": short, "SF": rigid(), "ST": rigid()}, TOP)
    with pytest.raises(NotInTheTables):
        total({each: rigid() for each in POINTS}, {"SSP": 5, "SSU": 5})
    with pytest.raises(NotInTheTables):
        total({"SDD": rigid(), "SF": rigid()}, TOP)
