"""A piece at another place. mm."""

from __future__ import annotations

from dataclasses import replace

from generator.anatomy.parts import Box, Point
from generator.figures.tray.shapes import Piece


def moved(piece: Piece, right: float, down: float) -> Piece:
    def at(point: Point) -> Point:
        return point[0] + right, point[1] + down

    def box(inner: Box) -> Box:
        return replace(inner, x=inner.x + right, y=inner.y + down)

    return replace(
        piece,
        box=box(piece.box),
        outlines=tuple(
            replace(
                outline,
                box=box(outline.box),
                points=tuple(map(at, outline.points)),
                holes=tuple(map(box, outline.holes)),
                features=tuple(
                    replace(feature, centre=at(feature.centre), box=box(feature.box) if feature.box else None)
                    for feature in outline.features
                ),
            )
            for outline in piece.outlines
        ),
        rings=tuple(replace(ring, at=at(ring.at), label_at=at(ring.label_at)) for ring in piece.rings),
        screws=tuple(
            replace(
                screw,
                side_at=at(screw.side_at),
                face_at=at(screw.face_at),
                small_at=at(screw.small_at) if screw.small_at else None,
            )
            for screw in piece.screws
        ),
        samples=tuple(replace(sample, at=at(sample.at)) for sample in piece.samples),
        lines=tuple(replace(line, at=at(line.at)) for line in piece.lines),
    )
