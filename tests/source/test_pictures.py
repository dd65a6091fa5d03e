"""Heads of pictures: read for what they say, whatever a stranger put into the file."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, features

from generator.source.pictures import FILE_LIMIT, SIDE_LIMIT, Refusal, Why, refusal_of


def picture(kind: str, size: tuple[int, int] = (8, 6)) -> bytes:
    out = BytesIO()
    Image.new("RGB", size, "grey").save(out, kind)
    return out.getvalue()


def refusal(folder: Path, name: str, data: bytes) -> Refusal | None:
    (folder / name).write_bytes(data)
    return refusal_of(folder / name, len(data))


KINDS = [("a.jpg", "JPEG"), ("a.JPEG", "JPEG"), ("a.png", "PNG"), ("a.webp", "WEBP")]
KINDS += [("a.avif", "AVIF")] if features.check("avif") else []


@pytest.mark.parametrize(("name", "kind"), KINDS)
def test_what_pages_can_show_is_not_refused(tmp_path: Path, name: str, kind: str) -> None:
    assert refusal(tmp_path, name, picture(kind)) is None


@pytest.mark.parametrize(
    ("name", "data", "why"),
    [
        ("a.gif", picture("GIF"), Why.ENDING),
        ("a", picture("PNG"), Why.ENDING),
        ("a.png", b"", Why.EMPTY),
        ("a.png", picture("GIF"), Why.FOREIGN),
        ("a.jpg", b"<svg xmlns='http://www.w3.org/2000/svg'/>", Why.FOREIGN),
        ("a.png", picture("PNG")[:20], Why.DAMAGED),
    ],
)
def test_what_they_cannot_is(tmp_path: Path, name: str, data: bytes, why: Why) -> None:
    found = refusal(tmp_path, name, data)
    assert found is not None and found.why is why


def test_too_large_is_told_without_a_look_at_the_pixels(tmp_path: Path) -> None:
    found = refusal(tmp_path, "a.png", picture("PNG", (SIDE_LIMIT + 1, 1)))
    assert found == Refusal(Why.LARGE, SIDE_LIMIT + 1, 1)
    assert refusal_of(tmp_path / "not-there.png", FILE_LIMIT + 1) == Refusal(Why.HEAVY)


def test_a_file_that_went_away_is_no_traceback(tmp_path: Path) -> None:
    assert refusal_of(tmp_path / "gone.png", 10) == Refusal(Why.DAMAGED)


@settings(max_examples=60, deadline=None)
@given(cut=st.integers(0, 200), noise=st.binary(max_size=40), at=st.integers(0, 60), kind=st.sampled_from(KINDS))
def test_no_bytes_bring_it_down(
    tmp_path_factory: pytest.TempPathFactory, cut: int, noise: bytes, at: int, kind: tuple[str, str]
) -> None:
    data = picture(kind[1])
    data = (data[:at] + noise + data[at + len(noise) :])[: len(data) - cut]
    found = refusal(tmp_path_factory.getbasetemp(), kind[0], data)
    assert found is None or isinstance(found.why, Why)
