"""The text below a film: what it shows, what can hurt, when which step is seen, what is needed, under which licence.

Plain lines for a box that takes no more than so many characters; what has to be left out for that is said.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from generator.anatomy.parts import Part, PartId
from generator.languages import say
from generator.orders.accounts import Accounts, accounts_of
from generator.orders.routes import Route
from generator.orders.stretches import Watching, shots_of, watching
from generator.orders.work import Step
from generator.pages.addresses import DEVICE, canonical_address, route_page
from generator.pages.cautions import Panel, gathered
from generator.pages.survey import Stop, Survey, up_to_stop
from generator.pages.video.chapters import chapter_list, chapters_of_film, title_of
from generator.pages.video.plain import plain, shortened, times_of, weight
from generator.source.values import clock

LIMIT = 5000
"""Characters that the box below a film takes: common practice among players."""


LONGEST_CAUTION = 600
"""Characters of each sentence of a caution."""


@dataclass(frozen=True, slots=True)
class Passage:
    """Lines under a heading. name: what is said to be missing when some are left out, empty where none ever is.

    rank: the passage with the highest is the first to lose lines. brief: each line in fewer words; they take the place of
    the last lines before a passage of the rank `brief_at` or below loses any; briefly: what is then said to be missing.
    """

    heading: str
    lines: tuple[str, ...]
    name: str = ""
    rank: int = 0
    brief: tuple[str, ...] = ()
    brief_at: int = 0
    briefly: str = ""


def description_of_film(survey: Survey) -> str:
    """Of the whole take-apart."""
    guide, library = survey.guide, survey.library
    address = canonical_address(library.address, f"{guide.id}/{DEVICE}")
    head = [say("{device}, taken apart in steps.", device=shortened(guide.device.name))]
    head += [shortened(guide.device.about)] if guide.device.about else []
    if address:
        head.append(say("The guide, with every step drawn and every screw told: {address}", address=address))
    return fitted(
        (
            Passage("", tuple(head)),
            _cautions(_panels(survey, survey.shown, has_back=survey.stop is None), survey.stop),
            Passage(
                say("In the film"),
                (*chapter_list(chapters_of_film(survey), guide.device.film_length), *_unfilmed(survey, survey.shown)),
                say("times of the film"),
                rank=1,
            ),
            Passage(
                say("Only one part? Watch no more than this"),
                _ways(survey),
                say("ways to single parts"),
                rank=2,
                brief=_ways(survey, is_brief=True),
                brief_at=4,
                briefly=say("addresses of parts"),
            ),
            *_things(survey.accounts),
            _foot(survey),
        ),
        LIMIT,
    )


def description_of_run(survey: Survey, part: Part, steps: Sequence[Step], stop: Stop | None) -> str:
    """Of the way to one part, whose shown steps are given."""
    guide, library = survey.guide, survey.library
    address = canonical_address(library.address, f"{guide.id}/{route_page(part.id)}")
    seen = watching(guide, steps)
    head = [_title(survey, part)]
    if address:
        head.append(say("The guide, with every step drawn and every screw told: {address}", address=address))
    spare = _spare(part)
    return fitted(
        (
            Passage("", tuple(head)),
            Passage("", watch_lines(part, seen), say("times of the film"), rank=1),
            _cautions(_panels(survey, steps, has_back=stop is None), stop),
            Passage(say("The steps"), timed_steps(survey, steps), say("steps"), rank=1),
            Passage(say("The part"), (f"- {shortened(part.name)}, {spare}",) if spare else (), say("parts"), rank=2),
            *_things(accounts_of(guide, steps)),
            _foot(survey),
        ),
        LIMIT,
    )


def watch_list(survey: Survey, part: Part, steps: Sequence[Step], stop: Stop | None) -> str:
    """What of the film to watch on the way to one part, what to skip, and what it does not show."""
    seen = watching(survey.guide, steps)
    numbers = {step.id: number for number, step in enumerate(steps, 1)}
    shown = tuple(
        f"{times_of(each)} {' / '.join(shortened(title_of(step, str(numbers[step.id]))) for step in each.steps)}"
        for each in seen.parts
    )
    skipped = tuple(
        " ".join((times_of(each), " / ".join(shortened(step.title) for step in each.steps))).rstrip() for each in seen.skips
    )
    return _written(
        (
            Passage("", (_title(survey, part), *((_stop_words(stop),) if stop else ()))),
            Passage(say("Watch, in this order"), shown),
            Passage(say("Skip"), skipped),
            Passage("", _unfilmed(survey, steps)),
        ),
        (),
    )


def watch_lines(part: Part, seen: Watching) -> tuple[str, ...]:
    """The same in a line, for those who know what they came for. seen: with one part at least."""
    times = ", ".join(times_of(each) for each in seen.parts)
    lines = [say("For the {part} only watch these parts of the film: {times}", part=shortened(part.name), times=times)]
    if seen.skips:
        lines.append(say("Skip: {times}", times=", ".join(times_of(each) for each in seen.skips)))
    return tuple(lines)


def timed_steps(survey: Survey, steps: Sequence[Step]) -> tuple[str, ...]:
    """A line a step in the order of the work: when it is seen, and that it is not."""
    shots = shots_of(survey.guide)
    return tuple(
        f"{clock(shots[step.id].start)} {shortened(title_of(step, str(number)))}"
        if step.id in shots
        else say("Not in the film: {step}", step=shortened(title_of(step, str(number))))
        for number, step in enumerate(steps, 1)
    )


def fitted(passages: Sequence[Passage], limit: int) -> str:
    """The passages as one text of `limit` characters at most, headings apart from what stands above them.

    Lines are left out from the end of the passage with the highest rank first, then of the next; the last line then says
    of which. What has no name is never left out. ValueError where that alone is longer.
    """
    left = list(passages)
    missing: list[str] = []

    def is_short_enough() -> bool:
        return weight(_written(left, missing)) <= limit

    def keep_what_fits(place: int, passage: Passage, otherwise: tuple[str, ...], name: str) -> None:
        """As many of the first lines as can stand when the rest of them is `otherwise`."""
        missing.append(name)
        fewest, most = 0, len(passage.lines)
        while fewest < most:
            middle = (fewest + most + 1) // 2
            left[place] = replace(passage, lines=passage.lines[:middle] + otherwise[middle:])
            fewest, most = (middle, most) if is_short_enough() else (fewest, middle - 1)
        left[place] = replace(passage, lines=passage.lines[:fewest] + otherwise[fewest:])

    for rank in sorted({passage.rank for passage in passages} | {passage.brief_at for passage in passages}, reverse=True):
        for place, passage in enumerate(passages):
            if passage.brief and passage.brief_at == rank and not is_short_enough():
                keep_what_fits(place, passage, passage.brief, passage.briefly)
        for place, passage in enumerate(passages):
            if passage.name and passage.rank == rank and passage.lines and not is_short_enough():
                keep_what_fits(place, left[place], (), passage.name)
    text = _written(left, missing)
    if weight(text) > limit:
        raise ValueError(f"what cannot be left out has {weight(text)} characters, more than {limit}")
    return text


def _written(passages: Iterable[Passage], missing: Sequence[str]) -> str:
    blocks = [
        "\n".join((passage.heading, *passage.lines)) if passage.heading else "\n".join(passage.lines)
        for passage in passages
        if passage.lines
    ]
    if missing:
        blocks.append(say("The space ended here. The guide has the rest of: {what}.", what=", ".join(missing)))
    return "\n\n".join(plain_lines(block) for block in blocks) + "\n"


def plain_lines(block: str) -> str:
    return "\n".join(plain(line) for line in block.split("\n"))


# --- passages ---------------------------------------------------------------------------------------------------


def _panels(survey: Survey, steps: Sequence[Step], *, has_back: bool) -> tuple[Panel, ...]:
    return tuple(entry.panel for entry in gathered(survey.guide, steps, has_back=has_back))


def _cautions(panels: Sequence[Panel], stop: Stop | None) -> Passage:
    """The hazards, the gravest first; they stand before the steps, and are the last to be shortened."""
    first = [say("Local codes and licensed practice come before this guide.")] + ([_stop_words(stop)] if stop else [])
    said = [(f"{panel.signal}: {panel.hazard}", panel.consequence, panel.avoidance) for panel in panels]
    full = [" ".join(shortened(words, LONGEST_CAUTION) for words in each if words) for each in said]
    brief = [shortened(hazard) for hazard, _, _ in said]
    return Passage(
        say("Before you begin"),
        (*first, *full),
        say("cautions"),
        brief=(*first, *brief),
        brief_at=1,
        briefly=say("cautions in full"),
    )


def _stop_words(stop: Stop) -> str:
    step = shortened(stop.step.title)
    return say("The guide ends before “{step}”: from there on it is for licensed practice only.", step=step)


def _unfilmed(survey: Survey, steps: Sequence[Step]) -> tuple[str, ...]:
    missing = watching(survey.guide, steps).unfilmed
    if not missing:
        return ()
    numbers = {step.id: str(number) for number, step in enumerate(steps, 1)}
    named = " / ".join(shortened(title_of(step, numbers[step.id])) for step in missing)
    return (say("Not in the film, only in the guide: {steps}", steps=named),)


def _ways(survey: Survey, *, is_brief: bool = False) -> tuple[str, ...]:
    """A line a part: what to watch, and, unless it has to be brief, its spare and its page."""
    return tuple(f"- {', '.join(word for word in _way(survey, part, is_brief) if word)}" for part in survey.pages)


def _way(survey: Survey, name: PartId, is_brief: bool) -> tuple[str, ...]:
    part = survey.guide.part(name)
    way = survey.ways[name]
    told = [shortened(part.name)]
    if isinstance(way, Route):
        seen = watching(survey.guide, up_to_stop(survey.guide, way.steps)[0])
        told[0] = f"{told[0]}: {', '.join(times_of(each) for each in seen.parts) or say('not in the film')}"
        told += [say("and more in the guide")] if seen.parts and seen.unfilmed else []
    else:
        told[0] = f"{told[0]}: {say('no way in this guide')}"
    address = canonical_address(survey.library.address, f"{survey.guide.id}/{route_page(name)}")
    return tuple(told) if is_brief else (*told, _spare(part), address or "")


def _things(accounts: Accounts) -> tuple[Passage, ...]:
    tools = tuple(f"- {shortened(use.tool.name)}" for use in accounts.tools)
    supplies = tuple(f"- {shortened(use.supply.name)}" for use in accounts.supplies)
    return (
        Passage(say("Tools"), tools, say("tools"), rank=3),
        Passage(say("Supplies"), supplies, say("supplies"), rank=4),
    )


def _title(survey: Survey, part: Part) -> str:
    return say("{device}: the way to the {part}", device=shortened(survey.guide.device.name), part=shortened(part.name))


def _spare(part: Part) -> str:
    """What is known of the spare; empty where nothing is."""
    told = [word for word in (part.spare_number, part.spare_price) if word]
    return say("spare {spare}", spare=shortened(", ".join(told))) if told else ""


def _foot(survey: Survey) -> Passage:
    library = survey.library
    lines = []
    if library.author:
        lines.append(say("Written by {author}", author=shortened(library.author)))
    if library.licence:
        lines.append(say("Licence: {licence}", licence=shortened(library.licence)))
    return Passage("", tuple(lines))
