"""Reasons in words: every kind has its sentences, in the names of the guide."""

from __future__ import annotations

import doctest
from importlib import import_module

import pytest

from generator.anatomy.parts import JointId, PartId
from generator.orders import reasons
from generator.orders.guide import Guide
from generator.orders.reasons import (
    POWER_REASONS,
    Behind,
    ChargeFirst,
    Covered,
    LyingWrong,
    MainsFirst,
    NotSoftened,
    OnTheBench,
    PowerFirst,
    Reason,
    StillJoined,
    TheBase,
    Under,
)
from generator.orders.walk import Unmet
from generator.rules.mends import mend_of
from generator.rules.prose import instructions
from generator.rules.sentences import reason_sentence, what_holds_it, what_is_wrong, when_it_happens
from generator.rules.wording import counted, is_plural, listed, near_names, steps_later
from generator.source.values import clock
from tests.rules.cases import GOOD, library_of

SCREWS, PLUG, GLUE = JointId("back-screws"), JointId("battery-plug"), JointId("battery-glue")
COVER, BATTERY, BOARD, CAPACITOR = PartId("back-cover"), PartId("battery"), PartId("main-board"), PartId("capacitor")

STANDING = {
    Behind(SCREWS, BATTERY): "No step lifts the battery out or folds it aside, and the back screws are behind it.",
    OnTheBench(JointId("sensor-clips"), PartId("housing"), (BOARD,)): (
        "No step lifts the main board out, and the housing is in front of the sensor clips until then."
    ),
    StillJoined(COVER, SCREWS): "No step undoes the back screws, and that still holds the back cover.",
    Under(BATTERY, COVER): "No step lifts the back cover out or folds it aside, and the battery is under it.",
    NotSoftened(GLUE): "No step soaks the battery glue, and cold or dry glue does not let go.",
    NotSoftened(JointId("window-glue")): "No step warms the window glue, and cold or dry glue does not let go.",
    PowerFirst(PLUG): "No step undoes the battery plug, so the battery plug still feeds the device.",
    MainsFirst(): "No step has a check with `proves: unplugged`.",
    ChargeFirst(CAPACITOR): (
        "No step has a check with `proves: discharged` and `of: capacitor`, and the capacitor can hold a charge."
    ),
    Covered(CAPACITOR, COVER): (
        "No step lifts the back cover out or folds it aside, and the capacitor cannot be measured until then."
    ),
    TheBase(PartId("housing")): "The housing is the base: everything is mounted on it.",
    LyingWrong("back", "front"): "No step turns the device so that the front is up.",
}


@pytest.fixture(scope="module")
def guide() -> Guide:
    (only,) = library_of(GOOD).guides
    return only


@pytest.mark.parametrize("reason", STANDING, ids=lambda reason: type(reason).__name__)
def test_why_something_stands_in_the_way_for_good(guide: Guide, reason: Reason) -> None:
    assert reason_sentence(guide, reason) == STANDING[reason]


def test_every_reason_has_its_sentences(guide: Guide) -> None:
    """A reason that the orders learn to give has to be put in words in the same breath."""
    kinds = {kind for kind in vars(reasons).values() if isinstance(kind, type) and issubclass(kind, Reason)} - {Reason}
    assert {type(reason) for reason in STANDING} == kinds
    action = guide.step_by_id["open-back"].actions[0]
    for reason in STANDING:
        entry = Unmet(action, reason)
        for text in (what_is_wrong(guide, entry), when_it_happens(guide, entry) or "Never.", _mend(guide, entry)):
            assert text[0].isupper()
            assert text.endswith(".")
            assert " yet" not in text


def test_what_a_ring_waits_for_is_said_for_every_reason_that_can_be_in_one(guide: Guide) -> None:
    for reason in STANDING:
        if not isinstance(reason, LyingWrong):
            assert what_holds_it(guide, reason)
    assert set(POWER_REASONS) == {PowerFirst, MainsFirst, ChargeFirst}


def test_a_reason_nobody_knows_is_a_fault_of_the_program(guide: Guide) -> None:
    action = guide.step_by_id["open-back"].actions[0]
    with pytest.raises(TypeError):
        reason_sentence(guide, Reason())
    with pytest.raises(TypeError):
        what_holds_it(guide, Reason())
    with pytest.raises(TypeError):
        what_is_wrong(guide, Unmet(action, Reason()))
    with pytest.raises(TypeError):
        when_it_happens(guide, Unmet(action, Reason()))
    with pytest.raises(TypeError):
        mend_of(guide, Unmet(action, Reason()))


@pytest.mark.parametrize(
    ("name", "is_so"),
    [
        ("shade screws", True),
        ("screws of the shade", True),
        ("stretch-release strips under the battery", True),
        ("plug of the side keys", False),
        ("tray latch", False),
        ("glass", False),
        ("camera lens", False),
        ("chassis", False),
        ("apparatus", False),
        ("", False),
    ],
)
def test_plural_names(name: str, is_so: bool) -> None:
    assert is_plural(name) is is_so


def test_small_words() -> None:
    assert (counted(0), counted(3), counted(20), counted(21)) == ("no", "three", "twenty", "21")
    assert (steps_later(1), steps_later(2)) == ("one step later", "two steps later")
    assert (listed([]), listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"], "or")) == (
        "",
        "a",
        "a and b",
        "a, b or c",
    )
    assert near_names(()) == ""
    assert (clock(5), clock(3600)) == ("0:05", "1:00:00")


@pytest.mark.parametrize(
    ("sentence", "found"),
    [
        ("Undo the screws.", ("undo",)),
        ("The screws come out.", ()),
        ("Wait.", ("wait",)),
        ("Do not pull the cable, lift it.", ("pull", ", lift")),
        ("Undo the nuts, bolts and clips.", ("undo",)),
        ("Hold it down and gently turn the key; then lift.", ("hold", "and turn")),
        ("", ()),
    ],
)
def test_instructions(sentence: str, found: tuple[str, ...]) -> None:
    assert instructions(sentence) == found


@pytest.mark.parametrize("module", ["wording", "prose", "trade.threads", "trade.torque", "trade.materials"])
def test_examples_in_docstrings(module: str) -> None:
    result = doctest.testmod(import_module(f"generator.rules.{module}"))
    assert result.attempted
    assert not result.failed


def _mend(guide: Guide, entry: Unmet) -> str:
    mend = mend_of(guide, entry)
    return mend.text if mend is not None else "Nothing helps."
