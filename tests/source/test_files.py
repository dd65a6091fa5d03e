"""Files: nothing outside the folder is read, nothing without bounds, and nothing on the disk raises."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from generator.source.faults import BadPath, BrokenYaml, MissingFile, TooBig, UnreadableFile
from generator.source.files import LARGEST_FILE, TextFile, list_folder, read_text
from generator.source.places import Place


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = tmp_path / "content"
    folder.mkdir()
    (tmp_path / "secret.md").write_text("secret", encoding="utf-8")
    (tmp_path / "content-2").mkdir()
    (tmp_path / "content-2" / "near.md").write_text("secret", encoding="utf-8")
    return folder


def test_text_with_any_line_ends_and_a_byte_order_mark(root: Path) -> None:
    (root / "a.md").write_bytes(b"\xef\xbb\xbfone\r\ntwo \xc3\xa9\rthree\n")
    assert read_text(root, "a.md") == TextFile("a.md", "one\ntwo é\nthree\n", ("one", "two é", "three", ""))


def test_a_file_that_is_not_there(root: Path) -> None:
    assert read_text(root, "a.md") == MissingFile(Place("a.md"), "a.md")


@pytest.mark.parametrize("path", ["../secret.md", "../content-2/near.md", "x/../../secret.md"])
def test_paths_that_leave_are_not_followed(root: Path, path: str) -> None:
    assert isinstance(read_text(root, path), BadPath)


@pytest.mark.parametrize("target", ["../secret.md", "../content-2/near.md", "/etc/passwd"])
def test_links_that_leave_are_not_followed(root: Path, target: str) -> None:
    (root / "a.md").symlink_to(target)
    (root / "inner").symlink_to("..", target_is_directory=True)
    reason = "it is a link that leaves the content folder"
    assert read_text(root, "a.md") == BadPath(Place("a.md"), "a.md", reason)
    assert isinstance(read_text(root, "inner/secret.md"), BadPath)
    listing = list_folder(root, "")
    assert (listing.folders, listing.files) == ((), ())
    assert listing.faults == (BadPath(Place("a.md"), "a.md", reason), BadPath(Place("inner"), "inner", reason))
    assert list_folder(root, "inner").faults == (BadPath(Place("inner"), "inner", reason),)


def test_links_inside_are_followed_to_files_only(root: Path) -> None:
    (root / "a.md").write_text("one", encoding="utf-8")
    (root / "b.md").symlink_to("a.md")
    (root / "c.md").symlink_to("nowhere.md")
    (root / "folder").mkdir()
    (root / "loop").symlink_to("folder", target_is_directory=True)
    found = read_text(root, "b.md")
    assert isinstance(found, TextFile)
    assert found.text == "one"
    assert read_text(root, "c.md") == UnreadableFile(Place("c.md"), "c.md", "it is a link to nothing")
    listing = list_folder(root, "")
    assert listing.folders == ("folder",)
    assert [name for name, _ in listing.files] == ["a.md", "b.md"]
    assert [type(fault) for fault in listing.faults] == [UnreadableFile, BadPath]


def test_what_is_no_plain_file(root: Path) -> None:
    os.mkfifo(root / "pipe.md")
    (root / "folder.md").mkdir()
    assert read_text(root, "pipe.md") == UnreadableFile(Place("pipe.md"), "pipe.md", "it is no plain file")
    assert isinstance(read_text(root, "folder.md"), UnreadableFile)
    (root / "a.md").write_text("x", encoding="utf-8")
    assert isinstance(read_text(root, "a.md/b.md"), UnreadableFile)
    assert [type(fault) for fault in list_folder(root, "").faults] == [UnreadableFile]


def test_a_link_that_bites_its_own_tail(root: Path) -> None:
    (root / "a.md").symlink_to("a.md")
    assert isinstance(read_text(root, "a.md"), UnreadableFile)
    assert len(list_folder(root, "").faults) == 1


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is closed to the superuser")
def test_what_may_not_be_read(root: Path) -> None:
    (root / "a.md").write_text("x", encoding="utf-8")
    (root / "a.md").chmod(0)
    reason = "it may not be read with the rights at hand"
    assert read_text(root, "a.md") == UnreadableFile(Place("a.md"), "a.md", reason)


def test_rights_that_are_missing_are_a_fault(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def closed(*_: object) -> int:
        raise PermissionError(13, "Permission denied")

    (root / "a.md").write_text("x", encoding="utf-8")
    monkeypatch.setattr(os, "open", closed)
    monkeypatch.setattr(os, "scandir", closed)
    reason = "it may not be read with the rights at hand"
    assert read_text(root, "a.md") == UnreadableFile(Place("a.md"), "a.md", reason)
    assert list_folder(root, "").faults == (UnreadableFile(Place(""), "", reason),)


def test_the_largest_file(root: Path) -> None:
    (root / "a.md").write_bytes(b"x" * LARGEST_FILE)
    (root / "b.md").write_bytes(b"x" * (LARGEST_FILE + 1))
    assert isinstance(read_text(root, "a.md"), TextFile)
    assert read_text(root, "b.md") == TooBig(Place("b.md"), "file", "1 MiB")


@pytest.mark.parametrize(
    ("data", "spot"),
    [
        ("é\r\nab".encode() + b"\xff", "2:3"),
        (b"\xef\xbb\xbfa\xc3", "1:2"),
        ("a".encode("utf-16"), "1:1"),
        ("é\nb\0".encode(), "2:2"),
        (b"a\x1b[2J", "1:2"),
    ],
)
def test_bytes_that_are_no_text(root: Path, data: bytes, spot: str) -> None:
    (root / "a.md").write_bytes(data)
    fault = read_text(root, "a.md")
    assert isinstance(fault, BrokenYaml)
    assert str(fault.place) == f"a.md:{spot}"


def test_folders_are_listed_in_order_without_hidden_names(root: Path) -> None:
    for name in ("b.md", "a.md", ".hidden", "Z.md", "é.md"):
        (root / name).write_text("xyz", encoding="utf-8")
    for name in ("two", "one", ".git"):
        (root / name).mkdir()
    listing = list_folder(root, "")
    assert listing.folders == ("one", "two")
    assert listing.files == (("Z.md", 3), ("a.md", 3), ("b.md", 3), ("é.md", 3))
    assert listing.faults == ()
    assert list_folder(root, "three") == list_folder(root, "one")


def test_names_that_cannot_be_shown_are_refused(root: Path) -> None:
    for name in (b"a\xff.md", b"b\x1b.md", b"c\n.md", b"d\\.md"):
        with open(os.fsencode(root) + b"/" + name, "wb"):  # noqa: PTH123 - a Path cannot be made of such bytes
            pass
    listing = list_folder(root, "")
    assert listing.files == ()
    assert len(listing.faults) == 4
    for fault in listing.faults:
        fault.place.file.encode("utf-8")
        assert "\x1b" not in fault.place.file
