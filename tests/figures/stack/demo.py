"""The guide that ships with the program, read once."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from generator.orders.guide import Guide
from generator.orders.reading import read_guides
from generator.source.reading import read_library

CONTENT = Path(__file__).parents[3] / "content"


@lru_cache(maxsize=1)
def demo() -> Guide:
    return read_guides(read_library(CONTENT)).guides[0]
