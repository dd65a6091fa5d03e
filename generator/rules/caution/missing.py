"""caution/missing"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.hazards import STANDARD_HAZARDS, hazards_back, hazards_of
from generator.rules.finding import Finding, Mend
from generator.rules.wording import listed, quoted

WORKED_OUT = frozenset({"cell", "cell near heat", "licensed"})
"""Kinds that `hazards_of` finds by itself; their cautions stand ready too."""


def missing(guide: Guide) -> Iterator[Finding]:
    """A tool, supply or part carries a hazard for which no caution stands ready, and the step has none of its own.

    Why: the author knows of a danger and the reader is not told.
    Bad: a supply with `hazards: [freezing]`, and a step that uses it without `cautions`.
    Good: `cautions: [{level: warning, text: Keep the spray off your skin. It freezes.}]` in that step.
    Silent when: the step has any caution, or one stands ready for the hazard: flammable, vapour, hot surface, sharp, glass,
    laser, mains, stored charge, spring, dust, fume, irritant.
    """
    for step in guide.steps:
        if step.cautions:
            continue
        for hazard in dict.fromkeys((*hazards_of(guide, step), *hazards_back(guide, step))):
            if hazard.kind not in STANDARD_HAZARDS and hazard.kind not in WORKED_OUT:
                yield Finding(
                    place=step.place,
                    message=f"The hazard {quoted(hazard.kind)} of the {hazard.subject} is not told in this step.",
                    why=(f"Cautions stand ready only for {listed(sorted(STANDARD_HAZARDS))}.",),
                    mend=Mend("Add `cautions` with a level and a text to the step."),
                )
