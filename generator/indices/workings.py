"""What a published index comes to, with its workings: every number opens onto the lines it was made from.

Laid out for a page: criterion, its weight, its range on the line from least to most, its product; then the sum on the line
of classes. A number that is not settled is a range, never a guess: `Fact` is one thing that a guide does not tell.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from generator.anatomy.parts import PartId
from generator.orders.work import StepId

Points = int | Decimal


@dataclass(frozen=True, slots=True)
class Basis:
    """What a rule rests on: the clause, where it was read, and how well it is known.

    tag: `verified` (the act was read), `secondary` (another public text quotes or applies it), `memory` (recalled only),
    `recommended` (our reading where the act is silent or unread).
    """

    act: str
    clause: str
    says: str
    source: str
    tag: str


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing not known, with the points it may be worth, fewest first; one fact may stand behind several cells."""

    key: str
    words: str
    points: tuple[Points, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a working. amounts: the steps or points it may be worth, fewest first; is_counted: enters its cell."""

    words: str
    amounts: tuple[int, ...]
    basis: Basis
    is_counted: bool = True
    step: StepId | None = None


@dataclass(frozen=True, slots=True)
class Beside:
    """A second figure that does not enter the sum: the same cell counted another way."""

    words: str
    low: Points
    high: Points


@dataclass(frozen=True)
class Cell:
    """The points of one part in one criterion (or of the device, for what is declared): min(ceiling, facts).

    weight is the part's weight in its criterion, share its weight in the whole index; None where the act's is not known.
    steps: for depth, the step counts that are possible. outside: why the act's tables have no row for it; such a cell is
    taken at its best case, the least points there are. part: the part in the guide, or None.
    """

    criterion: str
    code: str
    name: str
    weight: Decimal | None
    share: Decimal | None
    ceiling: Points
    facts: tuple[Fact, ...] = ()
    lines: tuple[Line, ...] = ()
    steps: tuple[int, ...] = ()
    outside: tuple[str, ...] = ()
    beside: tuple[Beside, ...] = ()
    notes: tuple[str, ...] = ()
    part: PartId | None = None

    @property
    def low(self) -> Points:
        return min((self.ceiling, *(fact.points[0] for fact in self.facts)))

    @property
    def high(self) -> Points:
        return min((self.ceiling, *(fact.points[-1] for fact in self.facts)))


@dataclass(frozen=True)
class Criterion:
    """One criterion: weight in the index, the range of its score; None where the act's weights are not known."""

    code: str
    name: str
    weight: Decimal | None
    cells: tuple[Cell, ...]
    basis: Basis
    low: Decimal | None
    high: Decimal | None

    @property
    def product(self) -> tuple[Decimal, Decimal] | None:
        if self.weight is None or self.low is None or self.high is None:
            return None
        return self.weight * self.low, self.weight * self.high


@dataclass(frozen=True, slots=True)
class Rung:
    """A class and where it begins; whether the bound itself belongs to it."""

    letter: str
    bound: Decimal
    holds_bound: bool


@dataclass(frozen=True, slots=True)
class Option:
    value: str
    words: str


@dataclass(frozen=True, slots=True)
class Question:
    """A place where the act can be read in more than one way; the first option is the one taken."""

    name: str
    asks: str
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class Chosen:
    question: Question
    option: Option


@dataclass(frozen=True, slots=True)
class Effect:
    """What the index would be under another reading, all else the same."""

    question: Question
    option: Option
    low: Decimal
    high: Decimal
    classes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Width:
    """How much the range of the index narrows when this fact alone gets known, the others at their best."""

    fact: Fact
    width: Decimal


@dataclass(frozen=True)
class Index:
    """A published index for one device: low to high is the exact range of the sum, classes are those really reachable.

    version: the text of the act whose rules these are; applies: from when. from_guide: what depth, fasteners and tools add.
    within_rounding_of: better classes that would be reached only if the sum were rounded to two decimals first.
    outside: why there is no sum at all; low and high then hold the best case for those cells. withheld: why no sum can be
    given for any device (the weights are not known); low and high are then None. are_classes_exact is False where so many
    unknown facts hang together that the classes between the ends were not all tried.
    """

    act: str
    name: str
    version: str
    applies: str
    statement: str
    scale: tuple[int, int]
    ladder: tuple[Rung, ...]
    criteria: tuple[Criterion, ...]
    low: Decimal | None
    high: Decimal | None
    from_guide: tuple[Decimal, Decimal] | None
    classes: tuple[str, ...]
    within_rounding_of: tuple[str, ...] = ()
    are_classes_exact: bool = True
    outside: tuple[str, ...] = ()
    widths: tuple[Width, ...] = ()
    chosen: tuple[Chosen, ...] = ()
    effects: tuple[Effect, ...] = ()
    withheld: str | None = None
    notes: tuple[str, ...] = ()
    bases: tuple[Basis, ...] = ()

    @property
    def cells(self) -> tuple[Cell, ...]:
        return tuple(cell for criterion in self.criteria for cell in criterion.cells)

    def criterion_name(self, code: str) -> str:
        """The name of a criterion of this act. StopIteration for a code it does not have."""
        return next(criterion.name for criterion in self.criteria if criterion.code == code)


def facts_of(cells: Iterable[Cell]) -> tuple[Fact, ...]:
    """Every unknown fact once, in the order of the cells."""
    return tuple({fact.key: fact for cell in cells for fact in cell.facts}.values())
