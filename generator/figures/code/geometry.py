"""An address as a QR code (ISO/IEC 18004): which modules are dark, and how large it stands on paper."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import ceil

QUIET = 4
"""Modules on every side that stay white (ISO/IEC 18004, 9.1)."""

LEAST = 20.0
"""mm of a side without its quiet zone, so that a phone held over the bench finds it."""

LEAST_MODULE = 0.5
"""mm of a module: what an office printer draws and a camera tells apart through a little dirt."""

LARGEST_VERSION = 13
"""Longer addresses (more than 331 bytes) would need modules that small, or a code that large, that it is left out."""

_MASK = 3


@dataclass(frozen=True, slots=True)
class Code:
    """rows: one text of `1` for dark and `0` for light a line of modules; module: mm of one on paper."""

    address: str
    rows: tuple[str, ...]
    module: float

    @property
    def side(self) -> float:
        """mm without the quiet zone."""
        return len(self.rows) * self.module

    @property
    def across(self) -> float:
        """mm with the quiet zone."""
        return (len(self.rows) + 2 * QUIET) * self.module


@lru_cache(maxsize=4096)
def code_of(address: str) -> Code | None:
    """The code of an address in ASCII; None for one too long to be read from paper.

    Level M: a seventh of it may be lost to dirt. Every mask can be read; weighing all eight would take five times as long.

    >>> code = code_of("https://example.org/")
    >>> len(code.rows), code.side
    (25, 20.0)
    """
    # Loaded only where a library has an address.
    import segno

    try:
        made = segno.make_qr(address, error="m", mode="byte", mask=_MASK, boost_error=False)
    except (segno.DataOverflowError, UnicodeError):
        return None
    if int(made.version) > LARGEST_VERSION:
        return None
    rows = tuple("".join("1" if module else "0" for module in row) for row in made.matrix)
    # Drawn with two decimals, so it is rounded up to them.
    return Code(address, rows, max(ceil(100 * LEAST / len(rows)) / 100, LEAST_MODULE))
