"""One entry more in a step file, and every other sign as its author left it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.commands.photo_entries import entry_for, with_photo

HEAD = "---\ntitle: Open the back   # a remark\nvideo: \"0:42\"\nwork:\n  - undo: glue   # warm first\n"
BODY = "---\nWarm the edge.\n\nphotos: in the prose\n---\n\n## Refitting\nPress.\n"


def added(photos: str) -> str | None:
    return with_photo(HEAD + photos + BODY, "new.jpg")


@pytest.mark.parametrize(
    ("photos", "wanted"),
    [
        ("", "photos:\n  - file: new.jpg\n"),
        ("photos:\n  - file: a.jpg   # mine\n", "photos:\n  - file: a.jpg   # mine\n  - file: new.jpg\n"),
        ("photos:\n- file: a.jpg\n  alt: A\n", "photos:\n- file: a.jpg\n  alt: A\n- file: new.jpg\n"),
        (
            "photos:\n    - file: a.jpg\n      alt: >-\n        Long words\n        go on.\n\n"
            "    # the last\ntakes: 2 min\n",
            "photos:\n    - file: a.jpg\n      alt: >-\n        Long words\n        go on.\n    - file: new.jpg\n\n"
            "    # the last\ntakes: 2 min\n",
        ),
        ("photos: []   # none yet\n", "photos: [{file: new.jpg}]   # none yet\n"),
        ("photos: [{file: a.jpg}]\n", "photos: [{file: a.jpg}, {file: new.jpg}]\n"),
        ("photos: [{file: a.jpg}, ]\ntakes: 2 min\n", "photos: [{file: a.jpg}, {file: new.jpg}]\ntakes: 2 min\n"),
        (
            "photos:   # two\n  - {file: a.jpg, marks: [{at: [0.1, 0.2], text: x}]}\n  -\n    file: b.jpg\n",
            "photos:   # two\n  - {file: a.jpg, marks: [{at: [0.1, 0.2], text: x}]}\n  -\n    file: b.jpg\n"
            "  - file: new.jpg\n",
        ),
    ],
)
def test_the_entry_stands_at_the_end_of_the_list_and_all_else_is_kept(photos: str, wanted: str) -> None:
    assert added(photos) == HEAD + wanted + BODY


@pytest.mark.parametrize(
    "photos",
    [
        "photos: [{file: a.jpg},\n  {file: b.jpg}]\n",
        "photos: 3\n",
        "photos: [{file: a.jpg, alt: 'a ] b', more: 1}]\n",
        "photos:\n  - file: a.jpg\n    filed: b\n",
        "photos: &anchor []\n",
    ],
)
def test_what_cannot_be_done_by_adding_alone_is_left_to_the_author(photos: str) -> None:
    assert added(photos) is None


def test_other_line_ends_stay_as_they_are() -> None:
    text = (HEAD + "photos:\n  - file: a.jpg\n" + BODY).replace("\n", "\r\n")
    wanted = (HEAD + "photos:\n  - file: a.jpg\n  - file: new.jpg\n" + BODY).replace("\n", "\r\n")
    assert with_photo(text, "new.jpg") == wanted


@pytest.mark.parametrize("text", ["", "no front matter\n", "---\ntitle: a\n", "---\ntitle: [\n---\n"])
def test_what_is_no_step_file_is_left_alone(text: str) -> None:
    assert with_photo(text, "new.jpg") is None


@given(st.lists(st.sampled_from(["photos:", "  - file: a.jpg", "    alt: b", "# c", "", "takes: 2 min", "photos: []", " "])))
def test_whatever_stands_there_lines_are_only_added(lines: list[str]) -> None:
    text = HEAD + "".join(f"{line}\n" for line in lines) + BODY
    new = with_photo(text, "new.jpg")
    if new is not None and "photos: []" not in lines:
        rest = iter(new.splitlines())
        assert all(line in rest for line in text.splitlines())


def test_the_entry_that_is_told_is_the_one_that_is_made() -> None:
    assert entry_for("new.jpg") in (added("") or "")
