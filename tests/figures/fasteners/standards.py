"""The tables of the trade as check values; every row names its source and how sure it is."""

from __future__ import annotations

import csv
from pathlib import Path

TABLES = Path(__file__).parents[2] / "data" / "trade"


def rows(quantity: str) -> list[tuple[str, float]]:
    """Key and value, in mm or as a number, of every row of that quantity."""
    found = []
    for name in ("threads.csv", "drives.csv"):
        with (TABLES / name).open(encoding="utf-8", newline="") as file:
            found += [(row["key"], float(row["value"])) for row in csv.DictReader(file) if row["quantity"] == quantity]
    assert found, quantity
    return found
