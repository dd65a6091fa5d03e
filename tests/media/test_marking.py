"""Numbers on a photo: beside their points, clear of each other, inside the picture."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from generator.media.framing import Cut, Window, window_of
from generator.media.marking import HEIGHT, NARROWEST, RING, tags_of

SHARE = st.floats(0, 1)


def test_a_number_stands_beside_its_point_and_not_on_it() -> None:
    (tag,) = tags_of([(0.5, 0.5)], ["1"], 1.5)
    assert (tag.dx**2 + tag.dy**2) ** 0.5 >= HEIGHT / 2 + RING and tag.dx > 0 > tag.dy


@given(SHARE, SHARE, st.sampled_from([0.5, 0.75, 1.5, 2.5]), st.sampled_from(["1", "12", "1–9", "10–12"]))
def test_a_number_alone_stays_inside_the_photo(x: float, y: float, shape: float, label: str) -> None:
    (tag,) = tags_of([(x, y)], [label], shape)
    middle_x, middle_y = x * NARROWEST + tag.dx, y * NARROWEST / shape + tag.dy
    assert tag.width / 2 - 0.01 <= middle_x <= NARROWEST - tag.width / 2 + 0.01
    assert HEIGHT / 2 - 0.01 <= middle_y <= NARROWEST / shape - HEIGHT / 2 + 0.01


def test_neighbours_do_not_cover_each_other() -> None:
    points = [(0.5, 0.5), (0.56, 0.5), (0.5, 0.57), (0.56, 0.57)]
    tags = tags_of(points, ["1", "2", "3", "4"], 1.5)
    boxes = [
        (x * NARROWEST + tag.dx, y * NARROWEST / 1.5 + tag.dy, tag.width) for (x, y), tag in zip(points, tags, strict=True)
    ]
    for index, (ax, ay, aw) in enumerate(boxes):
        for bx, by, bw in boxes[:index]:
            assert abs(ax - bx) >= (aw + bw) / 2 or abs(ay - by) >= HEIGHT


def test_longer_labels_have_wider_fields() -> None:
    short, long = (tags_of([(0.5, 0.5)], [label], 1.5)[0].width for label in ("1", "10–12"))
    assert long > short + 30


@given(st.integers(1, 8000), st.integers(1, 8000), SHARE, SHARE, st.floats(1, 8))
def test_what_is_shown_lies_in_the_photo_and_holds_the_point(w: int, h: int, x: float, y: float, closer: float) -> None:
    window = window_of(w, h, Cut((x, y), closer))
    assert window.left >= 0 and window.left + window.width <= w and window.width >= 1
    assert window.top >= 0 and window.top + window.height <= h and window.height >= 1
    assert window.left - 1 <= x * w <= window.left + window.width + 1
    assert window.top - 1 <= y * h <= window.top + window.height + 1


def test_without_a_point_all_of_it_is_shown() -> None:
    assert window_of(30, 20, None) == Window(0, 0, 30, 20)
    assert window_of(3000, 2000, Cut((0.5, 0.5))) == Window(0, 0, 3000, 2000)
    assert window_of(3000, 2000, Cut((0.5, 0.5), 2)) == Window(750, 500, 1500, 1000)
