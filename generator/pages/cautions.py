"""Signal panels: the hazards that follow from the work, put into words, with those the author wrote.

Signal words mean what ANSI Z535.4 says: DANGER will kill or gravely injure, WARNING could, CAUTION could injure lightly,
NOTICE is about things only. A panel tells hazard, consequence and avoidance in this order (EN 82079-1). The facts are
those of public safety pages and data sheets; what is for licensed practice and what local codes say is not taught here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.languages import decimal_mark, later, say
from generator.orders.guide import Guide
from generator.orders.hazards import SHOCK_FROM, Hazard, hazards_back, hazards_of
from generator.orders.work import Step
from generator.pages.typography import NO_BREAK, capital, held, listed, sentence

MEANINGS = {
    "danger": later("Will kill or gravely injure, if it is not avoided."),
    "warning": later("Could kill or gravely injure, if it is not avoided."),
    "caution": later("Could injure lightly or moderately, if it is not avoided."),
    "notice": later("About damage to things, not to people."),
}
"""The signal words after ANSI Z535.4, from the gravest down; they are shown in capitals."""

LEVELS = tuple(MEANINGS)

SIGNALS = {
    "danger": later("DANGER"),
    "warning": later("WARNING"),
    "caution": later("CAUTION"),
    "notice": later("NOTICE"),
}


@dataclass(frozen=True, slots=True)
class Wording:
    """hazard ends in a colon's worth: the subjects are put after it."""

    level: str
    hazard: str
    consequence: str
    avoidance: str


WORDINGS = {
    "mains": Wording(
        "danger",
        later("Mains voltage"),
        later("Touching a live part kills."),
        later(
            "Pull the plug out of the wall and keep it in your sight. Work on mains parts is for licensed practice, and "
            "local codes come before this guide."
        ),
    ),
    "stored charge": Wording(
        "danger",
        later("Stored charge"),
        later("It stays for a long time after the plug is pulled. A shock can kill."),
        later(
            "Touch nothing here before it has been measured as discharged, with a meter proven before and after. "
            "Discharging and measuring are for licensed practice, and local codes come before this guide."
        ),
    ),
    "low charge": Wording(
        "warning",
        later("Stored charge"),
        later("A short circuit throws sparks and hot metal."),
        later("Keep metal tools away until it has been measured as discharged. Take off rings and watches."),
    ),
    "licensed": Wording(
        "danger",
        later("For licensed practice only"),
        later("Work here without the training and the permit can kill."),
        later("Do not go on. Hand the device to licensed practice; local codes come before this guide."),
    ),
    "cell": Wording(
        "warning",
        later("Lithium cell under strain"),
        later("A cell that is bent, pierced or crushed can catch fire and give off poisonous vapour."),
        later(
            "Pry flat and slowly, with plastic only, never into the cell. If it is swollen, dented, hot, hissing or smells, "
            "stop: do not press on it, do not charge it, keep others away."
        ),
    ),
    "cell near heat": Wording(
        "warning",
        later("Lithium cell beside the heat"),
        later("A cell that gets too hot can swell, vent or catch fire."),
        later(
            "Warm the joint only, and no longer than the step says. Use a heat source that holds its temperature, "
            "never a flame."
        ),
    ),
    "glass": Wording(
        "warning",
        later("Glass under strain"),
        later("It can splinter. Slivers reach the eyes and cut the fingers."),
        later("Wear eye protection. Tape over every crack before you start."),
    ),
    "flammable": Wording(
        "warning",
        later("Flammable"),
        later("The vapour can catch fire from a spark or a hot tool."),
        later("Keep flames, hot tools and chargers away. Use drops, not a stream, and let them dry before you go on."),
    ),
    "laser": Wording(
        "warning",
        later("Laser inside"),
        later("Light from an open device can harm the eyes for good, also where it cannot be seen."),
        later("Never switch it on while it is open."),
    ),
    "hot surface": Wording(
        "caution",
        later("Hot surface"),
        later("It burns skin at a touch."),
        later("Hold it by its handle only. Lay it on something that does not burn."),
    ),
    "vapour": Wording(
        "caution",
        later("Vapour"),
        later("It irritates the eyes and the lungs."),
        later("Open a window. Close the bottle after use."),
    ),
    "fume": Wording(
        "caution",
        later("Fume"),
        later("It irritates the eyes and the lungs."),
        later("Work under extraction or at an open window. Wash your hands afterwards."),
    ),
    "sharp": Wording(
        "caution",
        later("Sharp edge"),
        later("It cuts the fingers."),
        later("Move it away from your other hand."),
    ),
    "spring": Wording(
        "caution",
        later("Part under spring force"),
        later("It can jump into the eyes."),
        later("Wear eye protection. Let it go slowly, under a cloth."),
    ),
    "dust": Wording(
        "caution",
        later("Harmful dust"),
        later("It harms the lungs."),
        later("Do not brush, blow, grind or file here, and do not use a vacuum cleaner. Wipe it up damp."),
    ),
    "irritant": Wording(
        "caution",
        later("Irritant"),
        later("It irritates the skin and the eyes."),
        later("Wear gloves. Wash it off at once with water."),
    ),
    "esd": Wording(
        "notice",
        later("Static charge"),
        later("A spark too small to feel can spoil a chip."),
        later("Touch bare metal of the device first. Hold boards by their edges."),
    ),
}


NAMES = {
    "flammable": later("flammable"),
    "vapour": later("vapour"),
    "hot surface": later("hot surface"),
    "sharp": later("sharp"),
    "glass": later("glass"),
    "laser": later("laser"),
    "mains": later("mains"),
    "stored charge": later("stored charge"),
    "spring": later("spring"),
    "dust": later("dust"),
    "fume": later("fume"),
    "irritant": later("irritant"),
}
"""The hazard words that an author may use, as they are read in a list."""


@dataclass(frozen=True, slots=True)
class Panel:
    """A signal panel with finished words. level is its variant; steps says where it is met, if it is told for many."""

    level: str
    signal: str
    hazard: str
    consequence: str = ""
    avoidance: str = ""
    steps: str = ""
    has_triangle: bool = True


@dataclass(frozen=True, slots=True)
class Gathered:
    """A hazard of several steps: its panel and the steps, by their place in the list that was looked through."""

    panel: Panel
    places: tuple[int, ...]


def panels_of(guide: Guide, step: Step, told: frozenset[str]) -> tuple[Panel, ...]:
    """The panels of a step, the gravest first, those that follow from the work before the author's.

    told: keys of panels given before on the page (see `keys_of`). DANGER and WARNING are always given in full; of the
    others the first sentence is enough the second time.
    """
    return _ranked([*_derived(guide, hazards_of(guide, step)), *_authored(step)], told)


def panels_back(guide: Guide, step: Step, told: frozenset[str]) -> tuple[Panel, ...]:
    """The panels of the same step on the way back; the author's own stand on the way out."""
    return _ranked(_derived(guide, hazards_back(guide, step)), told)


def _ranked(panels: list[Panel], told: frozenset[str]) -> tuple[Panel, ...]:
    panels = sorted(panels, key=lambda panel: LEVELS.index(panel.level))
    return tuple(_short(panel) if _key(panel) in told and not _is_grave(panel) else panel for panel in panels)


def keys_of(panels: Iterable[Panel]) -> frozenset[str]:
    """What tells panels apart on one page."""
    return frozenset(_key(panel) for panel in panels)


def gathered(guide: Guide, steps: Sequence[Step], has_back: bool = True) -> tuple[Gathered, ...]:
    """The hazards of a run of steps, one panel a kind and the author's own, each with the places where it is met.

    With `has_back` the way back is part of the run: after n steps, the place n is that of the last step put back.
    """
    kinds: dict[str, dict[Hazard, None]] = {}
    places: dict[str, dict[int, None]] = {}
    own: dict[Panel, dict[int, None]] = {}
    for place, step in enumerate(steps):
        met = [(hazard, place) for hazard in hazards_of(guide, step)]
        met += [(hazard, 2 * len(steps) - 1 - place) for hazard in hazards_back(guide, step)] if has_back else []
        for hazard, where in met:
            kind = _kind(hazard)
            kinds.setdefault(kind, {})[hazard] = None
            places.setdefault(kind, {})[where] = None
        for panel in _authored(step):
            own.setdefault(panel, {})[place] = None
    found = [Gathered(_panel(guide, kind, tuple(hazards)), tuple(places[kind])) for kind, hazards in kinds.items()]
    found += [Gathered(panel, tuple(at)) for panel, at in own.items()]
    return tuple(sorted(found, key=lambda entry: LEVELS.index(entry.panel.level)))


def stop_panel(part: str, reason: str) -> Panel:
    """The panel that ends a guide where only licensed practice may go on; an empty reason stands for a stored charge."""
    wording = WORDINGS["licensed"]
    return Panel(
        wording.level,
        signal_word(wording.level),
        _of(say(wording.hazard), part),
        sentence(reason) if reason else say(WORDINGS["stored charge"].consequence),
        say(wording.avoidance),
    )


def example_panel(kind: str) -> Panel:
    """The panel of a kind of hazard with no subject, for pages that are about no device. KeyError for an unknown kind."""
    return _worded(WORDINGS[kind], f"{say(WORDINGS[kind].hazard)}.")


def hazard_word(kind: str) -> str:
    """What a kind of hazard is called within a sentence; empty for a kind that only its author knows."""
    return say(NAMES[kind]) if kind in NAMES else ""


def signal_word(level: str) -> str:
    """The signal word of a level, in capitals."""
    return say(SIGNALS[level])


def _of(hazard: str, subjects: str) -> str:
    return say("{hazard}: {subjects}.", hazard=hazard, subjects=subjects)


def _derived(guide: Guide, hazards: Sequence[Hazard]) -> list[Panel]:
    kinds: dict[str, list[Hazard]] = {}
    for hazard in hazards:
        kinds.setdefault(_kind(hazard), []).append(hazard)
    return [_panel(guide, kind, tuple(found)) for kind, found in kinds.items()]


def _kind(hazard: Hazard) -> str:
    if hazard.kind != "stored charge":
        return hazard.kind
    volts = hazard.detail.partition(" ")[0]
    is_low = volts.replace(".", "", 1).isdigit() and float(volts) < SHOCK_FROM
    return "low charge" if is_low else "stored charge"


def _panel(guide: Guide, kind: str, hazards: tuple[Hazard, ...]) -> Panel:
    subjects = listed(list(dict.fromkeys(_subject(hazard) for hazard in hazards)))
    wording = WORDINGS.get(kind)
    if wording is None:  # a hazard word of the author's own: it is passed on, with what holds for all
        return Panel(
            "caution",
            signal_word("caution"),
            _of(capital(guide.word(kind)), subjects),
            say("It can harm you."),
            say("Read what its maker says about it before you use it."),
        )
    if kind == "licensed":
        reasons = " ".join(dict.fromkeys(sentence(hazard.detail) for hazard in hazards))
        return _worded(wording, _of(say(wording.hazard), subjects), reasons)
    return _worded(wording, _of(say(wording.hazard), subjects))


def _worded(wording: Wording, hazard: str, consequence: str = "") -> Panel:
    return Panel(
        level=wording.level,
        signal=signal_word(wording.level),
        hazard=hazard,
        consequence=consequence or say(wording.consequence),
        avoidance=say(wording.avoidance),
        has_triangle=wording.level != "notice",
    )


def _subject(hazard: Hazard) -> str:
    """Where it comes from, with its quantity where that is of use."""
    if hazard.kind == "stored charge" and hazard.detail:
        return f"{hazard.subject} ({_quantity(hazard.detail)})"
    if hazard.kind == "cell near heat" and hazard.detail:
        limit = _quantity(hazard.detail)
        return say("{part} (no more than {degrees} at the cell)", part=hazard.subject, degrees=limit)
    return held(hazard.subject)


def _quantity(detail: str) -> str:
    return detail.replace(" ", NO_BREAK).replace(".", decimal_mark())


def _authored(step: Step) -> list[Panel]:
    panels = []
    for caution in step.cautions:
        first, rest = _split(held(caution.text))
        level = caution.level if caution.level in LEVELS else "notice"
        panels.append(Panel(level, signal_word(level), first, rest, has_triangle=level != "notice"))
    return panels


def _split(text: str) -> tuple[str, str]:
    """The first sentence, and what follows."""
    match = re.match(r"(.+?[.!?])\s+(?=[^\sa-z])(.+)", text, re.DOTALL)
    return (match[1], match[2]) if match else (text, "")


def _key(panel: Panel) -> str:
    return f"{panel.level} {panel.hazard}"


def _is_grave(panel: Panel) -> bool:
    return panel.level in ("danger", "warning")


def _short(panel: Panel) -> Panel:
    return Panel(panel.level, panel.signal, panel.hazard, has_triangle=panel.has_triangle)
