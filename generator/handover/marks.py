"""How a pack is known again: a mark in its first or last bytes, and the kind of file it is."""

from __future__ import annotations

_REACH = 400  # bytes from either end in which the mark stands

ENDINGS = {"folder": ".zip", "page": ".html", "epub": ".epub", "pdf": ".pdf"}


def mark_of(device: str) -> str:
    return f"Partway pack of {device}"


def is_pack_of(device: str, data: bytes) -> bool:
    """Whether these bytes are a pack of the device that was made earlier."""
    mark = mark_of(device).encode("utf-8")
    ends = (data[:_REACH], data[-_REACH:])
    return any(mark in end and not end.split(mark)[1][:1].isalnum() and end.split(mark)[1][:1] != b"-" for end in ends)


def is_kind(kind: str, data: bytes) -> bool:
    """Whether these bytes begin as a file of that kind does."""
    match kind:
        case "epub":
            return data.startswith(b"PK\x03\x04") and b"application/epub+zip" in data[:80]
        case "folder":
            return data.startswith(b"PK") and b"application/epub+zip" not in data[:80]
        case "pdf":
            return data.startswith(b"%PDF-")
        case _:
            return data[:200].lstrip().lower().startswith(b"<!doctype html")
