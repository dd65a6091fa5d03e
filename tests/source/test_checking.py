"""Records made from trees: each misfit told at its place, the rest of the file kept with the right places."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.source.checking import MOST_FAULTS, Checked, check_record
from generator.source.faults import BadPath, BadTime, BrokenYaml, Fault, MissingKey, TooBig, UnknownKey, WrongKind
from generator.source.places import Place
from generator.source.records import AnatomyRecord, DeviceRecord, LibraryRecord, StepRecord, SupplyRecord, ToolRecord
from generator.source.values import Duration, Id
from generator.source.yaml_tree import read_yaml

KEYS = "name, kind, maker, about, faces, size, power, video, order, alternatives, pages, verdict, index, changed, formerly"
VERBS = "undo, lift, fold, turn, heat, soak, wait or check"


def test_a_whole_anatomy() -> None:
    text = """\
base: frame
parts:
  frame: {name: frame}
  back: {box: [0, 0, 74, 158], thickness: 0.8, spare: {number: 1.10}, outline: [[0, 0], [1, 2.5]]}
  battery: {cell: {chemistry: Li-ion, volts: 3.870, watt-hours: 18.4, limit: 55 °C}, under: back}
joints:
  back-glue: {kind: glue, joins: [back, frame], softens: heat, at: 80 °C, refit: new}
  screws: {kind: screws, joins: [back, frame], lengths: 3, at: [[6, 20]], torque: 0.06 N·m, reusable: no}
"""
    checked = check_record(read_yaml(text, "f"), AnatomyRecord)
    assert checked.faults == ()
    assert checked.is_complete
    record = checked.record
    assert record is not None
    assert record.parts["back"].spare is not None
    assert record.parts["back"].spare.number == "1.10"
    assert record.parts["back"].outline == [(0.0, 0.0), (1.0, 2.5)]
    assert record.parts["battery"].cell is not None
    assert str(record.parts["battery"].cell.volts) == "3.870"
    assert record.parts["battery"].cell.limit == 55.0
    assert record.parts["battery"].under == ["back"]
    assert record.joints["back-glue"].at == 80.0
    assert record.joints["screws"].at == [(6.0, 20.0)]
    assert record.joints["screws"].lengths == [3.0]
    assert record.joints["screws"].reusable == "no"


def test_what_changed_is_a_day_or_a_list_of_changes() -> None:
    day = check_record(read_yaml("name: Lamp\nchanged: 2026-03-12\n", "f"), DeviceRecord)
    assert day.record is not None and day.record.changed == "2026-03-12"
    changes = "changed:\n  - {on: 2026-03-12, what: Step 4 turned round.}\n  - {on: 2025-11-01, what: First published.}\n"
    text = f"name: Lamp\n{changes}"
    listed = check_record(read_yaml(text, "f"), DeviceRecord)
    assert listed.faults == ()
    assert listed.record is not None and isinstance(listed.record.changed, list)
    assert [(change.on, change.what) for change in listed.record.changed] == [
        ("2026-03-12", "Step 4 turned round."),
        ("2025-11-01", "First published."),
    ]
    wrong = check_record(read_yaml("name: Lamp\nchanged:\n  - {on: 2026-02-30, what: Twice.}\n", "f"), DeviceRecord)
    assert [(type(fault), fault.place.line) for fault in wrong.faults] == [(WrongKind, 3)]
    assert check_record(read_yaml("name: Lamp\nchanged: []\n", "f"), DeviceRecord).faults


def test_a_whole_step() -> None:
    text = """\
title: Open it
video: 0:42-1:55
work:
  - {undo: a, with: [pick, heat-pad], for: 30-60 s}
  - wait: 2 min
  - wait: until it is cool
  - {check: the meter shows nothing, proves: discharged, of: coil}
photos: [{file: a.jpg, marks: [{at: [0.4, 1], joint: a}]}]
"""
    record = check_record(read_yaml(text, "f"), StepRecord).record
    assert record is not None
    assert record.video == (42, 115)
    assert record.work[0].with_ == ["pick", "heat-pad"]
    assert record.work[0].for_ == Duration(30, 60)
    assert [action.wait for action in record.work[1:3]] == [Duration(120, 120), "until it is cool"]
    assert record.work[3].of == "coil"


def test_files_of_records_by_id() -> None:
    kind: Any = dict[Id, ToolRecord]
    checked = check_record(read_yaml("pick: {name: opening pick, supply: x}\nB: {name: b}\n", "tools.yaml"), kind)
    assert checked.record is not None
    assert list(checked.record) == ["pick"]
    assert [type(fault) for fault in checked.faults] == [UnknownKey, WrongKind]
    assert isinstance(checked.faults[0], UnknownKey)
    assert checked.faults[0].inside == 'tool "pick"'
    assert check_record(read_yaml("", "supplies.yaml"), dict[Id, SupplyRecord]).record == {}


@pytest.mark.parametrize(
    ("kind", "text", "fault", "facts"),
    [
        (DeviceRecord, "name: a\nfacs: [b]", UnknownKey, ("2:1-5", "facs", ("faces",), "device")),
        (LibraryRecord, "title: a\nLicence: b", UnknownKey, ("2:1-8", "Licence", ("licence",), "library")),
        (LibraryRecord, "title: a\nqqqqq: b", UnknownKey, ("2:1-6", "qqqqq", (), "library")),
        (
            AnatomyRecord,
            "base: a\nparts: {b: {thicknes: 1}}",
            UnknownKey,
            ("2:13-21", "thicknes", ("thickness",), 'part "b"'),
        ),
        (
            AnatomyRecord,
            "base: a\nparts: {b: {cell: {chemistry: x, watt_hours: 1}}}",
            UnknownKey,
            ("2:34-44", "watt_hours", ("watt-hours",), "cell"),
        ),
        (StepRecord, "title: a\nwork: [{undo: b, behnd: c, with_: d}]", UnknownKey, ("2:18-23", "behnd", (), "action")),
        (DeviceRecord, "kind: phone", MissingKey, ("1:1-1", "name", "device")),
        (AnatomyRecord, "base: a\nparts: {}\njoints: {j: {joins: [a, b]}}", MissingKey, ("3:10-11", "kind", 'joint "j"')),
        (StepRecord, "title: a\nphotos:\n  - alt: b", MissingKey, ("3:5-11", "file", "photo")),
        (DeviceRecord, "name: true", WrongKind, ("1:7-11", "name", "true", "a text on one line")),
        (DeviceRecord, "name:", WrongKind, ("1:6-6", "name", "nothing", "a text on one line")),
        (
            DeviceRecord,
            "name: a\nkind: fone",
            WrongKind,
            ("2:7-11", "kind", "fone", "one of: phone, foldable phone, tablet, other"),
        ),
        (DeviceRecord, "name: a\nfaces: []", WrongKind, ("2:8-10", "faces", "a list", "a list with 1 or more entries")),
        (DeviceRecord, "name: a\norder: b", WrongKind, ("2:8-9", "order", "b", "a list such as [one, two]")),
        (DeviceRecord, "- a", WrongKind, ("1:1-1", "device", "a list", f"keys with their values, of these: {KEYS}")),
        (
            AnatomyRecord,
            "base: a\nparts: {b: {replaceable: yes}}",
            WrongKind,
            ("2:26-29", "replaceable", "yes", "true or false"),
        ),
        (
            AnatomyRecord,
            "base: a\nparts: {}\njoints: {j: {kind: clips, joins: [a, b], count: 0}}",
            WrongKind,
            ("3:49-50", "count", "0", "a number of at least 1"),
        ),
        (
            AnatomyRecord,
            "base: a\nparts: {}\njoints: {j: {kind: clips, joins: [a, b], count: 1.0}}",
            WrongKind,
            ("3:49-52", "count", "1.0", "a whole number such as 3"),
        ),
        (
            AnatomyRecord,
            "base: a\nparts: {}\njoints: {j: {kind: glue, joins: [a, b], at: 80 C}}",
            WrongKind,
            ("3:45-49", "at", "80 C", "a temperature such as 80 °C"),
        ),
        (StepRecord, "title: a\ntakes: 4", WrongKind, ("2:8-9", "takes", "4", "a duration such as 45 s, 2 min or 30-60 s")),
        (StepRecord, "title: a\nvideo: 0:75", BadTime, ("2:8-12", "0:75")),
        (StepRecord, "title: a\nphotos: [{file: ../b}]", BadPath, ("2:17-21", "../b", "it leaves the folder with ..")),
        (
            DeviceRecord,
            "name: a\nvideo: {address: 'javascript:x'}",
            BadPath,
            ("2:18-32", "javascript:x", "it does not start with https:// or http://"),
        ),
        (
            StepRecord,
            "title: a\nwork: [{with: b}]",
            WrongKind,
            ("2:8-17", "work", "keys with their values", f"one verb: {VERBS}"),
        ),
        (
            StepRecord,
            "title: a\nwork: [{for: 2 min}]",
            WrongKind,
            ("2:8-20", "work", "keys with their values", f"one verb: {VERBS}"),
        ),
        (
            StepRecord,
            "title: a\nwork: [{undo: b, lift: c}]",
            WrongKind,
            ("2:18-22", "work", "lift", f"one verb an action ({VERBS}); this one has undo and lift"),
        ),
        (
            StepRecord,
            "title: a\nwork: [{undo: b, to: 80 °C}]",
            WrongKind,
            ("2:18-20", "work", "to", "`to` only beside `heat`"),
        ),
    ],
)
def test_each_misfit_is_told_once_at_its_place(kind: Any, text: str, fault: type[Fault], facts: tuple[Any, ...]) -> None:
    checked = check_record(read_yaml(text + "\n", "f"), kind)
    told = [each for each in checked.faults if isinstance(each, fault)]
    place, *rest = facts
    assert told, checked.faults
    first = told[0]
    assert f"{first.place.line}:{first.place.column}-{first.place.end_column}" == place
    values = [getattr(first, name) for name in first.__dataclass_fields__ if name != "place"]
    assert values[: len(rest)] == rest
    assert not checked.is_complete


def test_what_the_reader_refused_is_not_told_again() -> None:
    checked = check_record(read_yaml("title: #3 screw\nwork: *x\n", "f"), StepRecord)
    assert [type(fault) for fault in checked.faults] == [BrokenYaml, BrokenYaml]
    assert checked.record is None


def test_unreadable_text_gives_no_record() -> None:
    checked = check_record(read_yaml("title: a: b\n", "f"), StepRecord)
    assert (checked.record, checked.is_complete, len(checked.faults)) == (None, False, 1)


def test_one_faulty_entry_leaves_the_others() -> None:
    text = """\
base: frame
parts:
  frame: {nam: frame}
  back: {box: [0, 0, 1], thickness: 0.8}
  Bad: {}
joints:
  one: {kind: glu, joins: [back, frame]}
  two: {kind: screws, joins: [back, frame], at: [[1, 2], [3]], lengths: [3, x, 4], behind: [back, B], count: 2}
"""
    checked = check_record(read_yaml(text, "f"), AnatomyRecord)
    record = checked.record
    assert record is not None
    assert len(checked.faults) == 7
    assert list(record.parts) == ["frame", "back"]
    assert (record.parts["back"].box, record.parts["back"].thickness) == (None, 0.8)
    assert list(record.joints) == ["two"]
    # Of a list of figures nothing is left, or it would say something else; of a list of names the others are.
    assert (record.joints["two"].at, record.joints["two"].lengths, record.joints["two"].count) == (None, [], 2)
    assert record.joints["two"].behind == ["back"]
    assert checked.places.key("joints", "two") == Place("f", 8, 3, 8, 6)


def test_numbers_among_entries_are_left_out_alone() -> None:
    record = check_record(read_yaml("title: a\nwork: [3, {undo: a}, 4]\n", "f"), StepRecord).record
    assert record is not None
    assert [action.undo for action in record.work] == ["a"]


good = st.integers(0, 99).map(lambda number: f"{{undo: joint-{number}}}")
bad = st.sampled_from(["{undo: A B}", "{undo: a, lift: b}", "{with: a}", "x", "{undo: [a]}", "{}", "3"])


@given(st.lists(st.tuples(st.booleans(), good, bad), max_size=12))
def test_places_follow_the_entries_that_are_left(actions: list[tuple[bool, str, str]]) -> None:
    written = [right if is_good else wrong for is_good, right, wrong in actions]
    text = "title: a\nwork:\n" + "".join(f"  - {each}\n" for each in written) if written else "title: a\nwork: []\n"
    lines = text.split("\n")
    checked: Checked[StepRecord] = check_record(read_yaml(text, "f"), StepRecord)
    record = checked.record
    assert record is not None
    assert [f"{{undo: {action.undo}}}" for action in record.work] == [right for is_good, right, _ in actions if is_good]
    for index, action in enumerate(record.work):
        place = checked.places.value("work", index, "undo")
        assert lines[place.line - 1][place.column - 1 : place.end_column - 1] == action.undo
    assert len(checked.faults) == sum(not is_good for is_good, _, _ in actions)


def test_faults_are_bounded() -> None:
    text = "title: a\nwork:\n" + "  - {undo: A}\n" * 500
    checked = check_record(read_yaml(text, "f"), StepRecord)
    assert len(checked.faults) == MOST_FAULTS + 1
    assert isinstance(checked.faults[-1], TooBig)
    assert checked.faults[-1].place.line == 3 + MOST_FAULTS
    assert checked.record is not None
    assert checked.record.work == []


def test_what_is_shown_has_no_unseen_signs_and_is_short() -> None:
    checked = check_record(read_yaml('title: a\n"\\e[2J": 1\ntakes: "' + "x\\a" * 100 + '"\n', "f"), StepRecord)
    unknown, wrong = checked.faults
    assert isinstance(unknown, UnknownKey)
    assert isinstance(wrong, WrongKind)
    assert unknown.key == "\ufffd[2J"
    assert len(wrong.written) == 80
    assert "\a" not in wrong.written


values = st.sampled_from(
    ["a", "3", "[1, 2]", "{a: b}", "[]", "{}", "", "true", "2 min", "80 °C", "0:42", "[[1, 2], [x]]", "[{}]", "[a, 3]"]
)
device_keys = st.sampled_from(["name", "kind", "faces", "size", "power", "video", "order", "pages", "index", "x", "verdict"])
joint_keys = st.sampled_from(["kind", "joins", "behind", "at", "lengths", "count", "torque", "refit", "tool", "x"])
step_keys = st.sampled_from(["title", "video", "work", "photos", "takes", "cautions", "x"])


@given(st.dictionaries(device_keys, values), st.dictionaries(joint_keys, values), st.dictionaries(step_keys, values))
def test_no_tree_raises(device: dict[str, str], joint: dict[str, str], step: dict[str, str]) -> None:
    spread = {
        key: "".join(f"{name}: {value}\n" for name, value in made.items()) for key, made in (("d", device), ("s", step))
    }
    joints = "base: a\nparts: {}\njoints:\n  j:\n" + "".join(f"    {name}: {value}\n" for name, value in joint.items())
    for kind, text in ((DeviceRecord, spread["d"]), (StepRecord, spread["s"]), (AnatomyRecord, joints)):
        checked: Checked[Any] = check_record(read_yaml(text, "f"), kind)
        assert checked.is_complete == (not checked.faults)
        assert checked.record is not None or checked.faults
