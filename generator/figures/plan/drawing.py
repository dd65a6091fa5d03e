"""The plan as SVG text: shapes in, elements out. Everything is placed before; only the pane's scale is applied here."""

from __future__ import annotations

from collections.abc import Iterable

from generator.anatomy.joints import JointKind
from generator.anatomy.parts import Box, Feature, Point
from generator.figures.glyphs import (
    ACTIONS,
    ScrewSign,
    action_glyph,
    joint_glyph,
    marked_glyph,
    screw_glyph,
    screw_head,
    small_arrow,
    wedge,
)
from generator.figures.plan.shapes import (
    Arrow,
    Detail,
    Elevation,
    Entry,
    Fold,
    Length,
    Motion,
    Pane,
    PlacedMark,
    Plan,
    Row,
    Shape,
    State,
)
from generator.figures.svg import Attribute, element, escaped, figure, number, path_data, text
from generator.languages import in_digits, say

_HATCHED = (State.HAND, State.WORKED, State.HIDDEN)
_ARROW = "M0-3.4H19v-6L33 0 19 9.4V3.4H0Z"
_FEATURE_RINGS = {"coil": (1.0, 0.86, 0.72), "lens": (1.0, 0.5)}


def plan_figure(plan: Plan, ident: str) -> str:
    """A block of one SVG, or two where there is a detail, so that the detail may stand beside or below.

    ident: prefix of every id in it, unique on its page and made with `svg.ident`.
    """
    drawn = _sheet(plan, ident)
    if plan.detail is not None:
        drawn += _detail(plan.detail, f"{ident}-a")
    return element("div", {"class": "plan"}, drawn)


def _sheet(plan: Plan, ident: str) -> str:
    content = []
    if plan.device is not None:
        away = " plan__device--away" if plan.is_on_bench else ""
        outline = _outline(plan.device, plan.pane)
        hand = (*plan.shapes, *plan.over, *(plan.elevation.shapes if plan.elevation else ()))
        content = [
            _hatch(ident, hand),
            _drawn(outline, "plan__ground") if plan.device.part is None and not plan.is_on_bench else "",
            *(_part(shape, plan.pane, ident) for shape in plan.shapes),
            _dots(plan.pane.point(at) for at in plan.dots),
            _drawn(outline, f"plan__device{away}"),
            element("path", {"class": "plan__tick", "d": _lines(plan.ticks)}),
            *(_part(shape, plan.pane, ident) for shape in plan.over),
            *(_run(run, plan.pane) for run in plan.runs),
            _elevation(plan.elevation, ident) if plan.elevation else "",
            _circle(plan.detail) if plan.detail else "",
            _motion(plan.motion),
            *_marks(plan.marks, ident),
            *_beside(plan.lengths, plan.entries),
            *(text(said.words, _at(f"plan__{said.kind}", said.at)) for said in plan.captions),
            _scale_bar(*plan.scale_bar) if plan.scale_bar else "",
        ]
    return figure(
        "plan__sheet",
        ident=ident,
        size=(plan.width, plan.height),
        title=plan.title,
        desc=plan.desc,
        content=(*content, *(_row(row) for row in plan.rows)),
    )


def _detail(detail: Detail, ident: str) -> str:
    circle: dict[str, Attribute] = {"r": detail.drawn}
    return figure(
        "plan__detail",
        ident=ident,
        size=(detail.width, detail.height),
        corner=detail.corner,
        title=detail.title,
        desc=detail.desc,
        content=(
            _hatch(ident, detail.shapes),
            element("clipPath", {"id": f"{ident}-clip"}, element("circle", circle)),
            element("circle", {"class": "plan__lens", **circle}),
            element(
                "g",
                {"clip-path": f"url(#{ident}-clip)"},
                _drawn(_outline(detail.ground, detail.pane), "plan__ground") if detail.ground else "",
                *(_part(shape, detail.pane, ident) for shape in detail.shapes),
                *(_run(run, detail.pane) for run in detail.runs),
                _dots(detail.pane.point(at) for at in detail.dots),
            ),
            element("circle", {"class": "plan__rim", **circle}),
            *_marks(detail.marks, ident),
            *_beside(detail.lengths, detail.entries),
            element(
                "text",
                _at("plan__caption", detail.caption_at),
                element("tspan", {"class": "plan__letter"}, "A"),
                f" {escaped(say('enlarged {times}×', times=in_digits(detail.enlarged)))}",
            ),
        ),
    )


def _part(shape: Shape, pane: Pane, ident: str) -> str:
    outline = _outline(shape, pane)
    pieces = [_drawn(outline, f"plan__part plan__part--{shape.state}")]
    if shape.state in _HATCHED:
        pieces.append(_drawn(outline, "plan__hatch", f"url(#{ident}-hatch)"))
    lines = "".join(_feature(feature, pane) for feature in shape.features)
    if lines:
        pieces.append(element("path", {"class": "plan__feature", "d": lines}))
    return "".join(pieces)


def _outline(shape: Shape, pane: Pane) -> tuple[str, dict[str, Attribute]]:
    """The element a shape is drawn as, without its class: a rectangle if it can be one, else a path."""
    box = shape.box
    (left, top), (right, bottom) = pane.point((box.x, box.y)), pane.point((box.right, box.bottom))
    if not shape.points and not shape.holes:
        corner = shape.corner * pane.across if shape.corner else None
        return "rect", {"x": left, "y": top, "width": right - left, "height": bottom - top, "rx": corner}
    edge = path_data([pane.point(point) for point in shape.points]) if shape.points else _box_path(box, pane, shape.corner)
    return "path", {"d": edge + "".join(_box_path(hole, pane) for hole in shape.holes), "fill-rule": "evenodd"}


def _drawn(outline: tuple[str, dict[str, Attribute]], name: str, fill: str | None = None) -> str:
    return element(outline[0], {"class": name, **outline[1], "fill": fill})


def _box_path(box: Box, pane: Pane, corner: float = 0.0) -> str:
    (left, top), (right, bottom) = pane.point((box.x, box.y)), pane.point((box.right, box.bottom))
    if not corner:
        return f"M{number(left)} {number(top)}H{number(right)}V{number(bottom)}H{number(left)}Z"
    r = corner * pane.across
    arc = f"a{number(r)} {number(r)} 0 0 1 "
    return (
        f"M{number(left + r)} {number(top)}H{number(right - r)}{arc}{number(r)} {number(r)}V{number(bottom - r)}"
        f"{arc}{number(-r)} {number(r)}H{number(left + r)}{arc}{number(-r)} {number(-r)}V{number(top + r)}"
        f"{arc}{number(r)} {number(-r)}Z"
    )


def _feature(feature: Feature, pane: Pane) -> str:
    if feature.box is not None:
        return _box_path(feature.box, pane)
    return "".join(
        _ring(pane.point(feature.centre), feature.across * pane.across * share / 2)
        for share in _FEATURE_RINGS.get(feature.kind, (1.0,))
    )


def _ring(at: Point, radius: float) -> str:
    r, across = number(radius), number(2 * radius)
    return f"M{number(at[0] - radius)} {number(at[1])}a{r} {r} 0 1 0 {across} 0a{r} {r} 0 1 0-{across} 0"


def _run(run: Iterable[Point], pane: Pane) -> str:
    return element("path", {"class": "plan__run", "d": path_data([pane.point(point) for point in run], closed=False)})


def _elevation(elevation: Elevation, ident: str) -> str:
    pane = elevation.pane
    device = Shape(None, State.BASE, elevation.device)
    return element(
        "g",
        {"class": "plan__side"},
        _drawn(_outline(device, pane), "plan__ground"),
        *(_part(shape, pane, ident) for shape in elevation.shapes),
        _drawn(_outline(device, pane), "plan__device"),
        *(_arrow(arrow) for arrow in elevation.arrows),
    )


def _arrow(arrow: Arrow) -> str:
    x, y = arrow.tail
    turned = f"translate({number(x)} {number(y)}) rotate({arrow.degrees})"
    return element("path", {"class": "plan__arrow", "transform": turned, "d": _ARROW})


def _motion(motion: Motion) -> str:
    drawn = [_fold(fold) for fold in motion.folds]
    if motion.turn is not None:
        x, y = motion.turn
        drawn.append(
            element(
                "g",
                {"class": "plan__turn", "transform": f"translate({number(x)} {number(y)})"},
                element("path", {"class": "plan__sweep", "d": "M-44-2C-44-28 44-28 44-9"}),
                element("path", {"class": "plan__head", "d": "M44 2l-8-13h16z"}),
            )
        )
    if motion.turned_to is not None:
        drawn.append(text(motion.turned_to.words, _at("plan__turned", motion.turned_to.at)))
    drawn += [_arrow(arrow) for arrow in motion.slides]
    drawn += [action_glyph("lift", x, y) for x, y in motion.lifts]
    return "".join(drawn)


def _fold(fold: Fold) -> str:
    start, first, second, end = (f"{number(x)} {number(y)}" for x, y in fold.sweep)
    return (
        element("path", {"class": "plan__hinge", "d": path_data(fold.hinge, closed=False)})
        + element("path", {"class": "plan__sweep", "d": f"M{start}C{first} {second} {end}"})
        + element(
            "path", {"class": "plan__head", "transform": f"translate({end}) rotate({fold.degrees})", "d": "M11 0l-13-8v16z"}
        )
    )


def _circle(detail: Detail) -> str:
    x, y = detail.circle
    return element("circle", {"class": "plan__rim", "cx": x, "cy": y, "r": detail.radius}) + text(
        "A", _at("plan__letter", detail.letter)
    )


def _marks(marks: Iterable[PlacedMark], ident: str) -> list[str]:
    """Leaders, dots at their ends, marks. Heads of screws that several marks share are drawn once."""
    marks = tuple(marks)
    led = [(mark.of, mark.at) for mark in marks if mark.of is not None]
    lines = [element("path", {"class": "plan__leader", "d": _lines(led)})] if led else []
    heads: dict[ScrewSign, str] = {}
    for mark in marks:
        if mark.kind is JointKind.SCREWS:
            heads.setdefault(mark.sign, f"{ident}-s{len(heads)}")
    defs = "".join(element("g", {"id": name}, screw_head(sign)) for sign, name in heads.items())
    drawn = [
        screw_glyph(
            element("use", {"href": f"#{heads[m.sign]}"}),
            m.sign,
            *m.at,
            m.label,
            grown=m.grown,
            is_left=m.is_left,
            is_hidden=m.is_hidden,
        )
        if m.kind is JointKind.SCREWS
        else marked_glyph(m.kind, *m.at, m.label, grown=m.grown, is_hidden=m.is_hidden)
        for m in marks
    ]
    return [element("defs", {}, defs) if defs else "", *lines, _dots(of for of, _ in led), *drawn]


def _beside(lengths: Iterable[Length], entries: Iterable[Entry]) -> list[str]:
    drawn = [text(length.words, _at("plan__length", length.at)) for length in lengths]
    for entry in entries:
        turned = f"rotate({entry.degrees})" + (f" scale({number(entry.grown)})" if entry.grown != 1 else "")
        placed = f"translate({number(entry.at[0])} {number(entry.at[1])}) {turned}"
        drawn.append(
            element(
                "g",
                {"class": f"glyph glyph--{entry.kind}", "transform": placed},
                wedge() if entry.kind == "pry" else small_arrow(),
            )
        )
    return drawn


def _dots(places: Iterable[Point]) -> str:
    """Points, drawn as the round ends of lines without length."""
    d = "".join(f"M{number(x)} {number(y)}h0" for x, y in places)
    return element("path", {"class": "plan__dots", "d": d}) if d else ""


def _scale_bar(start: Point, end: Point) -> str:
    x0, y, x1 = number(start[0]), number(start[1]), number(end[0])
    return element("path", {"class": "plan__bar", "d": f"M{x0} {y}H{x1}M{x0} {y}m0-4v8M{x1} {y}m0-4v8"})


def _row(row: Row) -> str:
    if row.kind is None:
        name = "plan__heading" if row.is_heading else "plan__words"
        return text(row.words, {"class": name, "x": 15, "y": row.y + 5})
    glyph = ""
    if row.kind in ACTIONS:
        glyph = action_glyph(row.kind, 34, row.y)
    elif row.kind:
        glyph = joint_glyph(JointKind(row.kind), 34, row.y, "", sign=row.sign)
    return glyph + text(row.words, {"class": "plan__words", "x": 62, "y": row.y + 5})


def _hatch(ident: str, shapes: Iterable[Shape]) -> str:
    """The hatch of the part in hand, if something is drawn with it; its id belongs to this figure alone."""
    if not any(shape.state in _HATCHED for shape in shapes):
        return ""
    return element(
        "pattern",
        {
            "id": f"{ident}-hatch",
            "width": 4.6,
            "height": 4.6,
            "patternUnits": "userSpaceOnUse",
            "patternTransform": "rotate(45)",
        },
        element("path", {"class": "plan__stroke", "d": "M0 0V4.6"}),
    )


def _lines(pairs: Iterable[tuple[Point, Point]]) -> str:
    return "".join(path_data(pair, closed=False) for pair in pairs)


def _at(name: str, at: Point) -> dict[str, Attribute]:
    return {"class": name, "x": at[0], "y": at[1]}
