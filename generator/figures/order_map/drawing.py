"""The order map as SVG text: shapes in, elements out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from generator.anatomy.parts import Point
from generator.figures.order_map.channels import rounded
from generator.figures.order_map.maps import Shown
from generator.figures.order_map.shapes import BEND, Diamond, Line, OrderMap, Place
from generator.figures.order_map.sizes import CAPTION, DIAMOND, LINE_HEIGHT, NUMBER_ROOM, TITLE_GAP
from generator.figures.svg import Attribute, element, escaped, figure, number, path_data, text
from generator.languages import say
from generator.orders.work import StepId

MARGIN = 5.0  # around everything, for the widest line and the ring of the box in focus
_TIP = 9.0  # length of a tip
_TIP_HALF = {False: 3.8, True: 5.2}  # half its width, for a narrow and a wide line

Link = Callable[[StepId], str]
"""The address of a step."""


def order_map_block(maps: Iterable[Shown], ident: str, link: Link) -> str:
    """All maps of a page in one block; the theme shows the one that suits the page.

    ident: prefix of every id in it, unique on its page and made with `svg.ident`.
    """
    return element("div", {"class": "order-map"}, *(_sheet(shown, ident, link) for shown in maps))


def order_map_figure(drawn: OrderMap, ident: str, link: Link) -> str:
    """One map as an SVG in which every box is a link to its step."""
    return figure(
        f"order-map__drawing order-map__drawing--{'titles' if drawn.form.is_titled else 'numbers'}",
        ident=ident,
        size=(drawn.width + 2 * MARGIN, drawn.height + 2 * MARGIN),
        corner=(-MARGIN, -MARGIN),
        role="group",
        title=drawn.title,
        desc=drawn.desc,
        content=(
            *(_line(line) for line in drawn.lines),
            *(_diamond(diamond) for diamond in drawn.diamonds),
            _diamond(Diamond(drawn.key, False, None)) if drawn.key else "",
            *(text(said.words, _at("order-map__caption", said.at)) for said in drawn.captions),
            *(_step(place, link) for place in drawn.places),
        ),
    )


def _sheet(shown: Shown, ident: str, link: Link) -> str:
    variants = (*shown.variants, *(f"scrolled-{variant}" for variant in shown.scrolled))
    classes = "".join(f" order-map__sheet--{variant}" for variant in variants)
    # What is wider than its place is scrolled, also by keyboard.
    scrolled: dict[str, Attribute] = {}
    if shown.scrolled:
        scrolled = {"tabindex": "0", "role": "region", "aria-label": shown.map.title}
    drawn = order_map_figure(shown.map, f"{ident}-{shown.variants[0]}", link)
    return element("div", {"class": f"order-map__sheet{classes}", **scrolled}, drawn)


def _line(line: Line) -> str:
    if not line.has_tip:
        return element("path", {"class": _named("line", line), "d": _bent(line.drawn)})
    before, end = line.corners[-2:]
    dx, dy = _direction(before, end)
    half = _TIP_HALF[line.is_chosen]
    base = (end[0] - dx * _TIP, end[1] - dy * _TIP)
    tip = (end, (base[0] - dy * half, base[1] + dx * half), (base[0] + dy * half, base[1] - dx * half))
    # The line ends inside the tip, or its width would show beside the point.
    inside = (end[0] - dx * (_TIP - 2), end[1] - dy * (_TIP - 2))
    way = (*line.drawn[:-1], inside) if line.drawn == line.corners else line.drawn
    drawn = element("path", {"class": _named("line", line), "d": _bent(way)})
    return drawn + element("path", {"class": _named("tip", line), "d": path_data(tip)})


def _named(piece: str, line: Line) -> str:
    variants = ((line.is_chosen, "chosen"), (line.is_either, "either"))
    names = (f"order-map__{piece}", *(f"order-map__{piece}--{variant}" for holds, variant in variants if holds))
    return " ".join(names)


def _bent(corners: Sequence[Point]) -> str:
    """The corners joined, each rounded off as far as the pieces beside it allow."""
    pieces = [f"M{_pair(corners[0])}"]
    for index, (corner, radius) in enumerate(rounded(corners, BEND), 1):
        came, goes = _direction(corners[index - 1], corner), _direction(corner, corners[index + 1])
        into = (corner[0] - came[0] * radius, corner[1] - came[1] * radius)
        out = (corner[0] + goes[0] * radius, corner[1] + goes[1] * radius)
        pieces.append(f"L{_pair(into)}Q{_pair(corner)} {_pair(out)}")
    return "".join(pieces) + f"L{_pair(corners[-1])}"


def _direction(start: Point, end: Point) -> Point:
    dx, dy = end[0] - start[0], end[1] - start[1]
    if abs(dx) >= abs(dy):
        return (-1.0 if dx < 0 else 1.0, 0.0)
    return (0.0, -1.0 if dy < 0 else 1.0)


def _diamond(diamond: Diamond) -> str:
    x, y = diamond.at
    corners = ((x - DIAMOND, y), (x, y - DIAMOND), (x + DIAMOND, y), (x, y + DIAMOND))
    variant = " order-map__diamond--chosen" if diamond.is_chosen else ""
    caption = text(say(CAPTION), _at("order-map__caption", diamond.caption)) if diamond.caption else ""
    return element("path", {"class": f"order-map__diamond{variant}", "d": path_data(corners)}) + caption


def _step(place: Place, link: Link) -> str:
    alternative = " order-map__step--alternative" if place.is_alternative else ""
    return element(
        "a",
        {
            "class": f"order-map__step order-map__step--{place.standing}{alternative}",
            "href": link(place.step),
            "aria-label": _spoken(place),
        },
        element("title", {}, escaped(place.title)) if " ".join(place.lines) != place.title else "",
        element(
            "rect",
            {"class": "order-map__box", "x": place.left, "y": place.top, "width": place.width, "height": place.height},
        ),
        *(_titled(place) if place.lines else (_number(place.number, place.at),)),
    )


def _spoken(place: Place) -> str:
    """The words of the box as well as the title, so that the link can be called by what is seen."""
    said = f", {place.words}" if place.lines and place.words != place.title else ""
    return say("Step {number}: {title}", number=f"{place.number}{said}", title=place.title)


def _titled(place: Place) -> tuple[str, ...]:
    rule = place.left + NUMBER_ROOM
    x = rule + TITLE_GAP
    return (
        element("path", {"class": "order-map__rule", "d": f"M{_pair((rule, place.top))}v{number(place.height)}"}),
        _number(place.number, (place.left + NUMBER_ROOM / 2, place.at[1])),
        element(
            "text",
            _at("order-map__title", (x, place.at[1] + 4.8 - (len(place.lines) - 1) * LINE_HEIGHT / 2)),
            *(
                element("tspan", {"x": x, "dy": LINE_HEIGHT} if index else {}, escaped(line))
                for index, line in enumerate(place.lines)
            ),
        ),
    )


def _number(words: str, at: Point) -> str:
    return text(words, _at("order-map__number", (at[0], at[1] + 5.4)))


def _at(name: str, at: Point) -> dict[str, Attribute]:
    return {"class": name, "x": at[0], "y": at[1]}


def _pair(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"
