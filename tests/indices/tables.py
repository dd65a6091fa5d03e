"""The CSV tables of `tests/data/indices`, as rows of texts."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

FOLDER = Path(__file__).parents[1] / "data" / "indices"

CODES = ("BAT", "DA", "BC", "FFC", "RFC", "EC", "BUT", "MIC", "SPK", "FM")


def rows(name: str) -> list[dict[str, str]]:
    with (FOLDER / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def by_code(written: str) -> dict[str, int]:
    """Points or steps as they stand in a row, by the code of the part."""
    return dict(zip(CODES, (int(value) for value in written.split()), strict=False))


def decimals(written: str) -> tuple[Decimal, ...]:
    """`1|3|5` as numbers."""
    return tuple(Decimal(value) for value in written.split("|"))
