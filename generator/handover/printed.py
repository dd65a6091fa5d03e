"""A PDF that does not say when or how it was made: its dates are those that the pack bears, its ids count from one."""

from __future__ import annotations

import re

from generator.handover.marks import mark_of

_DATE = re.compile(rb"D:\d{14}(?:Z|[+-]\d\d'\d\d'?)?")
_EXTENDED_DATE = re.compile(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:Z|[+-]\d\d:\d\d)")
_NODE = re.compile(rb"\(node(\d{8})\)")


def steady(pdf: bytes, device: str, modified: str) -> bytes:
    """The same document with its dates set to `modified` (1980-01-01T00:00:00Z) and marked so that it is known again.

    Chromium names the cells of a tagged table by the numbers that its elements happened to get, and those depend on what
    else it was doing: they are counted anew, in their order, since the tree that finds them is sorted. Dates and names keep
    their lengths, so the places of objects in the file stay true. The mark is a comment behind the end.
    """
    digits = re.sub(r"\D", "", modified).encode("ascii")

    def short(found: re.Match[bytes]) -> bytes:
        zone = found[0][16:]
        return b"D:" + digits + (b"+00'00'"[: len(zone)] if len(zone) > 1 else zone)

    def long(found: re.Match[bytes]) -> bytes:
        written = modified.encode("ascii")
        return written if found[0].endswith(b"Z") else written[:-1] + b"+00:00"

    ranks = {name: rank for rank, name in enumerate(sorted(set(_NODE.findall(pdf))), 1)}
    counted = _NODE.sub(lambda found: b"(node%08d)" % ranks[found[1]], pdf)
    dated = _EXTENDED_DATE.sub(long, _DATE.sub(short, counted))
    return dated.rstrip(b"\n") + b"\n%" + mark_of(device).encode("utf-8") + b"\n"
