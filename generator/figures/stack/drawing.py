"""The stack as SVG text: shapes in, elements out, from the deepest up. Everything is placed before."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from generator.anatomy.parts import PartId
from generator.figures.stack.projection import ARC
from generator.figures.stack.shapes import (
    IN_HAND,
    Chains,
    Label,
    Point,
    Ring,
    Screw,
    ScrewForm,
    Slab,
    Stack,
    State,
    Variant,
)
from generator.figures.svg import Attribute, element, figure, number, text

_NAMES = {
    Variant.FULL: "stack stack--full",
    Variant.NARROW: "stack stack--narrow",
    Variant.PICK: "stack stack--narrow",
    Variant.NUMBERS: "stack stack--numbers",
    Variant.STEP: "stack stack--step",
    Variant.STEP_NARROW: "stack stack--step stack--narrow",
}


@dataclass(frozen=True, slots=True)
class Way:
    """Where a part in the figure leads, and what that link is called."""

    href: str
    name: str


Ways = Mapping[PartId, Way]

NO_WAYS: Ways = {}


def stack_figure(stack: Stack, ident: str, ways: Ways = NO_WAYS) -> str:
    """One SVG. ident: prefix of every id in it, unique on its page and made with `svg.ident`.

    ways: parts that lead somewhere. The label of such a part is a link; the part itself leads there too, for pointers only,
    as one link a part is enough for those who go from link to link.
    """
    hand = [slab for slab in stack.painted if isinstance(slab, Slab) and slab.state in IN_HAND]
    return figure(
        _NAMES[stack.variant],
        ident=ident,
        size=(stack.width, stack.height),
        corner=stack.corner,
        title=stack.title,
        desc=stack.desc,
        role="group" if ways else "img",
        content=(
            _defs(stack, ident, bool(hand)),
            # Outlines of what is out lie behind all that is still there.
            _ghosts(slab for slab in stack.painted if isinstance(slab, Slab) and slab.state is State.OUT),
            *_paint(stack.painted, ident, ways),
            *_labels(stack.labels, ways),
        ),
    )


def _defs(stack: Stack, ident: str, is_hatched: bool) -> str:
    made = [_form(form, f"{ident}-s{index}") for index, form in enumerate(stack.forms)]
    if is_hatched:
        made.append(
            element(
                "pattern",
                {
                    "id": f"{ident}-hatch",
                    "width": 5,
                    "height": 5,
                    "patternUnits": "userSpaceOnUse",
                    "patternTransform": "rotate(45)",
                },
                element("path", {"class": "stack__stroke", "d": "M0 0V5"}),
            )
        )
    return element("defs", {}, *made) if made else ""


def _form(form: ScrewForm, name: str) -> str:
    """A screw with its hole at (0, 0), hovering on a chain line."""
    return element("g", {"id": name}, hole_drawn(form), screw_drawn(form))


def hole_drawn(form: ScrewForm) -> str:
    """The hole at (0, 0); none is seen of a screw that comes out below."""
    if form.is_below:
        return ""
    return element("ellipse", {"class": "stack__hole", "rx": form.hole, "ry": form.hole * ARC[1] / ARC[0]})


def screw_drawn(form: ScrewForm) -> str:
    """A screw over a hole at (0, 0), or below it, with the chain line between the two."""
    flat = ARC[1] / ARC[0]
    shaft, head = (f"{number(half)} {number(half * flat)}" for half in (form.shaft, form.head))
    rise, fall = number(form.hover), number(form.length)
    across, wide = number(2 * form.shaft), number(2 * form.head)
    if form.is_below:
        return (
            _path("stack__chain", f"M0 0V{rise}")
            + _path("stack__screw", f"M-{number(form.head)} {rise}v{number(form.head_height)}a{head} 0 0 0 {wide} 0"
                    f"v-{number(form.head_height)}a{head} 0 0 0-{wide} 0z")
            + _path("stack__screw", f"M-{number(form.shaft)} {rise}v-{fall}a{shaft} 0 0 1 {across} 0v{fall}"
                    f"a{shaft} 0 0 1-{across} 0z")
        )  # fmt: skip
    return (
        _path("stack__chain", f"M0 0V-{rise}")
        + _path("stack__screw", f"M-{number(form.shaft)}-{rise}v{fall}a{shaft} 0 0 0 {across} 0v-{fall}z")
        + _path("stack__screw", f"M-{number(form.head)}-{number(form.hover + form.head_height)}v{number(form.head_height)}"
                f"a{head} 0 0 0 {wide} 0v-{number(form.head_height)}a{head} 0 0 0-{wide} 0a{head} 0 0 0 {wide} 0")
    )  # fmt: skip


def chains_drawn(chains: Chains) -> str:
    """Axes of screws between two levels."""
    d = "".join(f"M{number(u)} {number(high)}V{number(low)}" for (u, high), (_, low) in chains.lines)
    return _path("stack__chain", d)


def _ghosts(slabs: Iterable[Slab]) -> str:
    d = "".join(outline(slab.side) for slab in slabs)
    return _path("stack__ghost", d) if d else ""


def _paint(painted: Iterable[Slab | Chains], ident: str, ways: Ways) -> Iterator[str]:
    """What is there, from the deepest up; parts of one state that follow each other share a group."""
    there = (one for one in painted if isinstance(one, Chains) or one.state is not State.OUT)
    for state, run in groupby(there, key=lambda one: None if isinstance(one, Chains) else one.state):
        drawn = "".join(chains_drawn(one) if isinstance(one, Chains) else _led(one, ident, ways) for one in run)
        yield drawn if state is None else element("g", {"class": f"stack__part stack__part--{state}"}, drawn)


def _led(slab: Slab, ident: str, ways: Ways) -> str:
    drawn = slab_drawn(slab, ident)
    way = ways.get(slab.part)
    if way is None:
        return drawn
    return element("a", {"class": "stack__thing", "href": way.href, "tabindex": -1, "aria-hidden": "true"}, drawn)


def slab_drawn(slab: Slab, ident: str) -> str:
    """One part with its screws."""
    drawn = [_screw(screw, ident) for screw in slab.screws if screw.is_below]
    if slab.slide is not None:
        drawn.append(_path("stack__chain", _line(*slab.slide)))
    drawn.append(_path("stack__side", outline(slab.side)))
    if slab.top:
        # Upright edges are lines like those of the top face; they enclose nothing, so nothing of them is filled.
        drawn.append(_path("stack__top", outline(slab.top) + "".join(_line(*edge) for edge in slab.edges)))
    if slab.wall:
        drawn.append(_path("stack__wall", outline(slab.wall)))
        drawn.append(_path("stack__floor", outline(slab.floor)))
    if slab.state in IN_HAND:
        drawn.append(element("path", {"class": "stack__hatch", "fill": f"url(#{ident}-hatch)", "d": outline(slab.top)}))
    if slab.features:
        drawn.append(_path("stack__fine", outline(slab.features)))
    drawn += [_screw(screw, ident) for screw in slab.screws if not screw.is_below]
    return "".join(drawn)


def _screw(screw: Screw, ident: str) -> str:
    return element("use", {"href": f"#{ident}-s{screw.form}", "x": screw.at[0], "y": screw.at[1]})


def _labels(labels: Sequence[Label], ways: Ways) -> list[str]:
    """All leaders in one path and all dots in another; those of parts in hand apart, for they are drawn otherwise."""
    drawn = []
    for name, chosen in (
        ("", [label for label in labels if label.state not in IN_HAND]),
        (" stack__leader--hand", [label for label in labels if label.state in IN_HAND]),
    ):
        if chosen:
            drawn.append(_path(f"stack__leader{name}", "".join(_leader(label) for label in chosen)))
            # Points, drawn as the round ends of lines without length.
            dots = "".join(f"M{number(label.anchor[0])} {number(label.anchor[1])}h0" for label in chosen)
            drawn += [_path("stack__rim", dots), _path(f"stack__dot{name.replace('leader', 'dot')}", dots)]
    for is_left in (True, False):
        side = [label for label in labels if label.is_left == is_left]
        if side:
            name = "stack__labels stack__labels--left" if is_left else "stack__labels"
            drawn.append(element("g", {"class": name}, *(_linked(label, ways.get(label.part)) for label in side)))
    return drawn


def _linked(label: Label, way: Way | None) -> str:
    if way is None:
        return _words(label)
    left, top, right, bottom = label.target
    field = f"M{_pair(left, top)}H{number(right)}V{number(bottom)}H{number(left)}z"
    return element(
        "a",
        {"class": "stack__link", "href": way.href, "aria-label": way.name},
        _path("stack__target", field),
        _words(label),
    )


def label_drawn(label: Label) -> str:
    """One label on its own, with its leader and the dot at its end."""
    dot = f"M{number(label.anchor[0])} {number(label.anchor[1])}h0"
    name = "stack__labels stack__labels--left" if label.is_left else "stack__labels"
    return element(
        "g",
        {"class": name},
        _path("stack__leader", _leader(label)),
        _path("stack__rim", dot),
        _path("stack__dot", dot),
        _words(label),
    )


def _leader(label: Label) -> str:
    shelf = f"H{number(label.knee[0])}" if label.port != label.knee else ""
    return f"M{number(label.port[0])} {number(label.port[1])}{shelf}L{number(label.anchor[0])} {number(label.anchor[1])}"


def _words(label: Label) -> str:
    hand = " stack__number--hand" if label.state in IN_HAND else ""
    return "".join(
        (
            text(label.number, _set(f"stack__number{hand}", label.number_at)) if label.number else "",
            *(text(line, _set(f"stack__name{hand.replace('number', 'name')}", at)) for line, at in label.name),
            *(text(line, _set("stack__note", at)) for line, at in label.note),
        )
    )


def _set(name: str, at: Point) -> dict[str, Attribute]:
    return {"class": name, "x": at[0], "y": at[1]}


def _path(name: str, d: str) -> str:
    return element("path", {"class": name, "d": d})


def _line(start: Point, end: Point) -> str:
    upright = f"V{number(end[1])}" if start[0] == end[0] else f"L{number(end[0])} {number(end[1])}"
    return f"M{number(start[0])} {number(start[1])}{upright}"


def outline(rings: Iterable[Ring]) -> str:
    """Closed lines, as the `d` of a path."""
    return "".join(_ring(ring) for ring in rings)


def _ring(ring: Ring) -> str:
    """A closed line, told from corner to corner; roundings are arcs of the upright ellipse that a circle becomes."""
    first = ring[0]
    d = [f"M{_pair(first.u, first.v)}"]
    before = first
    for node in (*ring[1:], *((first,) if first.radius else ())):
        du, dv = node.u - before.u, node.v - before.v
        if node.radius:
            d.append(f"a{_pair(node.radius * ARC[0], node.radius * ARC[1])} 0 0 1{_spaced(du)}{_spaced(dv)}")
        elif abs(du) < 0.05:
            d.append(f"v{number(dv)}")
        else:
            d.append(f"l{_pair(du, dv)}")
        before = node
    return "".join(d) + "z"


def _pair(u: float, v: float) -> str:
    return number(u) + _spaced(v)


def _spaced(value: float) -> str:
    """A number after another: a sign is enough to part them."""
    written = number(value)
    return written if written.startswith("-") else f" {written}"
