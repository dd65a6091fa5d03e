"""Colour profiles made from published primaries, for photos that name a colour space without carrying its profile."""

from __future__ import annotations

import struct

ADOBE_RGB = ((0.60974, 0.31111, 0.01947), (0.20528, 0.62567, 0.06087), (0.14919, 0.06322, 0.74457))
"""Red, green and blue as X, Y, Z under D50 (Adobe RGB (1998) colour image encoding, version 2005-05, annex B)."""

ADOBE_GAMMA = 563 / 256
"""2.19921875, the exponent of the same encoding."""

_WHITE = (0.9642, 1.0, 0.8249)  # D50, the white of the connection space (ICC.1:2001-04, 6.2.2)


def matrix_profile(primaries: tuple[tuple[float, float, float], ...], gamma: float) -> bytes:
    """A display profile of three primaries and one exponent, written as ICC.1:2001-04 says (version 2.4).

    primaries: X, Y, Z of red, green and blue under D50. gamma is kept to 1/256.
    """
    text = b"primaries"
    description = b"desc" + bytes(4) + struct.pack(">I", len(text) + 1) + text + b"\0" + bytes(4 + 4 + 2 + 1 + 67)
    curve = b"curv" + bytes(4) + struct.pack(">IH", 1, round(gamma * 256))
    tags = [(b"desc", description), (b"cprt", b"text" + bytes(4) + b"none\0"), (b"wtpt", _xyz(_WHITE))]
    tags += [(name, _xyz(values)) for name, values in zip((b"rXYZ", b"gXYZ", b"bXYZ"), primaries, strict=True)]
    tags += [(name, curve) for name in (b"rTRC", b"gTRC", b"bTRC")]
    offset = 128 + 4 + 12 * len(tags)
    table, data = struct.pack(">I", len(tags)), b""
    for name, value in tags:
        table += name + struct.pack(">II", offset + len(data), len(value))
        data += value + bytes(-len(value) % 4)
    body = table + data
    head = struct.pack(">I4sI4s4s4s", 128 + len(body), bytes(4), 0x02400000, b"mntr", b"RGB ", b"XYZ ")
    head += struct.pack(">6H4s", 2000, 1, 1, 0, 0, 0, b"acsp") + bytes(28)  # a date is asked for; platform to intent: none
    head += b"".join(struct.pack(">i", round(value * 65536)) for value in _WHITE)
    return head.ljust(128, b"\0") + body


def _xyz(values: tuple[float, ...]) -> bytes:
    return b"XYZ " + bytes(4) + b"".join(struct.pack(">i", round(value * 65536)) for value in values)
