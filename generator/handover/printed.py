"""A PDF that does not say when it was made: its dates are those that the pack bears."""

from __future__ import annotations

import re

from generator.handover.marks import mark_of

_DATE = re.compile(rb"D:\d{14}(?:Z|[+-]\d\d'\d\d'?)?")
_EXTENDED_DATE = re.compile(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:Z|[+-]\d\d:\d\d)")


def steady(pdf: bytes, device: str, modified: str) -> bytes:
    """The same document with its dates set to `modified` (1980-01-01T00:00:00Z) and marked so that it is known again.

    Every date keeps its length, so the places of objects in the file stay true. The mark is a comment behind the end.
    """
    digits = re.sub(r"\D", "", modified).encode("ascii")

    def short(found: re.Match[bytes]) -> bytes:
        zone = found[0][16:]
        return b"D:" + digits + (b"+00'00'"[: len(zone)] if len(zone) > 1 else zone)

    def long(found: re.Match[bytes]) -> bytes:
        written = modified.encode("ascii")
        return written if found[0].endswith(b"Z") else written[:-1] + b"+00:00"

    dated = _EXTENDED_DATE.sub(long, _DATE.sub(short, pdf))
    return dated.rstrip(b"\n") + b"\n%" + mark_of(device).encode("utf-8") + b"\n"
