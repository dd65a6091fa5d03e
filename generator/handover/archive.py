"""Zip archives whose entries, order, dates and rights do not depend on when or where they are made."""

from __future__ import annotations

import io
from collections.abc import Iterable
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The first date the format knows (APPNOTE 6.3.10, section 4.4.6)."""

LEVEL = 6
PACKED = (".woff2", ".jpg", ".jpeg", ".png", ".webp", ".avif", ".zip")
"""What is compressed already is stored as it is."""


def archive_of(entries: Iterable[tuple[str, str | bytes]], mark: str = "", stored: frozenset[str] = frozenset()) -> bytes:
    """The entries in the order given; mark: the comment at the archive's end; stored: names not to be compressed.

    The same entries give the same contents; the compressed bytes are the same wherever zlib is.
    """
    buffer = io.BytesIO()
    with ZipFile(buffer, "w") as archive:
        for name, data in entries:
            entry = ZipInfo(name, EARLIEST)
            entry.create_system = 3
            entry.external_attr = 0o100644 << 16
            entry.compress_type = ZIP_STORED if name in stored or name.endswith(PACKED) else ZIP_DEFLATED
            archive.writestr(entry, data, compresslevel=LEVEL)
        archive.comment = mark.encode("utf-8")
    return buffer.getvalue()
