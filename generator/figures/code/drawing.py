"""A code as SVG text: its dark modules as one path of strokes, a stroke a run of modules."""

from __future__ import annotations

import re

from generator.figures.code.geometry import QUIET, Code
from generator.figures.svg import NAMESPACE, element, escaped, number

_DARK = re.compile("1+")


def code_figure(code: Code, label: str) -> str:
    """As large as it is to stand on paper, quiet zone included; label: what it leads to, for those who do not see it."""
    across = f"{number(code.across)}mm"
    size = number(len(code.rows) + 2 * QUIET)
    return element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "class": "code",
            "viewBox": f"0 0 {size} {size}",
            "width": across,
            "height": across,
            "role": "img",
        },
        element("title", {}, escaped(label)),
        element("path", {"class": "code__field", "d": f"M0 0H{size}V{size}H0z"}),
        modules_drawn(code),
    )


def modules_drawn(code: Code) -> str:
    """The dark modules, one unit a module, the quiet zone's corner at (0, 0)."""
    return element("path", {"class": "code__modules", "d": strokes(code.rows)})


def strokes(rows: tuple[str, ...]) -> str:
    """Runs of dark modules as strokes through their middles, each row told from the end of what was drawn before.

    >>> strokes(("110", "001"))
    'M4 4.5h2m0 1h1'
    """
    d = [f"M{QUIET} {QUIET + 0.5}"]
    at_x = at_y = 0
    for y, row in enumerate(rows):
        for run in _DARK.finditer(row):
            x, end = run.span()
            if (x, y) != (at_x, at_y):
                d.append(f"m{x - at_x} {y - at_y}")
            d.append(f"h{end - x}")
            at_x, at_y = end, y
    return "".join(d)
