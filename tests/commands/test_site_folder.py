"""Writing a site: whole or not at all, and nobody's own files are touched."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.commands.folders import Unreadable
from generator.commands.site_folder import MANIFEST, replace_site


def contents(folder: Path) -> dict[str, str]:
    return {p.relative_to(folder).as_posix(): p.read_text("utf-8") for p in folder.rglob("*") if p.is_file()}


def pages_in(folder: Path) -> dict[str, str]:
    return {path: text for path, text in contents(folder).items() if path != MANIFEST}


def test_a_site_is_written_and_replaced_whole(tmp_path: Path) -> None:
    site = tmp_path / "site"
    replace_site(site, {"index.html": "one", "box/index.html": "box"})
    replace_site(site, {"index.html": "two", "lamp/index.html": b"lamp"})
    assert pages_in(site) == {"index.html": "two", "lamp/index.html": "lamp"}
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_files_that_no_build_wrote_stay(tmp_path: Path) -> None:
    site = tmp_path / "site"
    site.mkdir()
    (site / "README.md").write_text("mine")
    replace_site(site, {"index.html": "one"})
    (site / "notes.txt").write_text("mine too")
    replace_site(site, {"index.html": "two"})
    assert pages_in(site) == {"index.html": "two", "README.md": "mine", "notes.txt": "mine too"}


def test_a_folder_of_other_things_is_refused_and_untouched(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("dear")
    with pytest.raises(Unreadable, match=r"letter\.txt"):
        replace_site(tmp_path, {"index.html": "one"})
    assert contents(tmp_path) == {"letter.txt": "dear"}


def test_ones_own_file_in_the_way_of_a_page_is_refused(tmp_path: Path) -> None:
    site = tmp_path / "site"
    replace_site(site, {"index.html": "one"})
    (site / "box.html").write_text("mine")
    with pytest.raises(Unreadable, match="Move it away"):
        replace_site(site, {"index.html": "two", "box.html": "theirs"})
    assert pages_in(site) == {"index.html": "one", "box.html": "mine"}


def test_a_file_where_a_folder_should_be_is_refused(tmp_path: Path) -> None:
    (tmp_path / "site").write_text("a file")
    with pytest.raises(Unreadable, match="is a file"):
        replace_site(tmp_path / "site", {"index.html": "one"})


def test_what_an_interrupted_build_left_is_cleared_and_the_old_site_put_back(tmp_path: Path) -> None:
    site = tmp_path / "site"
    replace_site(site, {"index.html": "one"})
    (site / "own.txt").write_text("mine")
    site.rename(tmp_path / ".site-old")
    (tmp_path / ".site-new").mkdir()
    (tmp_path / ".site-new" / "half.html").write_text("half")
    replace_site(site, {"index.html": "two"})
    assert pages_in(site) == {"index.html": "two", "own.txt": "mine"}
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_disk_that_refuses_leaves_the_old_site(tmp_path: Path) -> None:
    site = tmp_path / "site"
    replace_site(site, {"index.html": "one"})
    with pytest.raises(Unreadable, match="The old site is as it was"):
        replace_site(site, {"index.html": "two", "x" * 300: "a name no disk takes"})
    assert pages_in(site) == {"index.html": "one"}
