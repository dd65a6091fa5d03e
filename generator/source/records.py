"""The authored format, one model a file: every key an author may write, and nothing else.

The models hold what was written, with units read into numbers (mm, s, °C, N·m) and texts kept as texts. They say nothing
about meaning: whether a part exists is asked in `anatomy` and `orders`.
"""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal, Self

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag, model_validator
from pydantic_core import PydanticCustomError

from generator.source.values import (
    Box,
    Closer,
    Date,
    Duration,
    Exact,
    FilmLength,
    FilmSpan,
    Id,
    Language,
    Line,
    Measure,
    OneOrMany,
    Point,
    Positive,
    Reason,
    RelativePath,
    SecondsAddress,
    Size,
    SourcesAddress,
    Spot,
    Temperature,
    TemperatureOrPoints,
    Torque,
    Wait,
    WebAddress,
    Years,
)


class Record(BaseModel):
    """Shared settings: nothing unknown, nothing converted behind the author's back, nothing changed later.

    noun: what a message calls one such record.
    """

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, allow_inf_nan=False)
    noun: ClassVar[str] = "entry"


# --- library.yaml, tools.yaml, supplies.yaml -----------------------------------------------------------------


class LibraryRecord(Record):
    noun: ClassVar[str] = "library"

    title: Line
    author: Line | None = None
    about: Line | None = None
    address: WebAddress | None = None
    languages: list[Language] = ["en"]
    licence: Line | None = None
    sources: SourcesAddress | None = None  # a web address with {path} in it, and {line} where it can lead to a line
    credits: Literal["required", "optional"] = "optional"  # whether every photo has to say who made it


class FitsRecord(Record):
    noun: ClassVar[str] = "fit"

    drive: Line | None = None
    size: Line | None = None
    kind: Literal["screws", "plug", "glue", "clips", "solder", "press"] | None = None


class ToolRecord(Record):
    noun: ClassVar[str] = "tool"

    name: Line
    type: Line = "other"
    fits: OneOrMany[FitsRecord] = []
    supplied: Literal["spare", "product", "neither"] = "neither"
    sale: Literal["public", "proprietary"] = "public"
    material: Line | None = None
    hazards: OneOrMany[Line] = []
    note: Line | None = None


class SupplyRecord(Record):
    noun: ClassVar[str] = "supply"

    name: Line
    for_: Annotated[OneOrMany[Id], Field(alias="for")] = []
    hazards: OneOrMany[Line] = []
    dwell: Duration | None = None
    note: Line | None = None


# --- device.yaml -----------------------------------------------------------------------------------------------


class VideoRecord(Record):
    noun: ClassVar[str] = "video"

    address: WebAddress
    length: FilmLength | None = None
    at: SecondsAddress | None = None  # how the film opens at a second; a media fragment (#t=42) where it is not told


class VerdictRecord(Record):
    noun: ClassVar[str] = "verdict"

    text: Line
    author: Line | None = None


class ChangeRecord(Record):
    """A change that a reader would want to know of, and its day."""

    noun: ClassVar[str] = "change"

    on: Date
    what: Line


class IndexRecord(Record):
    noun: ClassVar[str] = "index"

    spare_parts: Line | None = None
    updates: Years | None = None
    information: Line | None = None
    paired: list[Id] = []
    absent: list[Line] = []  # priority parts the device does not have, by the names of their roles


DateOrChanges = Annotated[
    Annotated[Date, Tag("day")] | Annotated[list[ChangeRecord], Field(min_length=1), Tag("changes")],
    Discriminator(lambda value: "changes" if isinstance(value, list) else "day"),
]


class DeviceRecord(Record):
    noun: ClassVar[str] = "device"

    name: Line
    kind: Literal["phone", "foldable phone", "tablet", "other"] = "other"
    maker: Line | None = None
    about: Line | None = None
    faces: list[Id] = Field(default=["front"], min_length=1)
    size: Size | None = None
    power: Literal["cell", "mains", "both", "none"] = "none"
    video: VideoRecord | None = None
    order: list[Id] = []
    alternatives: list[Id] = []
    pages: list[Id] | None = None
    verdict: VerdictRecord | None = None
    index: IndexRecord | None = None
    changed: DateOrChanges | None = None  # the day on which a reader would want to look again, or what changed when
    formerly: OneOrMany[Id] = []  # names the folder had; its old addresses lead on


# --- anatomy.yaml ----------------------------------------------------------------------------------------------


class CellRecord(Record):
    noun: ClassVar[str] = "cell"

    chemistry: Line
    volts: Exact | None = None
    watt_hours: Annotated[Exact | None, Field(alias="watt-hours")] = None
    limit: Temperature | None = None  # the warmest the cell may get at the bench; 60 °C where not given


class ChargeRecord(Record):
    noun: ClassVar[str] = "charge"

    volts: Exact
    microfarads: Exact | None = None


class SpareRecord(Record):
    noun: ClassVar[str] = "spare"

    number: Line | None = None
    price: Line | None = None


class PartMarkRecord(Record):
    noun: ClassVar[str] = "mark"

    coil: Point | None = None
    lens: Point | None = None
    chip: Box | None = None
    across: Positive | None = None  # of a coil or a lens

    @model_validator(mode="after")
    def _has_one_shape(self) -> Self:
        shapes = [shape for shape in ("coil", "lens", "chip") if getattr(self, shape) is not None]
        if len(shapes) != 1:
            raise _refuse("one shape: coil, lens or chip", *shapes[1:2])
        if (self.across is None) != (shapes == ["chip"]):
            raise _refuse("`across` beside a coil or a lens, and nothing but the box of a chip")
        return self


class PartRecord(Record):
    noun: ClassVar[str] = "part"

    name: Line | None = None  # default: the id with spaces
    box: Box | None = None
    thickness: Positive | None = None
    depth: Measure | None = None
    corner: Measure | None = None
    outline: list[Point] | None = None
    holes: list[Box] = []
    face: Id | None = None
    material: Line | None = None  # `board` marks a circuit board
    role: Line | None = None
    replaceable: bool = False
    spare: SpareRecord | None = None
    inside: Id | None = None
    under: OneOrMany[Id] = []
    cell: CellRecord | None = None
    charge: ChargeRecord | None = None
    formerly: OneOrMany[Id] = []
    licensed: Reason | None = None  # why only licensed practice may work on it
    hazards: OneOrMany[Line] = []
    marks: list[PartMarkRecord] = []


class JointRecord(Record):
    noun: ClassVar[str] = "joint"

    kind: Literal["screws", "plug", "glue", "clips", "solder", "press"]
    name: Line | None = None  # default: the id with spaces
    joins: list[Id] = Field(min_length=2)
    behind: OneOrMany[Id] = []
    face: Id | None = None
    drive: Line | None = None
    head: Line | None = None
    thread: Line | None = None
    lengths: OneOrMany[Positive] = []
    count: Annotated[int, Field(ge=1, le=500)] | None = None
    softens: Literal["heat", "solvent"] | None = None
    at: TemperatureOrPoints | None = None
    run: list[Point] | None = None  # the line of a bead of glue
    torque: Torque | None = None
    refit: Literal["same", "new"] = "same"
    reusable: Literal["yes", "supplied with spare", "no"] | None = None
    tool: OneOrMany[Id] = []
    note: Line | None = None


class AnatomyRecord(Record):
    noun: ClassVar[str] = "anatomy"

    base: Id
    parts: dict[Id, PartRecord]
    joints: dict[Id, JointRecord] = {}


# --- steps/<id>.md -----------------------------------------------------------------------------------------------


VERBS = ("undo", "lift", "fold", "turn", "heat", "soak", "wait", "check")


class ActionRecord(Record):
    """One line of work: exactly one verb, then what it is done with."""

    noun: ClassVar[str] = "action"

    undo: Id | None = None
    lift: Id | None = None
    fold: Id | None = None
    turn: Id | None = None
    heat: Id | None = None
    soak: Id | None = None
    wait: Wait | None = None
    check: Line | None = None
    with_: Annotated[OneOrMany[Id], Field(alias="with")] = []
    supply: OneOrMany[Id] = []
    for_: Annotated[Duration | None, Field(alias="for")] = None
    to: Temperature | None = None  # of `heat`
    proves: Literal["unplugged", "discharged"] | None = None  # of `check`
    of: Id | None = None  # the part that `proves: discharged` is about

    @model_validator(mode="after")
    def _has_one_verb(self) -> Self:
        verbs = [verb for verb in VERBS if getattr(self, verb) is not None]
        if not verbs:
            raise _refuse(f"one verb: {_listed(VERBS)}")
        if len(verbs) > 1:
            raise _refuse(f"one verb an action ({_listed(VERBS)}); this one has {_listed(verbs, 'and')}", verbs[1])
        return self

    @model_validator(mode="after")
    def _has_only_what_its_verb_takes(self) -> Self:
        for key, needs in (("to", "heat"), ("proves", "check"), ("of", "proves")):
            if getattr(self, key) is not None and getattr(self, needs) is None:
                raise _refuse(f"`{key}` only beside `{needs}`", key)
        return self

    @model_validator(mode="after")
    def _says_what_is_discharged(self) -> Self:
        if self.proves == "discharged" and self.of is None:
            raise _refuse("`of` beside `proves: discharged`, with the part whose charge was measured", "proves")
        if self.proves == "unplugged" and self.of is not None:
            raise _refuse("`of` only beside `proves: discharged`", "of")
        return self


class PhotoMarkRecord(Record):
    noun: ClassVar[str] = "mark"

    at: Spot  # shares of the photo's width and height
    joint: Id | None = None
    part: Id | None = None
    text: Line | None = None


class PhotoRecord(Record):
    noun: ClassVar[str] = "photo"

    file: RelativePath
    alt: Line | None = None
    credit: Line | None = None
    licence: Line | None = None
    focus: Spot | None = None  # the point that matters: the photo is cut to the page's frame round it
    closer: Closer | None = None  # how many times nearer than the frame has to be
    when: Literal["before", "after"] | None = None  # one of a pair: two photos, one below the other in the list
    marks: list[PhotoMarkRecord] = []

    @model_validator(mode="after")
    def _is_closer_to_something(self) -> Self:
        if self.closer is not None and self.focus is None:
            raise _refuse("`closer` only beside `focus`", "closer")
        return self


class CautionRecord(Record):
    noun: ClassVar[str] = "caution"

    level: Literal["danger", "warning", "caution", "notice"]
    text: Line


class StepRecord(Record):
    noun: ClassVar[str] = "step"

    title: Line
    video: FilmSpan | None = None
    filmed: bool = False  # on film already: a repair of the order leaves the step where it is
    work: list[ActionRecord] = []
    photos: list[PhotoRecord] = []
    takes: Duration | None = None
    formerly: OneOrMany[Id] = []
    cautions: list[CautionRecord] = []


def _listed(words: list[str] | tuple[str, ...], last: str = "or") -> str:
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def _refuse(wanted: str, key: str = "") -> PydanticCustomError:
    """The error of a record that makes no sense as a whole; key: the one to point at, if it is one key's doing."""
    return PydanticCustomError("kind", "not what belongs here", {"wanted": wanted, "reason": "", "key": key})


# --- the same in another language: device.de.yaml, anatomy.de.yaml, steps/<id>.de.md and so on -------------------------


class LibraryWordsRecord(Record):
    """`library.<language>.yaml`: words only, as in all records below; what is left out is shown in the first language."""

    noun: ClassVar[str] = "library"

    title: Line | None = None
    about: Line | None = None
    words: dict[str, Line] = {}  # the author's free words (a material, a type of tool), as written and as called


class NamedWordsRecord(Record):
    """An entry of `tools.<language>.yaml` or `supplies.<language>.yaml`, by its id."""

    noun: ClassVar[str] = "entry"

    name: Line | None = None
    note: Line | None = None


class DeviceWordsRecord(Record):
    noun: ClassVar[str] = "device"

    name: Line | None = None
    about: Line | None = None
    verdict: Line | None = None
    changed: list[Line] = []  # what changed, in the order of the original
    words: dict[str, Line] = {}  # the author's free words (a face, a material), as written and as called


class PartWordsRecord(Record):
    noun: ClassVar[str] = "part"

    name: Line | None = None
    licensed: Reason | None = None


class JointWordsRecord(Record):
    noun: ClassVar[str] = "joint"

    name: Line | None = None
    note: Line | None = None


class AnatomyWordsRecord(Record):
    noun: ClassVar[str] = "anatomy"

    parts: dict[Id, PartWordsRecord] = {}
    joints: dict[Id, JointWordsRecord] = {}


class PhotoWordsRecord(Record):
    noun: ClassVar[str] = "photo"

    alt: Line | None = None
    marks: list[Line] = []  # the texts of the marks that have one, in their order


class StepWordsRecord(Record):
    """`steps/<id>.<language>.md`: a title, the words of the work and of the cautions in their order, and the prose."""

    noun: ClassVar[str] = "step"

    title: Line | None = None
    cautions: list[Line] = []
    checks: list[Line] = []  # what stands beside `check`, in the order of the work
    photos: list[PhotoWordsRecord] = []
