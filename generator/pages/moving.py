"""Moving pictures and still frames, made only when asked for: by device and by way to a part."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.figures.moving.drawing import moving_figure
from generator.figures.moving.frames import frame_figure, frames_of
from generator.figures.moving.geometry import moving_of
from generator.figures.stack.arrangement import arrange
from generator.figures.svg import ident
from generator.languages import say
from generator.orders.guide import Guide
from generator.orders.routes import Route
from generator.orders.work import Step
from generator.pages.survey import Survey, up_to_stop
from generator.pages.theme import Theme
from generator.pages.tokens import declared, plain_rules, resolved, rules_about, tokens_of

COLOURS = ("paper", "sheet", "sheet2", "shade", "ink", "ink2", "ink3", "acc", "accd", "on-acc", "wash")
FACES = ("serif", "mono")

FRAMES = "frames"
"""The folder of a device's frames."""


@dataclass(frozen=True, slots=True)
class Asked:
    """The pictures that are made on request only."""

    film: bool = False
    frames: bool = False
    card: bool = False


def film_name(part: PartId | None) -> str:
    """The name of a moving picture in its device's folder; part: where the run leads, None for all of it."""
    return f"film-to-{part}.svg" if part else "film.svg"


def film_files(survey: Survey, theme: Theme) -> Iterator[tuple[str, str]]:
    """The moving pictures of a device by path: of the whole guide, and of every way that has a page."""
    style = moving_style(theme)
    guide = survey.guide
    for part, run in _runs(survey):
        arranged = arrange(guide, run) if run else None
        if arranged is not None:
            moving = moving_of(arranged, guide.device.name, _what(guide, part))
            yield f"{guide.id}/{film_name(part)}", moving_figure(moving, ident("moving", part or "all"), style)


def frame_files(survey: Survey, theme: Theme) -> Iterator[tuple[str, str]]:
    """The still frames of the whole guide by path, numbered in the order of its steps."""
    guide = survey.guide
    arranged = arrange(guide, survey.shown) if survey.shown else None
    if arranged is None:
        return
    style = frame_style(theme)
    places = len(str(len(survey.shown)))
    for number, frame in enumerate(frames_of(arranged, guide.device.name), 1):
        name = f"{number:0{max(places, 2)}d}-{survey.shown[number - 1].id}"
        yield f"{guide.id}/{FRAMES}/{name}.svg", frame_figure(frame, ident("frame", str(number)), style)


def moving_style(theme: Theme) -> str:
    """Tokens as custom properties, light and dark, then the rules of the stack's pieces and of the picture."""
    tokens = _sheet(theme, "tokens.css")
    light, dark = tokens_of(tokens), tokens_of(tokens, dark=True)
    stack = rules_about(plain_rules(_sheet(theme, "components/stack/stack.css")), _PIECES)
    return "\n".join(
        (
            f".moving{{{declared(light, (*COLOURS, *FACES))}}}",
            f"@media screen and (prefers-color-scheme:dark){{.moving{{{declared(dark, COLOURS)}}}}}",
            stack,
            _sheet(theme, "moving/moving.css"),
        )
    )


def frame_style(theme: Theme) -> str:
    """The same for stills: light colours in place of their names, and no rule that depends on a medium."""
    stack = plain_rules(_sheet(theme, "components/stack/stack.css"))
    kept = "\n".join(rule for rule in stack.splitlines() if "display" not in rule.partition("{")[2])
    return resolved(f"{kept}\n{plain_rules(_sheet(theme, 'moving/frame.css'))}", tokens_of(_sheet(theme, "tokens.css")))


def _sheet(theme: Theme, name: str) -> str:
    found = dict(theme.files).get(name, "")
    return found if isinstance(found, str) else ""


_PIECES = tuple(
    f"stack__{piece}"
    for piece in (
        "side",
        "top",
        "wall",
        "floor",
        "fine",
        "screw",
        "hole",
        "chain",
        "leader",
        "rim",
        "dot",
        "number",
        "labels",
    )
)


def _runs(survey: Survey) -> Iterator[tuple[PartId | None, Sequence[Step]]]:
    yield None, survey.shown
    for part in survey.pages:
        way = survey.ways[part]
        if isinstance(way, Route):
            yield part, up_to_stop(survey.guide, way.steps)[0]


def _what(guide: Guide, part: PartId | None) -> str:
    return say("the way to the {part}", part=guide.part(part).name) if part else say("taken apart")
