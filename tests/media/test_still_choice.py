"""The choice of a still on numbers alone: cuts, takes, what is sharp, what is in front."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from generator.media.still_choice import CELLS, Seen, candidates, cuts_in, same_take, seen
from tests.media.films import blurred, board, shifted, with_hand

SMALL = (480, 270)


def grey(image: Image.Image) -> np.ndarray:
    return np.asarray(image.convert("L").resize(SMALL, Image.Resampling.BILINEAR))


def look(image: Image.Image, time: float = 0.0) -> Seen:
    return seen(time, grey(image))


def row(*images: Image.Image, rate: int = 25) -> list[Seen]:
    return [look(image, index / rate) for index, image in enumerate(images)]


def test_the_sharper_a_picture_the_higher_its_number() -> None:
    numbers = [look(blurred(board(1), radius)).sharpness for radius in (0, 0.5, 1, 2, 4, 8)]
    assert numbers == sorted(numbers, reverse=True) and numbers[0] > 4 * numbers[-1]


def test_one_hard_edge_does_not_make_a_blurred_picture_sharp() -> None:
    soft = blurred(board(1), 3)
    edged = soft.copy()
    edged.paste((255, 255, 255), (300, 0, 304, 360))
    assert look(edged).sharpness < 0.6 * look(board(1)).sharpness


def test_cells_are_the_brightness_of_their_ten_pixels() -> None:
    image = Image.new("L", SMALL, 0)
    image.paste(255, (10, 20, 20, 30))
    cells = look(image).cells
    assert cells.shape == (CELLS[1], CELLS[0]) and cells[2, 1] == 255 and cells.sum() == 255


def test_a_cut_is_found_and_blur_light_and_a_hand_are_none() -> None:
    take = [board(1)] * 8
    assert cuts_in(row(*take, *[board(2)] * 8)) == (8,)
    assert cuts_in(row(*take, *[blurred(board(1), 3)] * 8)) == ()
    hand = [with_hand(board(1), share / 20) for share in range(20)]
    assert cuts_in(row(*take, *hand, *take)) == ()


def test_a_cut_within_one_camera_position_is_found_too() -> None:
    """The camera stands; from one picture to the next the work has gone on."""
    after = board(1).copy()
    after.paste((30, 30, 30), (60, 60, 330, 260))
    assert cuts_in(row(*[board(1)] * 8, *[after] * 8)) == (8,)


def test_a_moving_camera_is_no_row_of_cuts() -> None:
    assert cuts_in(row(*[shifted(board(1), 6 * n) for n in range(16)])) == ()


def test_a_take_reaches_from_cut_to_cut() -> None:
    pictures = row(*[board(1)] * 8, *[board(2)] * 8, *[board(3)] * 8)
    for moment, first in ((0.0, 0), (0.31, 0), (0.32, 8), (0.5, 8), (0.9, 16), (99.0, 16)):
        assert same_take(pictures, moment) == tuple(pictures[first : first + 8])
    assert same_take([], 1.0) == ()


def test_what_a_slow_change_has_led_to_is_another_take() -> None:
    mixed = [Image.blend(board(1), board(2), min(1.0, n / 30)) for n in range(60)]
    best = candidates(row(*mixed), 0.0)
    assert best and all(each.time < 0.9 for each in best)


def test_the_sharp_picture_wins_over_those_around() -> None:
    images = [blurred(board(1), 2.5)] * 30
    images[17] = board(1)
    assert candidates(row(*images), 0.0)[0].time == pytest.approx(17 / 25)


def test_a_steady_picture_wins_over_one_in_movement() -> None:
    moving = [shifted(board(1), 9 * n) for n in range(12)]
    steady = [blurred(moving[-1], 0.6)] * 12
    assert candidates(row(*moving, *steady), 0.9)[0].time >= 12 / 25


def test_a_free_picture_wins_over_a_sharper_one_with_a_hand_in_front() -> None:
    soft = blurred(board(1), 0.8)
    images = [soft] * 20 + [with_hand(board(1), 0.35 + n / 60) for n in range(8)] + [soft] * 20
    best = candidates(row(*images), 0.0)[0]
    assert best.covered < 0.02 and not 20 / 25 <= best.time < 28 / 25


def test_dark_and_glaring_pictures_are_last_choices() -> None:
    dark = board(1).point(lambda level: level // 12)
    images = [dark] * 6 + [blurred(board(1), 1.5)] * 6
    pictures = [replace(each, sharpness=40.0) if each.light < 22 else each for each in row(*images)]
    assert candidates(pictures, 11 / 25)[0].light > 22
    assert [each.light < 22 for each in candidates(pictures[:6], 0.0)] == [True]


def test_three_are_offered_some_time_apart_and_ties_go_to_the_earlier() -> None:
    offered = candidates(row(*[board(1)] * 50), 0.0)
    assert [each.time for each in offered] == [0.0, pytest.approx(0.4), pytest.approx(0.8)]
    assert len(candidates(row(*[board(1)] * 5), 0.0)) == 1 and candidates([], 0.0) == ()


@pytest.mark.parametrize("shape", [(1, 1), (2, 9), (3, 3), (7, 50)])
def test_the_smallest_pictures_can_be_looked_at(shape: tuple[int, int]) -> None:
    found = seen(0.0, np.full(shape, 90, np.uint8))
    assert (found.sharpness, found.light) == (0.0, 90.0)
    assert len(candidates([found] * 3, 0.0)) == 1
