"""Codes read back from their drawing, by a reader that knows nothing of how they were made."""

from __future__ import annotations

import re

import zxingcpp
from PIL import Image

QUIET = 4
SCALE = 4  # pixels of a module


def address_in(drawn: str) -> str:
    """What the reader finds in the one code of a drawing."""
    rows = modules_of(drawn)
    size = len(rows) + 2 * QUIET
    image = Image.new("L", (size, size), 255)
    for y, row in enumerate(rows):
        for x, sign in enumerate(row):
            if sign == "1":
                image.putpixel((x + QUIET, y + QUIET), 0)
    found = zxingcpp.read_barcodes(image.resize((size * SCALE, size * SCALE), Image.Resampling.NEAREST))
    assert len(found) == 1
    return str(found[0].text)


def modules_of(drawn: str) -> tuple[str, ...]:
    """The rows of modules that the strokes of a drawing cover, without the quiet zone; a code is a square."""
    told = re.search(r'class="code__modules" d="([^"]+)"', drawn)
    assert told
    dark: set[tuple[int, int]] = set()
    x = y = 0.0
    for sign, first, second in re.findall(r"([Mmh])(-?[\d.]+)(?:[ ]?(-?[\d.]+))?", told[1]):
        if sign == "M":
            x, y = float(first), float(second)
        elif sign == "m":
            x, y = x + float(first), y + float(second)
        else:
            dark |= {(column, int(y)) for column in range(int(x), int(x + float(first)))}
            x += float(first)
    assert min(x for x, _ in dark) == min(y for _, y in dark) == QUIET
    end = max(y for _, y in dark) + 1
    return tuple("".join("1" if (x, y) in dark else "0" for x in range(QUIET, end)) for y in range(QUIET, end))
