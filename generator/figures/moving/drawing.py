"""The moving picture as SVG text: one document with its style in it, moved by CSS keyframes and stopped by a checkbox."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from generator.figures.moving.shapes import Heading, Mover, Moving, Turn
from generator.figures.moving.timing import Beat, Timetable
from generator.figures.stack.drawing import chains_drawn, hole_drawn, label_drawn, outline, screw_drawn, slab_drawn
from generator.figures.stack.projection import ARC
from generator.figures.stack.shapes import ScrewForm
from generator.figures.svg import NAMESPACE, element, escaped, number, text
from generator.languages import later, say

XHTML = "http://www.w3.org/1999/xhtml"
PAUSE = later("Pause")

_MARGIN, _TITLE_AT, _LINE, _NUMBER_ROOM = 24.0, 62.0, 52.0, 126.0
_BAR, _PAUSE_HEIGHT = 14.0, 64.0
_HAIR = 0.01  # per cent of the whole: as good as at once


def moving_figure(moving: Moving, ident: str, style: str) -> str:
    """The whole document. ident: prefix of its ids and keyframes, made with `svg.ident`; style: rules for its classes.

    The style is the theme's: it has the tokens as custom properties for light and dark, and the rules of `stack__` and
    `moving__` pieces. Keyframes are added here; without them, or for readers who want no motion, the finished stack stands
    still.
    """
    keys = _Keyframes(ident, moving.timetable)
    content = _content(moving, ident, keys)
    return element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "class": "moving",
            "viewBox": " ".join(number(one) for one in (*moving.corner, moving.width, moving.height)),
        },
        element("title", {}, escaped(moving.title)),
        element("desc", {}, escaped(moving.desc)),
        element("style", {}, escaped(style.strip()), escaped(keys.rules())),
        content,
        _control(moving),
    )


def _content(moving: Moving, ident: str, keys: _Keyframes) -> str:
    x, y = moving.corner
    after: dict[int, list[str]] = {}
    for index, chains in moving.chains:
        after.setdefault(index, []).append(chains_drawn(chains))
    drawn = []
    for index, mover in enumerate(moving.movers):
        drawn.append(_mover(moving, mover, ident, keys))
        if index in after:
            drawn.append(element("g", {"class": f"moving__piece {keys.shown_in_rest()}"}, *after[index]))
    labels = [
        element("g", {"class": f"moving__piece {keys.comes_with(step)}"}, label_drawn(label))
        for step, label in moving.labels
    ]
    return element(
        "g",
        {"role": "img", "aria-label": moving.title},
        _defs(moving, ident),
        element("rect", {"class": "moving__ground", "x": x, "y": y, "width": moving.width, "height": moving.height}),
        *drawn,
        *labels,
        _heading(moving.whole, moving, keys.of_whole(), "moving__heading--whole"),
        *(
            _heading(heading, moving, keys.while_step(step), "moving__heading--step")
            for step, heading in enumerate(moving.headings)
        ),
        element(
            "rect",
            {
                "class": f"moving__piece moving__bar {keys.passing()}",
                "x": x + _MARGIN,
                "y": y + moving.height - _BAR - 2,
                "width": moving.width - 2 * _MARGIN,
                "height": 3,
            },
        ),
    )


def _defs(moving: Moving, ident: str) -> str:
    made = []
    for index, form in enumerate(moving.forms):
        made.append(element("g", {"id": f"{ident}-s{index}"}, screw_drawn(form)))
        made.append(element("clipPath", {"id": f"{ident}-c{index}"}, _above_hole(form)))
        if not form.is_below:
            made.append(element("g", {"id": f"{ident}-h{index}"}, hole_drawn(form)))
    if moving.rim:
        rim = element("path", {"d": outline(moving.rim), "clip-rule": "evenodd"})
        made.append(element("clipPath", {"id": f"{ident}-rim"}, rim))
    return element("defs", {}, *made) if made else ""


def _above_hole(form: ScrewForm) -> str:
    """What of a screw is outside its part: all above the front of the hole, or below it for one that comes out downward."""
    high = form.hover + form.head_height + form.length + 40
    front = form.head * ARC[1] / ARC[0] + 1
    top = -front if form.is_below else -high
    return element("rect", {"x": -form.head - 3, "y": top, "width": 2 * form.head + 6, "height": high + front})


def _mover(moving: Moving, mover: Mover, ident: str, keys: _Keyframes) -> str:
    slab = element("g", {"class": f"stack__part stack__part--{mover.slab.state}"}, slab_drawn(mover.slab, ident))
    names, style = ["moving__part"], ""
    if mover.step is not None:
        names += ["moving__piece", keys.leaves(mover.step, mover.slot is not None), keys.fades(mover.step, mover.is_unseen)]
        slot = mover.slot or mover.start
        style = f"--x:{number(mover.start[0])}px;--y:{number(mover.start[1])}px;--v:{number(slot[1])}px"
    if mover.accents:
        slab = element("g", {"class": f"moving__piece {keys.accent(mover.accents)}"}, slab)
    screws = [_turn(turn, moving, ident, keys) for turn in mover.turns]
    below = [drawn for turn, drawn in zip(mover.turns, screws, strict=True) if turn.is_below]
    above = [drawn for turn, drawn in zip(mover.turns, screws, strict=True) if not turn.is_below]
    drawn = element(
        "g", {"class": " ".join(names), "style": style or None, "id": f"{ident}-{mover.part}"}, *below, slab, *above
    )
    return element("g", {"clip-path": f"url(#{ident}-rim)"}, drawn) if mover.is_sunk and moving.rim else drawn


def _turn(turn: Turn, moving: Moving, ident: str, keys: _Keyframes) -> str:
    form = moving.forms[turn.form]
    hole = element("use", {"href": f"#{ident}-h{turn.form}"}) if not turn.is_below else ""
    down = -form.hover if turn.is_below else form.hover
    return element(
        "g",
        {"transform": f"translate({number(turn.at[0])} {number(turn.at[1])})"},
        hole,
        element(
            "g",
            {"clip-path": f"url(#{ident}-c{turn.form})"},
            element(
                "use",
                {
                    "class": f"moving__piece {keys.screws_up(turn.step)}",
                    "style": f"--h:{number(down)}px",
                    "href": f"#{ident}-s{turn.form}",
                },
            ),
        ),
    )


def _heading(heading: Heading, moving: Moving, key: str, variant: str) -> str:
    x, y = moving.corner[0] + _MARGIN, moving.corner[1] + _TITLE_AT
    indent = _NUMBER_ROOM if heading.number else 0.0
    lines = [
        text(
            line,
            {
                "class": "moving__title" if index == 0 or heading.number else "moving__count",
                "x": x + indent,
                "y": y + index * _LINE,
            },
        )
        for index, line in enumerate(heading.lines)
    ]
    numbered = text(heading.number, {"class": "moving__number", "x": x, "y": y + 14}) if heading.number else ""
    return element("g", {"class": f"moving__piece moving__heading {variant} {key}"}, numbered, *lines)


def _control(moving: Moving) -> str:
    """A checkbox that stops the motion; `:has` in the style listens to it."""
    box = f'<label xmlns="{XHTML}" class="moving__pause"><input type="checkbox"/> {escaped(say(PAUSE))}</label>'
    return element(
        "foreignObject",
        {
            "class": "moving__control",
            "x": moving.corner[0] + _MARGIN,
            "y": moving.corner[1] + moving.height - _BAR - _PAUSE_HEIGHT - 4,
            "width": 260,
            "height": _PAUSE_HEIGHT,
        },
        box,
    )


class _Keyframes:
    """The keyframes of one picture: each is asked for by what it does, written once, and known by a class.

    Classes are listed in the order they were first asked for, so that the same picture has the same bytes.
    """

    def __init__(self, ident: str, times: Timetable) -> None:
        self._ident = ident
        self._times = times
        self._names: dict[tuple[str, str], str] = {}

    def rules(self) -> str:
        """All keyframes and classes; and how long a round takes."""
        said = [f".moving__piece{{animation-duration:{self._times.seconds:g}s}}"]
        for (kind, frames), name in self._names.items():
            # A part leaves, fades and shines: kinds of their own properties, which a class each may set side by side.
            said.append(f"@keyframes {name}{{{frames}}}.{name}{{--{kind}:{name}}}")
        return "".join(said)

    def leaves(self, step: int, slides: bool) -> str:
        beat = self._times.beats[step]
        place = "transform:translate(var(--x),var(--y))"
        points: list[tuple[float, str]] = [(0, place), (beat.loose, place)]
        if slides:
            points.append((beat.drawn_out, "transform:translate(0,var(--v))"))
        points += [(beat.away, "transform:none"), (self._times.closing, "transform:none"), (self._times.whole, place)]
        return self._named("leave", points)

    def fades(self, step: int, is_unseen: bool) -> str:
        beat, times = self._times.beats[step], self._times
        last = beat is times.beats[-1]
        points: list[tuple[float, str]] = [(0, "opacity:0"), (beat.loose, "opacity:0")] if is_unseen else [(0, "opacity:1")]
        points += [(beat.drawn_out, "opacity:1"), (beat.away, "opacity:1")]
        if not last:
            points += [(beat.end, "opacity:.3"), (times.beats[-1].end, "opacity:.3"), (times.rest, "opacity:1")]
        points += [(times.closing, "opacity:1"), (times.whole, "opacity:0" if is_unseen else "opacity:1")]
        return self._named("fade", points)

    def accent(self, steps: Sequence[tuple[int, bool]]) -> str:
        """steps: each with whether the part is in the hand, not only worked on.

        The keyframes say how far it shines; what colour that is the style says. (A colour named here would be settled in
        light before an image in a dark page learns of the dark.)
        """
        plain = "--hand:0;--work:0"
        points: list[tuple[float, str]] = [(0, plain)]
        for step, is_in_hand in steps:
            beat, shone = self._times.beats[step], "--hand:1;--work:0" if is_in_hand else "--hand:0;--work:1"
            points += [(beat.start, plain), (beat.start, shone), (beat.end, shone), (beat.end, plain)]
        return self._named("shine", [*points, (self._times.whole, plain)])

    def screws_up(self, step: int) -> str:
        beat, times = self._times.beats[step], self._times
        down = "transform:translateY(var(--h))"
        points = [(0, down), (beat.start, down), (beat.loose, "transform:none"), (times.closing, "transform:none")]
        return self._named("leave", [*points, (times.whole, down)])

    def comes_with(self, step: int) -> str:
        return self._seen(self._times.beats[step].away, self._times.beats[step].end)

    def shown_in_rest(self) -> str:
        return self._seen(self._times.beats[-1].end if self._times.beats else 0, self._times.rest)

    def while_step(self, step: int) -> str:
        beat = self._times.beats[step]
        return self._named("fade", _only(beat, self._times.whole))

    def of_whole(self) -> str:
        beats, whole = self._times.beats, self._times.whole
        if not beats:
            return self._named("fade", [(0, "opacity:1"), (whole, "opacity:1")])
        first, last = beats[0].start, beats[-1].end
        points = [(0, "opacity:1"), (first, "opacity:1"), (first, "opacity:0"), (last, "opacity:0"), (last, "opacity:1")]
        return self._named("fade", [*points, (whole, "opacity:1")])

    def passing(self) -> str:
        return self._named("leave", [(0, "transform:scaleX(0)"), (self._times.whole, "transform:none")])

    def _seen(self, start: int, full: int) -> str:
        times = self._times
        points = [(0, "opacity:0"), (start, "opacity:0"), (full, "opacity:1"), (times.closing, "opacity:1")]
        return self._named("fade", [*points, (times.closing + 5, "opacity:0"), (times.whole, "opacity:0")])

    def _named(self, kind: str, points: Iterable[tuple[float, str]]) -> str:
        frames = self._frames(points)
        return self._names.setdefault((kind, frames), f"{self._ident}-{len(self._names)}")

    def _frames(self, points: Iterable[tuple[float, str]]) -> str:
        """Keyframes; what follows at the same time follows a hair later; times of one state in a row share its words."""
        rows: list[tuple[list[float], str]] = []
        last = -1.0
        for at, state in points:
            share = max(round(self._times.share(at), 2), round(last + _HAIR, 2))
            share = min(share, 100.0)
            last = share
            if rows and rows[-1][1] == state:
                rows[-1] = ([rows[-1][0][0], share], state)
            else:
                rows.append(([share], state))
        return "".join(f"{','.join(f'{number(share)}%' for share in shares)}{{{state}}}" for shares, state in rows)


def _only(beat: Beat, whole: int) -> list[tuple[float, str]]:
    return [
        (0, "opacity:0"),
        (beat.start, "opacity:0"),
        (beat.start, "opacity:1"),
        (beat.end, "opacity:1"),
        (beat.end, "opacity:0"),
        (whole, "opacity:0"),
    ]
