"""Isometric projection: three axes at one scale, two of them 30 degrees from the horizontal.

Source: ISO 5456-3:1996, 5.1 (the angle as read in teaching pages, the clause from memory). As the standard has it done in
practice, lengths along the axes are drawn in full; the picture is then TRUE_SCALE times larger than the projection proper.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray
    from shapely.geometry.base import BaseGeometry

Point = tuple[float, float]

COS_30 = math.cos(math.radians(30))
TRUE_SCALE = math.sqrt(1.5)
"""What an isometric drawing is enlarged by, against the true projection that foreshortens by sqrt(2/3)."""

ARC = (math.sqrt(1.5), math.sqrt(0.5))
"""Half axes, across and down, of the ellipse that a circle of radius 1 on a top face becomes; it stands upright."""


def projected(x: float, y: float, depth: float) -> Point:
    """Where a point of the device is on the sheet, mm: u to the right, v down; x right, y down, depth inward.

    >>> projected(0.0, 0.0, 5.0)
    (0.0, 5.0)
    """
    return (x - y) * COS_30, (x + y) / 2 + depth


def projected_shape(shape: BaseGeometry, depth: float) -> BaseGeometry:
    """A shape seen from above (x, y), put at a depth and projected."""
    import shapely

    across, down, origin = (COS_30, 0.0), (0.0, 0.5), (0.0, depth)

    def project(at: NDArray[float64]) -> NDArray[float64]:
        # Number by number: a matrix product may round otherwise on another machine.
        x, y = at[:, :1], at[:, 1:]
        return (x - y) * across + (x + y) * down + origin

    return shapely.transform(shape, project)


def lowered(shape: BaseGeometry, by: float) -> BaseGeometry:
    """A projected shape moved along the third axis, mm."""
    import shapely

    way = (0.0, by)
    return shapely.transform(shape, lambda at: at + way)
