"""The tray sheet as SVG text: one unit is one millimetre, on the screen and on paper."""

from __future__ import annotations

from collections.abc import Iterable

from generator.anatomy.parts import Box, Feature, Point
from generator.figures.code.drawing import modules_drawn
from generator.figures.svg import NAMESPACE, element, escaped, number, path_data, text
from generator.figures.tray.lettering import NUMBER
from generator.figures.tray.shapes import (
    Cell,
    DrawnScrew,
    Field,
    Leads,
    Line,
    Outline,
    Piece,
    Ring,
    Rule,
    Sample,
    TraySheet,
)

_SAMPLE = 1.5  # radius of a ring beside words
_TICKS = ((10, 4.0), (5, 2.8), (1, 1.6))  # every so many mm, so long
_FEATURE_RINGS = {"coil": (1.0, 0.86, 0.72), "lens": (1.0, 0.5)}


def tray_figure(sheet: TraySheet, ident: str) -> str:
    """One sheet, as large as its paper, margins included, so that it prints at 1:1 on a page without margins.

    ident: prefix of every id in it, unique on its page and made with `svg.ident`.
    """
    paper = sheet.paper
    width, height = number(paper.width), number(paper.height)
    return element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "class": f"tray tray--{paper.id}",
            "viewBox": f"0 0 {width} {height}",
            "width": f"{width}mm",
            "height": f"{height}mm",
            "role": "img",
            "aria-labelledby": f"{ident}-title {ident}-desc",
        },
        element("title", {"id": f"{ident}-title"}, escaped(sheet.title)),
        element("desc", {"id": f"{ident}-desc"}, escaped(sheet.desc)),
        element("rect", {"class": "tray__paper", "width": paper.width, "height": paper.height}),
        *map(_line, sheet.heading),
        *map(_field, sheet.fields),
        *map(_cell, sheet.cells),
        _box(sheet.frame, "tray__frame"),
        *map(_rule, sheet.rules),
        *map(_sample, sheet.samples),
        *map(_line, sheet.foot),
        _code(sheet.leads),
    )


def _code(leads: Leads) -> str:
    if leads.code is None:
        return ""
    x, y, module = (number(value) for value in (*leads.at, leads.code.module))
    scaled = f"translate({x} {y})scale({module})"
    return element("g", {"class": "tray__code", "transform": scaled}, modules_drawn(leads.code))


def _cell(cell: Cell) -> str:
    box = cell.box
    return element(
        "g",
        {"class": "tray__step"},
        _box(box, "tray__cell"),
        text(str(cell.number), {"class": "tray__number", "x": box.x + 2.5, "y": box.y + 1.2 + NUMBER * 0.92}),
        *map(_line, cell.header),
        *map(_piece, cell.pieces),
    )


def _piece(piece: Piece) -> str:
    return "".join(
        (
            *map(_outline, piece.outlines),
            *map(_ring, piece.rings),
            *map(_screw, piece.screws),
            *map(_sample, piece.samples),
            *map(_line, piece.lines),
        )
    )


def _outline(outline: Outline) -> str:
    edge = path_data(outline.points) if outline.points else _rounded(outline.box, outline.corner)
    holes = "".join(_rounded(hole, 0.0) for hole in outline.holes)
    features = "".join(_feature(feature) for feature in outline.features)
    return element("path", {"class": "tray__part", "d": edge + holes, "fill-rule": "evenodd" if holes else None}) + (
        element("path", {"class": "tray__feature", "d": features}) if features else ""
    )


def _feature(feature: Feature) -> str:
    if feature.box is not None:
        return _rounded(feature.box, 0.0)
    shares = _FEATURE_RINGS.get(feature.kind, (1.0,))
    return "".join(_circle(feature.centre, feature.across * share / 2) for share in shares)


def _ring(ring: Ring) -> str:
    at = {"cx": ring.at[0], "cy": ring.at[1]}
    inside = ring.is_numbered_inside
    return "".join(
        (
            element("circle", {"class": f"tray__ring tray__ring--{ring.kind}", **at, "r": ring.radius}),
            "" if inside or not ring.head else element("circle", {"class": "tray__head", **at, "r": ring.head / 2}),
            text(ring.label, {"class": "tray__label", "x": ring.label_at[0], "y": ring.label_at[1] + 0.9}),
        )
    )


def _screw(screw: DrawnScrew) -> str:
    drawn = screw.silhouette
    guessed = " tray__screw--guessed" if drawn.is_guessed else ""
    pieces = [_scaled(drawn.outline, screw.side_at, screw.scale, f"tray__screw{guessed}")]
    pieces.append(_head_from_above(screw))
    if screw.small_at is not None:
        pieces.append(_scaled(drawn.plain, screw.small_at, 1, f"tray__screw{guessed}"))
    return "".join(pieces)


def _head_from_above(screw: DrawnScrew) -> str:
    drawn, at, scale = screw.silhouette, screw.face_at, screw.scale
    round_head = element("circle", {"class": "tray__top", "cx": at[0], "cy": at[1], "r": drawn.head.across / 2 * scale})
    pieces = [_scaled(drawn.top, at, scale, "tray__top") if drawn.top else round_head]
    face = drawn.drive
    if face is not None and face.shape != "hexagon":  # a hexagon is driven by the edge of its head
        cut = "".join(_path(polygon, at, scale) for polygon in face.outlines)
        pieces.append(element("path", {"class": "tray__drive", "d": cut}))
        posts = "".join(_path(polygon, at, scale) for polygon in face.posts)
        lines = "".join(_path(polygon, at, scale, closed=False) for polygon in face.lines)
        pieces += [element("path", {"class": f"tray__{name}", "d": d}) for name, d in (("post", posts), ("rib", lines)) if d]
    return "".join(pieces)


def _scaled(points: Iterable[Point], at: Point, scale: float, name: str) -> str:
    return element("path", {"class": name, "d": _path(points, at, scale)})


def _path(points: Iterable[Point], at: Point, scale: float, closed: bool = True) -> str:
    return path_data([(at[0] + x * scale, at[1] + y * scale) for x, y in points], closed)


def _sample(sample: Sample) -> str:
    return element(
        "circle",
        {"class": f"tray__ring tray__ring--{sample.kind}", "cx": sample.at[0], "cy": sample.at[1], "r": _SAMPLE},
    )


def _field(field: Field) -> str:
    box = field.box
    return "".join(
        (
            _box(box, "tray__field"),
            text(field.label, {"class": "tray__key", "x": box.x + 1.5, "y": box.y + 3.0}),
            text(field.words, {"class": "tray__value", "x": box.x + 1.5, "y": box.y + 6.4}),
        )
    )


def _line(line: Line) -> str:
    return text(line.words, {"class": f"tray__{line.kind}", "x": line.at[0], "y": line.at[1]})


def _rule(rule: Rule) -> str:
    (x, y), ticks, numbers = rule.start, [], []
    for mm in range(rule.length + 1):
        long = next(length for every, length in _TICKS if mm % every == 0)
        at = (x, y - mm) if rule.is_upright else (x + mm, y)
        ticks.append(f"M{number(at[0])} {number(at[1])}{'h' if rule.is_upright else 'v-'}{number(long)}")
        if mm % 10 == 0:
            beside = (at[0] + 4.2, at[1] + 0.9) if rule.is_upright else (at[0], at[1] + 3.0)
            place = "upright" if rule.is_upright else "mark"
            numbers.append(text(str(mm), {"class": f"tray__{place}", "x": beside[0], "y": beside[1]}))
    edge = f"M{number(x)} {number(y)}{'v-' if rule.is_upright else 'h'}{rule.length}"
    return element("path", {"class": "tray__rule", "d": edge + "".join(ticks)}) + "".join(numbers)


def _box(box: Box, name: str) -> str:
    return element("rect", {"class": name, "x": box.x, "y": box.y, "width": box.width, "height": box.height})


def _rounded(box: Box, corner: float) -> str:
    if not corner:
        return f"M{number(box.x)} {number(box.y)}H{number(box.right)}V{number(box.bottom)}H{number(box.x)}Z"
    r = number(corner)
    arc = f"A{r} {r} 0 0 1 "
    left, top, right, bottom = (number(v) for v in (box.x, box.y, box.right, box.bottom))
    inner = [number(v) for v in (box.x + corner, box.right - corner, box.y + corner, box.bottom - corner)]
    return (
        f"M{inner[0]} {top}H{inner[1]}{arc}{right} {inner[2]}V{inner[3]}{arc}{inner[1]} {bottom}"
        f"H{inner[0]}{arc}{left} {inner[3]}V{inner[2]}{arc}{inner[0]} {top}Z"
    )


def _circle(at: Point, radius: float) -> str:
    r, across = number(radius), number(2 * radius)
    return f"M{number(at[0] - radius)} {number(at[1])}a{r} {r} 0 1 0 {across} 0a{r} {r} 0 1 0-{across} 0"
