"""Tools and supplies as small SVGs, decoration beside the words that name them."""

from __future__ import annotations

import math

from generator.anatomy.joints import Drive
from generator.figures.fasteners.drives import DriveFace, drive_face
from generator.figures.svg import NAMESPACE, element, number, path_data
from generator.figures.tools.kinds import drive_of, supply_kind, tool_kind
from generator.figures.tools.lines import DRIVER_TIPS, HEIGHT, KEY_LENS, SUPPLIES, TIP_LENS, TOOLS, WIDTH
from generator.orders.work import Supply, Tool

_ENDS = {"cross-recess": "point", "slotted": "blade", "three-lobe": "point", "tri-wing": "point", "tri-point": "point"}
"""How the end of a driver narrows, by its drive; all others are straight."""

_LEAST, _MOST = 10.0, 24.0  # units across; the smallest and the largest tip in its circle
_SMALLEST = 0.95  # mm across a tip drawn at about _LEAST
_DOUBLED = 4.5  # units more for a tip twice as wide: sizes stay apart, none is lost


def tool_drawing(tool: Tool) -> str:
    """A tool on the bench, 72 by 84 units, standing on y = 80; a driver or key with its tip enlarged in a circle.

    Hidden from readers aloud: the words beside it carry the meaning.
    """
    kind = tool_kind(tool)
    drive = drive_of(tool)
    if kind == "driver":
        end = DRIVER_TIPS[_ENDS.get(drive.shape, "straight") if drive else "straight"]
        return _drawing(kind, TOOLS[kind] + end, _lens(drive, TIP_LENS) if drive else "")
    if kind == "key":
        return _drawing(kind, TOOLS[kind], _lens(drive or Drive("hexagon-socket", None), KEY_LENS))
    return _drawing(kind, TOOLS[kind])


def supply_drawing(supply: Supply) -> str:
    """A supply on the bench, 72 by 84 units, standing on y = 80; hidden from readers aloud."""
    kind = supply_kind(supply)
    return _drawing(kind, SUPPLIES[kind])


def tip_width(across: float) -> float:
    """How wide, in units, a tip of that width in mm is drawn: larger for larger, so that sizes can be told apart.

    >>> tip_width(0.95), tip_width(1.9), tip_width(100)
    (10.0, 14.5, 24.0)
    """
    return min(_MOST, max(_LEAST, _LEAST + _DOUBLED * math.log2(max(across, 0.01) / _SMALLEST)))


def _drawing(kind: str, lines: str, inner: str = "") -> str:
    return element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "class": f"tool-drawing tool-drawing--{kind}",
            "viewBox": f"0 0 {WIDTH} {HEIGHT}",
            "width": WIDTH,
            "height": HEIGHT,
            "aria-hidden": "true",
        },
        element("path", {"class": "tool-drawing__line", "d": lines}),
        inner,
    )


def _lens(drive: Drive, lens: tuple[tuple[float, float], float, tuple[float, float]]) -> str:
    """The tip, seen from its end, in a circle with a line to where it is on the tool; nothing for a shape not known."""
    face = drive_face(drive.shape, drive.size)
    if face is None:
        return ""
    (x, y), radius, start = lens
    reach = math.dist((x, y), start)
    edge = (x + (start[0] - x) * radius / reach, y + (start[1] - y) * radius / reach)
    return "".join(
        (
            element("path", {"class": "tool-drawing__line", "d": path_data([start, edge], closed=False)}),
            element("circle", {"class": "tool-drawing__lens", "cx": x, "cy": y, "r": radius}),
            element("g", {"transform": f"translate({number(x)} {number(y)})"}, *_tip(face)),
        )
    )


def _tip(face: DriveFace) -> tuple[str, ...]:
    k = tip_width(face.across) / face.across
    found = []
    for name, polygons in (("tip", face.outlines), ("hole", face.posts), ("line", face.lines)):
        d = "".join(path_data([(k * x, k * y) for x, y in polygon], name != "line") for polygon in polygons)
        if d:
            found.append(element("path", {"class": f"tool-drawing__{name}", "d": d}))
    return tuple(found)
