"""All scores of one guide: the published index for its kind of device if there is one, the checks, our own measure."""

from __future__ import annotations

from dataclasses import dataclass

from generator.indices.battery_2023_1542 import battery_checks
from generator.indices.checks import Check
from generator.indices.declarations import roles_in
from generator.indices.dryers_2023_2534.index import dryer_index
from generator.indices.own_measure import Effort, efforts, measured_parts
from generator.indices.phones_2023_1669.index import phone_index
from generator.indices.phones_2023_1669.readings import RECOMMENDED, Readings
from generator.indices.replacement_2023_1670 import replacement_checks
from generator.indices.workings import Index
from generator.orders.guide import Guide

PHONES = ("phone", "foldable phone", "tablet")

OF_A_DRYER = frozenset({"drum belt", "drum bearing", "motor capacitor"})
"""Roles that only a tumble dryer has among the devices for which an index is known here."""

NO_INDEX = (
    "No published index is computed: those known here are for phones, foldable phones and tablets (`kind` in device.yaml) "
    "and for household tumble dryers (a part with the role drum belt, drum bearing or motor capacitor)."
)


@dataclass(frozen=True)
class Scores:
    """index is None where no published index applies, and no_index then says why."""

    index: Index | None
    no_index: str | None
    checks: tuple[Check, ...]
    efforts: tuple[Effort, ...]


def scores_of(guide: Guide, readings: Readings = RECOMMENDED) -> Scores:
    """Every score of the guide; `readings` are those of the phone index and touch nothing else."""
    index = _index(guide, readings)
    return Scores(
        index=index,
        no_index=None if index else NO_INDEX,
        checks=(*battery_checks(guide), *replacement_checks(guide)),
        efforts=efforts(guide, measured_parts(guide)),
    )


def _index(guide: Guide, readings: Readings) -> Index | None:
    if guide.device.kind in PHONES:
        return phone_index(guide, readings)
    roles = {role for part in guide.anatomy.parts.values() for role in roles_in(part.role)}
    return dryer_index(guide) if roles & OF_A_DRYER else None
