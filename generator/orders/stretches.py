"""Stretches of the film: where each step is shown, what of it a run of steps needs, and what can be skipped."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from generator.orders.guide import Guide
from generator.orders.work import Step, StepId

PAUSE = 10
"""Seconds between two stretches up to which a jump is not worth it: the least that players let a chapter last."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of the film in seconds and the steps it shows; end is None where nothing tells it."""

    start: int
    end: int | None
    steps: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class Watching:
    """What of the film a run of steps needs.

    parts: in the order of the work, so that they may lead back and forth; skips: in the order of the film, with the steps
    of the guide that are shown there; unfilmed: steps of the run that the film does not show.
    """

    parts: tuple[Stretch, ...]
    skips: tuple[Stretch, ...]
    unfilmed: tuple[Step, ...]


def shots_of(guide: Guide) -> Mapping[StepId, Stretch]:
    """Where the film shows each step of the order and the alternatives, in the order of the film.

    A stretch without an end lasts until the next step begins, or until the film ends. What is said to lie beyond the end of
    the film is not in it. Kept with the guide, since every way asks for it.
    """
    if ("shots",) not in guide.answers:
        guide.answers["shots",] = _shots_of(guide)
    found: Mapping[StepId, Stretch] = guide.answers["shots",]
    return found


def _shots_of(guide: Guide) -> Mapping[StepId, Stretch]:
    length = guide.device.film_length
    begun = sorted(
        ((step.film[0], place, step) for place, step in enumerate(guide.steps) if step.film is not None),
        key=lambda each: each[:2],
    )
    begun = [each for each in begun if length is None or each[0] < length]
    starts = [start for start, _, _ in begun]
    return {step.id: Stretch(start, _end(step, start, starts, length), (step,)) for start, _, step in begun}


def watching(guide: Guide, steps: Sequence[Step]) -> Watching:
    """What of the film to watch for `steps`, which are some of the guide's in the order they are done.

    Cost: n log n in the steps of the guide.
    """
    shots = shots_of(guide)
    wanted = {step.id for step in steps}
    others = _Others(tuple(shot for name, shot in shots.items() if name not in wanted))
    parts: list[Stretch] = []
    for step in steps:
        shot = shots.get(step.id)
        if shot is None:
            continue
        shot = Stretch(shot.start, shot.end, (step,))
        if parts and _runs_on(parts[-1], shot, others):
            parts[-1] = _joined(parts[-1], shot)
        else:
            parts.append(shot)
    skips = _between(parts, others, _last_second(guide, shots.values())) if parts else ()
    return Watching(tuple(parts), skips, tuple(step for step in steps if step.id not in shots))


class _Others:
    """Stretches in the order of the film, asked for what begins between two seconds of it."""

    def __init__(self, shots: Sequence[Stretch]) -> None:
        self.shots = shots
        self.starts = [shot.start for shot in shots]

    def begun_from(self, start: int, end: int | None) -> Sequence[Stretch]:
        last = len(self.shots) if end is None else bisect_left(self.starts, end)
        return self.shots[bisect_left(self.starts, start) : last]


def _end(step: Step, start: int, starts: Sequence[int], length: int | None) -> int | None:
    written = step.film[1] if step.film is not None else None
    if written is not None and written > start:
        return written if length is None else min(written, length)
    after = bisect_right(starts, start)
    return starts[after] if after < len(starts) else length


def _runs_on(before: Stretch, after: Stretch, others: _Others) -> bool:
    """Whether `after` can be watched without a jump: it begins soon, and nothing of another step lies between."""
    if before.end is None:
        return False
    is_near = before.start <= after.start <= before.end + PAUSE
    return is_near and not others.begun_from(before.end, after.start)


def _joined(before: Stretch, after: Stretch) -> Stretch:
    end = None if before.end is None or after.end is None else max(before.end, after.end)
    return Stretch(before.start, end, before.steps + after.steps)


def _between(parts: Iterable[Stretch], others: _Others, last: int | None) -> tuple[Stretch, ...]:
    """What lies outside `parts`, if it is long enough to be worth skipping."""
    gaps: list[tuple[int, int | None]] = []
    reached: int | None = 0
    for part in sorted(parts, key=lambda part: part.start):
        if reached is None:
            break
        if part.start - reached >= PAUSE:
            gaps.append((reached, part.start))
        reached = None if part.end is None else max(reached, part.end)
    if reached is not None and (last is None or last - reached >= PAUSE):
        gaps.append((reached, last))
    return tuple(
        Stretch(start, end, tuple(step for shot in others.begun_from(start, end) for step in shot.steps))
        for start, end in gaps
    )


def _last_second(guide: Guide, shots: Iterable[Stretch]) -> int | None:
    """Where the film ends; None where that is not told and neither where its last step ends."""
    if guide.device.film_length is not None:
        return guide.device.film_length
    ends = [shot.end for shot in shots]
    return None if None in ends else max((end for end in ends if end is not None), default=None)
