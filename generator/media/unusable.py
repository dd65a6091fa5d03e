"""Why a file cannot be shown."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Unusable:
    """reason: a clause that follows the file's name; mend: a sentence that says what to do."""

    reason: str
    mend: str = "Put a good copy in its place."
