"""How much of what a person reads out of captions `partway draft` does too, as a table: `python -m tests.bench.draft`.

The films, the speakers and the devices in `tests/data/captions` are invented, and so is what they say; the answers beside
them were written by hand before the program was. `tuned` were looked at while the lexicon grew, `aside` were not. Precision
is the share of what was drafted that a person drafted too; recall the share of what the person drafted that was found.

An action counts as found where its verb is right, the part it is done to (or the kind of joint and a part that it holds) is
right, and its words are spoken within `NEAR` seconds of the answer's.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

import yaml

from generator.draft.assembling import draft_of
from generator.draft.captions import read_captions
from generator.draft.decoding import decode
from generator.draft.lexicon import lexicon, likeliest
from generator.draft.records import Draft, DraftAction, DraftJoint

CAPTIONS = Path(__file__).parents[1] / "data" / "captions"
KEPT_ASIDE, TUNED = "aside", "tuned"
NEAR = 6.0  # s
MEASURED = ("actions", "cuts", "parts", "joints", "counts", "times", "tools", "fronts")

A = TypeVar("A")
B = TypeVar("B")


@dataclass(frozen=True)
class Tally:
    """found: what is in both; drafted, wanted: how many there are on each side."""

    found: int
    drafted: int
    wanted: int

    @property
    def precision(self) -> float:
        return self.found / self.drafted if self.drafted else 1.0

    @property
    def recall(self) -> float:
        return self.found / self.wanted if self.wanted else 1.0

    def __add__(self, other: Tally) -> Tally:
        return Tally(self.found + other.found, self.drafted + other.drafted, self.wanted + other.wanted)


@dataclass(frozen=True)
class Wanted:
    """One action of an answer file."""

    verb: str
    of: tuple[str, ...]
    kind: str
    at: float
    count: int | None
    lasts: str
    tool: tuple[str, ...]


def files(folder: str) -> list[Path]:
    """The captions of a folder, in the order of their names."""
    return sorted(path for path in (CAPTIONS / folder).iterdir() if path.suffix in (".vtt", ".srt", ".txt"))


def drafted(path: Path) -> Draft:
    captions = read_captions(decode(path.read_bytes()).text)
    language = likeliest((word.norm for word in captions.words), captions.language)
    return draft_of(captions, lexicon(language))


def measured(path: Path) -> dict[str, Tally]:
    """Every measure of one file."""
    draft = drafted(path)
    answer: dict[str, Any] = yaml.safe_load(path.with_suffix(".yaml").read_text("utf-8"))
    wanted_steps = [[_wanted(each) for each in step] for step in answer["steps"]]
    wanted = [each for step in wanted_steps for each in step]
    joints = {joint.id: joint for joint in draft.joints}
    actions = [action for step in draft.steps for action in step.actions]
    pairs = _pairs(wanted, actions, lambda want, action: _is_found(want, action, joints))
    tallies = {"actions": Tally(len(pairs), len(actions), len(wanted))}
    tallies["cuts"] = _cuts(wanted_steps, draft, pairs)
    acted = {action.target for action in actions if action.verb in ("lift", "fold")} | {
        end for joint in draft.joints for end in joint.joins
    }
    parts = [part.id for part in draft.parts if part.id in acted and not part.is_stand_in]
    answered = [tuple(names.split("|")) for names in answer["parts"]]
    tallies["parts"] = Tally(len(_pairs(answered, parts, _is_named)), len(parts), len(answered))
    wanted_joints = list({(each.kind, each.of): each for each in wanted if each.kind}.values())
    same_joint = _pairs(wanted_joints, draft.joints, lambda want, joint: _is_joint(want, joint))
    tallies["joints"] = Tally(len(same_joint), len(draft.joints), len(wanted_joints))
    told = {id(joint): want for want, joint in same_joint}
    counted = [joint for joint in draft.joints if joint.count is not None]
    right = sum(id(joint) in told and told[id(joint)].count == joint.count for joint in counted)
    tallies["counts"] = Tally(right, len(counted), sum(each.count is not None for each in wanted_joints))
    lasting = [(_lasting(action), action.said.at) for action in actions if _lasting(action)]
    times = [each for each in wanted if each.lasts]
    same_time = _pairs(
        times, lasting, lambda want, each: _seconds(want.lasts) == _seconds(each[0]) and abs(want.at - each[1]) <= 2 * NEAR
    )
    tallies["times"] = Tally(len(same_time), len(lasting), len(times))
    tallies["tools"] = _tools(pairs, wanted, actions, joints)
    fronts = [(thing, over) for part in draft.parts for thing, over in ((part.id, each) for each, _ in part.under)]
    fronts += [(joint.joins[0], over) for joint in draft.joints for over, _ in joint.behind]
    asked = [tuple(tuple(side.split("|")) for side in pair) for pair in answer["asides"]]
    same = _pairs(
        asked, fronts, lambda want, front: all(_is_named(names, id) for names, id in zip(want, front, strict=True))
    )
    tallies["fronts"] = Tally(len(same), len(fronts), len(asked))
    return tallies


def total(tallies: Iterable[dict[str, Tally]]) -> dict[str, Tally]:
    """The sums over several files."""
    found = {name: Tally(0, 0, 0) for name in MEASURED}
    for each in tallies:
        found = {name: found[name] + each[name] for name in MEASURED}
    return found


def table() -> str:
    """Precision and recall in per cent, a line a file, with the sums of each folder."""
    width = max(len(path.stem) for folder in (TUNED, KEPT_ASIDE) for path in files(folder)) + 2
    lines = [" " * width + "".join(f"{name:>12}" for name in MEASURED)]
    for folder in (TUNED, KEPT_ASIDE):
        tallies = {path: measured(path) for path in files(folder)}
        rows = [(path.stem, each) for path, each in tallies.items()]
        rows.append((f"all {folder}", total(tallies.values())))
        for name, each in rows:
            cells = (f"{100 * tally.precision:.0f}/{100 * tally.recall:.0f}" for tally in (each[key] for key in MEASURED))
            lines.append(f"{name:<{width}}" + "".join(f"{cell:>12}" for cell in cells))
        lines.append("")
    return "\n".join([*lines, "precision/recall in per cent; actions are held to verb, thing and time"])


def _wanted(line: dict[str, Any]) -> Wanted:
    verb = next(key for key in line if key in ("undo", "lift", "fold", "turn", "heat", "soak", "wait", "check"))
    has_joint = verb in ("undo", "heat", "soak")
    of = str(line.get("of", "?")) if has_joint else str(line[verb])
    kind = {"any": "*"}.get(line[verb], str(line[verb])) if has_joint else ""
    minutes, seconds = str(line["at"]).split(":")
    lasts = str(line[verb]) if verb == "wait" else str(line.get("for", ""))
    tool = tuple(str(line["tool"]).lower().split("|")) if "tool" in line else ()
    return Wanted(
        verb,
        tuple(of.split("|")),
        kind,
        int(minutes) * 60 + int(seconds),
        line.get("count") if has_joint else None,
        lasts,
        tool,
    )


def _pairs(wanted: Sequence[A], drafted: Iterable[B], fits: Callable[[A, B], bool]) -> list[tuple[A, B]]:
    """Each wanted thing with the first drafted one that fits it and is not taken."""
    free = list(drafted)
    found: list[tuple[A, B]] = []
    for want in wanted:
        for index, each in enumerate(free):
            if fits(want, each):
                found.append((want, free.pop(index)))
                break
    return found


def _is_found(want: Wanted, action: DraftAction, joints: dict[str, DraftJoint]) -> bool:
    if want.verb != action.verb or abs(want.at - action.said.at) > NEAR:
        return False
    if want.kind:
        return action.target in joints and _is_joint(want, joints[action.target])
    if want.verb in ("lift", "fold"):
        return _is_named(want.of, action.target)
    return want.verb != "check" or want.of != ("unplugged",) or action.proves == "unplugged"


def _is_joint(want: Wanted, joint: DraftJoint) -> bool:
    return want.kind in ("*", joint.kind) and (want.of == ("?",) or any(_is_named(want.of, end) for end in joint.joins))


def _is_named(names: Sequence[str], id: str) -> bool:
    return any(re.sub("s$", "", name) == re.sub("s$", "", id) for name in names)


def _cuts(wanted: Sequence[Sequence[Wanted]], draft: Draft, pairs: Sequence[tuple[Wanted, DraftAction]]) -> Tally:
    """Whether neighbours are in one step or in two: judged for the actions that were found, by where a step begins."""
    opening = {id(step[0]) for step in wanted}
    starts = {id(step.actions[0]) for step in draft.steps}
    both = sum(id(want) in opening and id(action) in starts for want, action in pairs)
    return Tally(both, sum(id(action) in starts for _, action in pairs), sum(id(want) in opening for want, _ in pairs))


def _lasting(action: DraftAction) -> str:
    return action.target if action.verb == "wait" else action.lasts


def _seconds(written: str) -> float:
    amount, unit = written.split()
    return float(amount.split("-")[0]) * {"s": 1, "min": 60, "h": 3600}[unit]


def _tools(
    pairs: Sequence[tuple[Wanted, DraftAction]],
    wanted: Sequence[Wanted],
    actions: Sequence[DraftAction],
    joints: dict[str, DraftJoint],
) -> Tally:
    def of(action: DraftAction) -> set[str]:
        drive = joints[action.target].drive if action.target in joints else None
        return {*action.tools, *(word.lower() for word in drive or () if word)}

    found = sum(
        bool(want.tool)
        and any(name in of(action) or name == re.sub("^.*-", "", tool) for name in want.tool for tool in {"", *of(action)})
        for want, action in pairs
    )
    return Tally(found, sum(bool(of(action)) for action in actions), sum(bool(want.tool) for want in wanted))


if __name__ == "__main__":
    print(table())
