"""Random cases are the same ones in every run, so that a change is judged by what it changed and not by luck.

`PARTWAY_WANDER=20 sh tests/run` draws new ones, twenty times as many: for whoever looks for faults nobody has met yet.
"""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

WANDER = int(os.environ.get("PARTWAY_WANDER", "0"))
"""How many times the usual number of cases; 0 for the usual number of the usual cases."""


def examples(usual: int) -> int:
    """How many random cases a test tries that usually tries so many."""
    return usual * max(1, WANDER)


def settle() -> None:
    """Sets what holds for every test by property; done once, before any is read."""
    settings.register_profile(
        "here",
        deadline=None,
        derandomize=not WANDER,
        max_examples=examples(100),
        print_blob=True,
        suppress_health_check=[HealthCheck.too_slow],  # a busy machine is no fault of the program
    )
    settings.load_profile("here")
