"""Metric threads as authors write them, looked up among those that have a public standard."""

from __future__ import annotations

import re

from generator.anatomy.threads import LEAST_M, STANDARD_THREADS, StandardThread

BY_NAME = {thread.name: thread for thread in STANDARD_THREADS if thread.series != "ST"}

_WRITTEN = re.compile(r"([MS])\s?([0-9]+(?:\.[0-9]+)?)(?:\s?[x×]\s?[0-9]+(?:\.[0-9]+)?)?")
_TAPPING = re.compile(r"ST\s?[0-9]+(?:\.[0-9]+)?")


def looked_up_as(written: str) -> StandardThread | None:
    """The thread an author means: `M0.8` is looked up as S0.8, since the M series begins at M1; None if there is none.

    A pitch may follow (`M8x1`). Numbers may end in zeros.

    >>> looked_up_as("M2.50").name, looked_up_as("M0.8").name, looked_up_as("M1.3")
    ('M2.5', 'S0.8', None)
    """
    match = _WRITTEN.fullmatch(written.strip())
    if match is None:
        return None
    size = float(match[2])
    series = "S" if size < LEAST_M else match[1]
    return BY_NAME.get(f"{series}{size:g}")


def is_tapping(written: str) -> bool:
    """Whether it is a self-tapping thread as ISO 1478 writes them, such as ST2.9 (memory); these have no row here."""
    return _TAPPING.fullmatch(written.strip()) is not None
