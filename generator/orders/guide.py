"""The guide: everything known about one device, bundled; and the library that holds the guides."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property
from typing import Any, TypeVar

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint
from generator.anatomy.parts import JointId, Part, PartId
from generator.anatomy.reading import Dangling, InsideItself
from generator.orders.reasons import Reason
from generator.orders.repair import NoOrder, Repair, repair_order
from generator.orders.rings import Ring, rings
from generator.orders.stepwise import Stepwise, stepwise
from generator.orders.walk import Unmet, Walk, causes, walk
from generator.orders.work import Action, Step, StepId, Supply, SupplyId, Tool, ToolId, Verb
from generator.source.faults import Fault
from generator.source.places import Place, Places
from generator.source.prose import Prose
from generator.source.reading import MediaFile
from generator.source.translations import Translation

R = TypeVar("R", bound=Reason)


@dataclass(frozen=True, slots=True)
class Change:
    """What changed in a guide, in the author's words; day as `2026-03-12`."""

    day: str
    words: str


@dataclass(frozen=True, slots=True)
class Device:
    """Identity of the thing: size in mm (width, height seen from the first face), film_length in seconds.

    film_at: how the film opens at a second, with `{address}` and `{seconds}` in it. changed: the last of the days as
    `2026-03-12`; changes: what changed when, as written; formerly: ids that the device had before.
    """

    name: str
    place: Place
    places: Places = field(repr=False, compare=False)
    kind: str = "other"
    maker: str | None = None
    about: str | None = None
    faces: tuple[str, ...] = ("front",)
    size: tuple[float, float] | None = None
    power: str = "none"
    film_address: str | None = None
    film_length: int | None = None
    film_at: str | None = None
    pages: tuple[PartId, ...] | None = None
    verdict: str | None = None
    verdict_author: str | None = None
    spare_parts: str | None = None
    update_years: int | None = None
    information: str | None = None
    paired: tuple[PartId, ...] = ()
    absent: tuple[str, ...] = ()
    changed: str | None = None
    changes: tuple[Change, ...] = ()
    formerly: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PartNote:
    """What was found out about a part at the bench."""

    part: PartId
    prose: Prose
    file: str


@dataclass(frozen=True)
class Guide:
    """One device with its anatomy, its steps and what follows from them.

    order: the steps as performed; alternatives: steps a route may use instead; unused: step files named in neither.
    is_complete: nothing had to be left out for a fault, so that orders may be judged. Only what could be read is in here;
    names that point nowhere are in `dangling`, faults of reading in `faults`, steps named a second time in `named_twice`.
    words: what the author's free words are called in the language of the guide, where that is a translation. language: the
    original's, where this is a translation, and empty where it is the original; foreign: what is shown in the original for
    want of a translation, as `step:<id>`, `note:<part>`, `about` and `verdict`. translations: every one that was read.
    """

    id: str
    device: Device
    anatomy: Anatomy
    order: tuple[Step, ...]
    alternatives: tuple[Step, ...] = ()
    unused: tuple[Step, ...] = ()
    tools: Mapping[ToolId, Tool] = field(default_factory=dict)
    supplies: Mapping[SupplyId, Supply] = field(default_factory=dict)
    notes: tuple[PartNote, ...] = ()
    media: tuple[MediaFile, ...] = ()
    faults: tuple[Fault, ...] = ()
    dangling: tuple[Dangling, ...] = ()
    inside_itself: tuple[InsideItself, ...] = ()
    is_complete: bool = True
    order_places: tuple[tuple[StepId, Place], ...] = ()
    named_twice: tuple[tuple[StepId, Place], ...] = ()
    words: Mapping[str, str] = field(default_factory=dict)
    language: str = ""
    foreign: frozenset[str] = frozenset()
    translations: tuple[Translation, ...] = ()

    # --- looking things up ---

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps a route may use: the order, then the alternatives."""
        return self.order + self.alternatives

    @cached_property
    def step_by_id(self) -> Mapping[StepId, Step]:
        return {step.id: step for step in (*self.order, *self.alternatives, *self.unused)}

    @cached_property
    def number_of(self) -> Mapping[StepId, int]:
        """The number of each step of the order, from 1."""
        return {step.id: number for number, step in enumerate(self.order, 1)}

    def part(self, part: PartId) -> Part:
        return self.anatomy.parts[part]

    def joint(self, joint: JointId) -> Joint:
        return self.anatomy.joints[joint]

    def word(self, word: str) -> str:
        """A word of the author's that stands in many places (a face, a material), in the language of this guide."""
        return self.words.get(word, word)

    def line_in_order(self, step: StepId) -> Place | None:
        """Where device.yaml names the step in its order (or alternatives)."""
        return self._line_of.get(step)

    @cached_property
    def _line_of(self) -> Mapping[StepId, Place]:
        return dict(reversed(self.order_places))

    def doing(self, verb: Verb, target: str) -> tuple[tuple[Step, Action], ...]:
        """Every action of the order and the alternatives that does `verb` to the joint or part named `target`."""
        return self._doing.get((verb, target), ())

    @cached_property
    def _doing(self) -> Mapping[tuple[Verb, str], tuple[tuple[Step, Action], ...]]:
        found: dict[tuple[Verb, str], list[tuple[Step, Action]]] = {}
        for step in self.steps:
            for action in step.actions:
                for target in {action.joint, action.part} - {None}:
                    found.setdefault((action.verb, str(target)), []).append((step, action))
        return {key: tuple(doing) for key, doing in found.items()}

    # --- tools ---

    def tools_of(self, action: Action) -> tuple[ToolId, ...]:
        """What is taken up for an action: what the author wrote, else what the joint names, else the tool that fits.

        Empty means bare hands (or, for a joint that needs a tool, that nothing listed fits).
        """
        if action.tools or action.verb is not Verb.UNDO or action.joint is None:
            return action.tools
        joint = self.joint(action.joint)
        hinted = tuple(ToolId(tool) for tool in joint.tools if tool in self.tools)
        if hinted:
            return hinted
        fitting = next((tool.id for tool in self.tools.values() if joint.needs_tool and fits(tool, joint)), None)
        return (fitting,) if fitting else ()

    def supplies_for(self, joint: JointId) -> tuple[Supply, ...]:
        """What is laid in when the joint is made again."""
        return tuple(supply for supply in self.supplies.values() if joint in supply.joints)

    # --- orders ---

    @cached_property
    def walk(self) -> Walk:
        return walk(self.anatomy, self.device.faces, self.device.power, self.order, self.alternatives)

    @cached_property
    def stepwise(self) -> Stepwise:
        return stepwise(self.steps, self.walk.clauses)

    @cached_property
    def answers(self) -> dict[tuple[object, ...], Any]:
        """What was worked out about this guide and costs more than to look it up: by what was asked, kept with it."""
        return {}

    @cached_property
    def rings(self) -> tuple[Ring, ...]:
        return rings(self.stepwise)

    @cached_property
    def repair(self) -> Repair | NoOrder:
        """The fewest steps of the order to move that make it possible; worked out when first asked for."""
        return repair_order(self)

    @cached_property
    def causes(self) -> tuple[Unmet, ...]:
        """Unmet clauses of the author's order, one a cause, without those that a ring explains."""
        return causes([entry for entry in self.walk.unmet if not self._in_ring(entry)])

    def unmet(self, reason: type[R]) -> Iterator[tuple[Unmet, R]]:
        """The causes of one kind, each with its reason."""
        for entry in self.causes:
            if isinstance(entry.reason, reason):
                yield entry, entry.reason

    def _in_ring(self, entry: Unmet) -> bool:
        waiting = {action.step for action in (*entry.late, *entry.elsewhere)}
        return any(entry.action.step in ring and bool(waiting & ring) for ring in self._ids_in_rings)

    @cached_property
    def _ids_in_rings(self) -> tuple[frozenset[StepId], ...]:
        return tuple(frozenset(self.stepwise.steps[number].id for number in ring.steps) for ring in self.rings)


@dataclass(frozen=True, slots=True)
class Library:
    """All guides of a content folder, with what they share. spoken, foreign, words: as with `Guide`, in a translation."""

    title: str
    guides: tuple[Guide, ...]
    texts: Mapping[str, tuple[str, ...]] = field(default_factory=dict, repr=False)
    author: str | None = None
    about: str | None = None
    address: str | None = None
    languages: tuple[str, ...] = ("en",)
    licence: str | None = None
    sources: str | None = None
    contribute: Prose | None = None
    asks_for_credits: bool = False
    tools: Mapping[ToolId, Tool] = field(default_factory=dict)
    supplies: Mapping[SupplyId, Supply] = field(default_factory=dict)
    faults: tuple[Fault, ...] = ()
    dangling: tuple[Dangling, ...] = ()
    words: Mapping[str, str] = field(default_factory=dict)
    spoken: str = ""
    foreign: frozenset[str] = frozenset()
    translations: tuple[Translation, ...] = ()

    @property
    def original(self) -> str:
        """The language in which the guides were written: the first."""
        return self.languages[0] if self.languages else "en"

    @property
    def language(self) -> str:
        """The language in which this library speaks: `spoken`, else that in which it was written."""
        return self.spoken or self.original

    @property
    def folder(self) -> str:
        """Where its pages stand in the site: the first language at the root, each other in a folder of its own."""
        return "" if self.language == self.original else f"{self.language}/"

    @property
    def folders(self) -> Mapping[str, str]:
        """The folder of each language."""
        return {tag: "" if tag == self.original else f"{tag}/" for tag in dict.fromkeys(self.languages or ("en",))}

    def word(self, word: str) -> str:
        """As `Guide.word`, for what the devices share."""
        return self.words.get(word, word)


def fits(tool: Tool, joint: Joint) -> bool:
    """Whether the tool is made for the joint: its drive and size for screws, its kind for all others."""
    if joint.kind.value in tool.undoes:
        return True
    return joint.drive is not None and any(
        shape == joint.drive.shape and (size is None or joint.drive.size is None or size == joint.drive.size)
        for shape, size in tool.fits
    )


def minutes(seconds: int) -> Decimal:
    """Seconds as minutes, to the tenth, half up.

    >>> minutes(45), minutes(1890)
    (Decimal('0.8'), Decimal('31.5'))
    """
    return (Decimal(seconds) / 60).quantize(Decimal("0.1"), rounding="ROUND_HALF_UP")

