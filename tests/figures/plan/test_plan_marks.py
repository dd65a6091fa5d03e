"""Numbers of marks and rows of the joint table."""

from __future__ import annotations

from generator.figures.plan.marks import SINGLE_LIMIT, mark_rows, marks_of, numbers_label
from tests.figures.plan.devices import LAMP, anatomy, joint, part, step


def test_numbers_run_on_in_undoing_order_one_a_fastener() -> None:
    marks = marks_of(LAMP, step("x", ("undo", "board-plug"), ("undo", "shade-screws"), ("lift", "shade")))
    assert [(m.label, m.joint, m.index, m.length) for m in marks] == [
        ("1", "board-plug", 0, None),
        ("2", "shade-screws", 0, 3.0),
        ("3", "shade-screws", 1, 4.5),
        ("4", "shade-screws", 2, 3.0),
    ]


def test_the_table_has_a_row_a_length() -> None:
    rows = mark_rows(LAMP, step("x", ("undo", "shade-screws"), ("undo", "shade-clips")))
    assert [(r.numbers, r.count_and_kind, r.length) for r in rows] == [
        ("1, 3", "2 screws", 3.0),
        ("2", "1 screw", 4.5),
        ("4–7", "4 clips", None),
    ]


def test_a_joint_undone_twice_is_numbered_once_and_an_unknown_one_not_at_all() -> None:
    marks = marks_of(LAMP, step("x", ("undo", "board-plug"), ("undo", "nothing"), ("undo", "board-plug")))
    assert [m.label for m in marks] == ["1"]


def test_very_many_fasteners_share_one_mark_and_the_next_number_follows() -> None:
    many = anatomy(
        "a", [part("a"), part("b")], [joint("pins", "clips", "ab", SINGLE_LIMIT + 1), joint("plug", "plug", "ab")]
    )
    marks = marks_of(many, step("x", ("undo", "pins"), ("undo", "plug")))
    assert [m.label for m in marks] == [f"1–{SINGLE_LIMIT + 1}", str(SINGLE_LIMIT + 2)]


def test_neighbouring_numbers_are_joined() -> None:
    assert numbers_label([(1, 3), (4, 4), (6, 6), (8, 9)]) == "1–4, 6, 8–9"
