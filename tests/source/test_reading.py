"""A content folder read in one go."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.source.faults import BadPath, BrokenYaml, MissingFile, TooBig, UnknownKey
from generator.source.files import NoContent
from generator.source.pictures import Refusal, Why
from generator.source.places import Place
from generator.source.reading import DEEPEST_MEDIA, MediaFile, read_library

Write = Callable[[str, str], None]

STEP = """\
---
title: Lift the shade
work:
  - lift: shade
---
Lift the [shade](part:shade).

## Refitting
Press it [home](step:home).
"""


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return tmp_path / "content"


@pytest.fixture
def write(content: Path) -> Write:
    def put(path: str, text: str) -> None:
        file = content / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")

    put("library.yaml", "title: Bench notes\n")
    put("tools.yaml", "pick: {name: opening pick}\n")
    put("lamp/device.yaml", "name: Lamp\norder: [lift-shade]\n")
    put("lamp/anatomy.yaml", "base: foot\nparts: {foot: {}, shade: {}}\n")
    put("lamp/steps/lift-shade.md", STEP)
    return put


def test_everything_is_read_with_its_places(content: Path, write: Write) -> None:
    write("lamp/notes/shade.md", "It [fits](part:foot) loosely.\n")
    write("lamp/media/b.jpg", "xyz")
    write("lamp/media/a/c.jpg", "x")
    write("lamp/media/.hidden", "x")
    write("drafts/readme.txt", "not a device")
    found = read_library(content)
    assert found.every_fault == ()
    assert found.library.record is not None
    assert found.library.record.title == "Bench notes"
    assert found.tools.record is not None
    assert found.tools.record["pick"].name == "opening pick"
    assert (found.supplies.record, found.supplies.is_complete) == ({}, True)
    (lamp,) = found.devices
    assert (lamp.id, lamp.is_complete) == ("lamp", True)
    assert lamp.device.record is not None
    assert lamp.device.record.order == ["lift-shade"]
    assert str(lamp.device.places.value("order", 0)) == "lamp/device.yaml:2:9"
    (step,) = lamp.steps
    assert (step.id, step.file) == ("lift-shade", "lamp/steps/lift-shade.md")
    assert step.record is not None
    assert str(step.places.value("work", 0, "lift")) == "lamp/steps/lift-shade.md:4:11"
    assert str(step.body.references[0].place) == "lamp/steps/lift-shade.md:6:10"
    assert step.refitting is not None
    assert str(step.refitting.references[0].place) == "lamp/steps/lift-shade.md:9:10"
    assert [sentence.text for sentence in step.body.sentences] == ["Lift the shade."]
    (note,) = lamp.notes
    assert (note.part, note.file, note.prose.references[0].target) == ("shade", "lamp/notes/shade.md", "foot")
    foreign = Refusal(Why.FOREIGN)
    assert lamp.media == (MediaFile("a/c.jpg", 1, foreign), MediaFile("b.jpg", 3, foreign))
    assert found.texts["lamp/steps/lift-shade.md"][3] == "  - lift: shade"
    assert sorted(found.texts) == [
        "lamp/anatomy.yaml",
        "lamp/device.yaml",
        "lamp/notes/shade.md",
        "lamp/steps/lift-shade.md",
        "library.yaml",
        "tools.yaml",
    ]


def test_all_faults_of_all_files_come_back(content: Path, write: Write) -> None:
    write("library.yaml", "title: a\ntitel: b\n")
    write("tools.yaml", "pick: a: b\n")
    write("lamp/device.yaml", "name: Lamp\ncolour: red\n")
    write("lamp/steps/lift-shade.md", STEP.replace("title", "titel").replace("(part:shade)", "(ftp://x)"))
    write("lamp/steps/no-data.md", "Just words.\n")
    write("lamp/steps/Bad Name.md", STEP)
    write("lamp/steps/notes.txt", "x")
    write("radio/steps/open.md", STEP)
    found = read_library(content)
    assert [type(fault) for fault in found.faults] == [UnknownKey, BrokenYaml]
    assert found.tools.record is None
    lamp, radio = found.devices
    assert [(type(fault).__name__, str(fault.place)) for fault in lamp.faults] == [
        ("UnknownKey", "lamp/device.yaml:2:1"),
        ("BadPath", "lamp/steps/Bad Name.md:1:1"),
        ("BadPath", "lamp/steps/notes.txt:1:1"),
        ("MissingKey", "lamp/steps/lift-shade.md:1:1"),
        ("UnknownKey", "lamp/steps/lift-shade.md:2:1"),
        ("BadPath", "lamp/steps/lift-shade.md:6:10"),
        ("BrokenYaml", "lamp/steps/no-data.md:1:1"),
    ]
    assert [(step.id, step.record is None, step.is_complete) for step in lamp.steps] == [
        ("lift-shade", True, False),
        ("no-data", True, False),
    ]
    assert radio.faults == (
        MissingFile(Place("radio/device.yaml"), "radio/device.yaml"),
        MissingFile(Place("radio/anatomy.yaml"), "radio/anatomy.yaml"),
    )
    assert (radio.is_complete, radio.device.record) == (False, None)
    assert found.every_fault == found.faults + lamp.faults + radio.faults


def test_only_one_device(content: Path, write: Write) -> None:
    write("radio/device.yaml", "name: Radio\n")
    assert [device.id for device in read_library(content).devices] == ["lamp", "radio"]
    assert [device.id for device in read_library(content, only="radio").devices] == ["radio"]
    for name in ("radoi", "../content", ""):
        with pytest.raises(NoContent, match="There is no device"):
            read_library(content, only=name)
    with pytest.raises(NoContent, match="Near it: radio"):
        read_library(content, only="radoi")


def test_no_content_folder(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    for name in ("nowhere", "file", "file/below"):
        with pytest.raises(NoContent, match="There is no folder"):
            read_library(tmp_path / name)


def test_an_empty_content_folder(tmp_path: Path) -> None:
    found = read_library(tmp_path)
    assert found.devices == ()
    assert found.faults == (MissingFile(Place("library.yaml"), "library.yaml"),)


def test_a_device_folder_needs_an_id_for_a_name(content: Path, write: Write) -> None:
    write("My Lamp/device.yaml", "name: Lamp\n")
    found = read_library(content)
    assert [device.id for device in found.devices] == ["lamp"]
    (fault,) = found.faults
    assert isinstance(fault, BadPath)
    assert fault.place.file == "My Lamp"


def test_links_that_leave_are_told_once(content: Path, write: Write, tmp_path: Path) -> None:
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "device.yaml").write_text("name: Secret\n", encoding="utf-8")
    (content / "radio").symlink_to("../outside", target_is_directory=True)
    (content / "tools.yaml").unlink()
    (content / "tools.yaml").symlink_to("../outside/device.yaml")
    (content / "lamp/device.yaml").unlink()
    (content / "lamp/device.yaml").symlink_to("../../outside/device.yaml")
    (content / "lamp/media").symlink_to("/", target_is_directory=True)
    found = read_library(content)
    assert [device.id for device in found.devices] == ["lamp"]
    assert [fault.place.file for fault in found.faults] == ["radio", "tools.yaml"]
    assert [fault.place.file for fault in found.devices[0].faults] == ["lamp/device.yaml", "lamp/media"]
    assert not found.tools.is_complete
    assert found.devices[0].media == ()
    assert "Secret" not in str(found)


def test_media_folders_are_followed_to_a_bound(content: Path, write: Write) -> None:
    write("lamp/media/" + "a/" * (DEEPEST_MEDIA + 1) + "b.jpg", "x")
    (lamp,) = read_library(content).devices
    assert lamp.media == ()
    assert [type(fault) for fault in lamp.faults] == [TooBig]


def test_reading_twice_gives_the_same(content: Path, write: Write) -> None:
    write("lamp/steps/again.md", STEP.replace("lift: shade", "lift: A"))
    assert read_library(content) == read_library(content)
