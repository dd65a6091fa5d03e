"""What a guide cannot know and an author may declare in device.yaml: spare parts, updates, repair information."""

from __future__ import annotations

import re
from decimal import Decimal

from generator.indices.phones_2023_1669.tables import (
    CRITERIA,
    INFORMATION_TABLE,
    LEAST,
    PARTS,
    PRODUCT_POINTS,
    SPARE_LEVELS,
    SPARE_TABLE,
    UPDATE_TABLE,
    UPDATE_YEARS,
    WEIGHTS,
)
from generator.indices.workings import Basis, Cell, Fact, Line
from generator.languages import later, say, say_many
from generator.orders.guide import Device

EVERYTHING = frozenset(
    {later("all"), later("all parts"), later("all priority parts"), later("every priority part"), later("everything")}
)
CAMERAS = {later("cameras"): ("FFC", "RFC"), later("both cameras"): ("FFC", "RFC")}

INFORMATION: tuple[tuple[tuple[int, ...], frozenset[str]], ...] = (
    (
        (5,),
        frozenset(
            {later("open to everyone"), later("open to all"), later("open to end users"), later("public"),
             later("publicly available"), "everyone", "end users", later("publicly available at no cost")}
        ),
    ),
    (
        (3,),
        frozenset(
            {later("professionals at no cost"), "professionals no cost", "professionals only no cost",
             later("free for professionals"), later("professionals free of charge"), "professionals only free of charge"}
        ),
    ),
    (
        (1,),
        frozenset(
            {later("professionals for a fee"), later("professionals only for a fee"),
             later("professionals for a reasonable fee"), later("for a fee"),
             "professionals reasonable fee", "professionals at a reasonable and proportionate cost",
             "professionals only reasonable and proportionate cost"}
        ),
    ),
    ((3, 5), frozenset({"no cost", "free of charge", "free", "at no cost"})),
)  # fmt: skip
"""Points by what is written. A bare "no cost" is 3 or 5: a row of the register calls the 5-point level so, the table the
3-point one."""


def declared_cells(device: Device, is_foldable: bool) -> tuple[Cell, ...]:
    """The cells of spare parts, updates and information; what is not declared, or not understood, is left open."""
    return (_spare_parts(device, is_foldable), _updates(device), _information(device))


def _spare_parts(device: Device, is_foldable: bool) -> Cell:
    written = device.spare_parts
    if written is None:
        return _open("SSP", say("which spare parts end users can buy"), SPARE_TABLE)
    every = SPARE_LEVELS[0][1] | ({"FM"} if is_foldable else set())
    codes = _codes(written, every)
    if codes is None:
        return _not_understood("SSP", say("which spare parts end users can buy"), "index.spare_parts", written, SPARE_TABLE)
    names = ", ".join(say(name.strip()) for name in written.split(","))
    offered = say("to end users: {parts}", parts=names)
    levels = ((SPARE_LEVELS[0][0], every), *SPARE_LEVELS[1:])
    level = next((points for points, wanted in levels if wanted <= codes), None)
    if level is None:
        words = say("to end users: {parts}; without the display, the tables have no row for it", parts=names)
        return _outside("SSP", words, SPARE_TABLE)
    return _known("SSP", level, offered, SPARE_TABLE)


def _codes(written: str, every: frozenset[str]) -> frozenset[str] | None:
    """The priority parts that are named; None if something else is."""
    names = {role: (part.code,) for part in PARTS for role in part.roles} | CAMERAS
    found: set[str] = set()
    for piece in re.split(r",|;|\band\b|&", written):
        name = _plain(piece)
        if name in EVERYTHING:
            return every
        if name and name not in names:
            return None
        found.update(names.get(name, ()))
    return frozenset(found) or None


def _updates(device: Device) -> Cell:
    years = device.update_years
    if years is None:
        return _open("SSU", say("for how many years updates are guaranteed"), UPDATE_TABLE)
    words = say_many("updates for {n} years", "updates for {n} years", years)
    points = next((points for least, points in UPDATE_YEARS if years >= least), None)
    if points is None:
        few = say_many(
            "updates for {n} years: fewer than the 5 that are the least lawful number",
            "updates for {n} years: fewer than the 5 that are the least lawful number",
            years,
        )
        return _outside("SSU", few, UPDATE_TABLE)
    return _known("SSU", points, words, UPDATE_TABLE)


def _information(device: Device) -> Cell:
    written = device.information
    subject = say("who may read the repair information, and at what cost")
    if written is None:
        return _open("SRI", subject, INFORMATION_TABLE)
    points = next((points for points, phrases in INFORMATION if _plain(written) in phrases), None)
    if points is None:
        return _not_understood("SRI", subject, "index.information", written, INFORMATION_TABLE)
    if len(points) == 1:
        return _known("SRI", points[0], say(written), INFORMATION_TABLE)
    note = say('"{words}" is 3 points in one source and 5 in another, so either is possible.', words=written)
    return _cell("SRI", points[-1], (Fact("SRI", subject, points),), written, points, INFORMATION_TABLE, notes=(note,))


def _known(criterion: str, points: int, words: str, basis: Basis) -> Cell:
    return _cell(criterion, points, (), words, (points,), basis)


def _open(criterion: str, subject: str, basis: Basis, notes: tuple[str, ...] = ()) -> Cell:
    points = PRODUCT_POINTS[criterion]
    return _cell(criterion, points[-1], (Fact(criterion, subject, points),), say("not declared"), points, basis, notes=notes)


def _not_understood(criterion: str, subject: str, key: str, written: str, basis: Basis) -> Cell:
    said = '"{words}" under {key} in device.yaml fits no row of the table, so it is left open.'
    note = say(said, words=written, key=key)
    return _open(criterion, subject, basis, (note,))


def _outside(criterion: str, words: str, basis: Basis) -> Cell:
    return _cell(criterion, LEAST, (), words, (), basis, outside=(words,))


def _cell(
    criterion: str,
    ceiling: int,
    facts: tuple[Fact, ...],
    words: str,
    amounts: tuple[int, ...],
    basis: Basis,
    outside: tuple[str, ...] = (),
    notes: tuple[str, ...] = (),
) -> Cell:
    return Cell(
        criterion, criterion, CRITERIA[criterion], Decimal(1), WEIGHTS[criterion], ceiling, facts,
        lines=(Line(words, amounts, basis),), outside=outside, notes=notes,
    )  # fmt: skip


def _plain(words: str) -> str:
    return " ".join(words.lower().replace(",", " ").replace(":", " ").replace(";", " ").split())
