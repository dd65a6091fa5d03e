"""Bytes of a caption file as text: by their mark, else UTF-8, else as UTF-16 without a mark or the old Western encoding."""

from __future__ import annotations

import codecs
from dataclasses import dataclass

LARGEST_FILE = 8 << 20
"""Bytes: captions with a time for every word take about 0.5 MB an hour."""

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig", "UTF-8"),
    (codecs.BOM_UTF32_LE, "utf-32", "UTF-32"),
    (codecs.BOM_UTF32_BE, "utf-32", "UTF-32"),
    (codecs.BOM_UTF16_LE, "utf-16", "UTF-16"),
    (codecs.BOM_UTF16_BE, "utf-16", "UTF-16"),
)
_SAMPLE = 4096


@dataclass(frozen=True, slots=True)
class Decoded:
    """encoding: the name to tell the author; is_damaged: signs were replaced because they are none in that encoding."""

    text: str
    encoding: str
    is_damaged: bool = False


def decode(data: bytes) -> Decoded:
    """The text in `data`, whatever it was saved as; never raises.

    >>> decode("Rückwand".encode("cp1252")).text
    'Rückwand'
    """
    for mark, codec, name in _MARKS:
        if data.startswith(mark):
            return _forced(data, codec, name)
    sample = data[:_SAMPLE]
    zeros = [sample[offset::2].count(0) for offset in (0, 1)]
    half = max(len(sample) // 2, 1)
    if max(zeros) > half * 0.4 and min(zeros) < half * 0.1:  # every second byte of Western text in UTF-16 is zero
        return _forced(data, "utf-16-be" if zeros[0] > zeros[1] else "utf-16-le", "UTF-16")
    try:
        return Decoded(data.decode("utf-8"), "UTF-8")
    except UnicodeDecodeError:
        pass
    try:
        return Decoded(data.decode("cp1252"), "Windows-1252")
    except UnicodeDecodeError:
        return Decoded(data.decode("latin-1"), "Latin-1")


def _forced(data: bytes, codec: str, name: str) -> Decoded:
    try:
        return Decoded(data.decode(codec), name)
    except UnicodeDecodeError:
        return Decoded(data.decode(codec, errors="replace"), name, is_damaged=True)
