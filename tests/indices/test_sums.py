"""Exact sums over what is not known, held to trying every settling of the unknown facts."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from generator.indices.sums import Term, highest, lowest, reachable, widths
from generator.indices.workings import Fact

POINTS = st.lists(st.integers(1, 5), min_size=1, max_size=5, unique=True).map(lambda points: tuple(sorted(points)))
SHARES = st.sampled_from([Decimal(share) for share in ("0.075", "0.045", "0.0125", "0.0075", "0.15", "0.006")])


@st.composite
def sums(draw: st.DrawFn) -> list[Term]:
    """Up to six cells over up to four unknown facts, some of them shared."""
    facts = [Fact(f"fact {number}", "", draw(POINTS)) for number in range(draw(st.integers(0, 4)))]
    choice = st.lists(st.sampled_from(facts), max_size=2, unique_by=lambda fact: fact.key) if facts else st.just([])
    return [
        Term(draw(SHARES), draw(st.integers(1, 5)), tuple(draw(choice))) for _ in range(draw(st.integers(1, 6)))
    ]  # fmt: skip


def every_sum(terms: Sequence[Term]) -> set[Decimal]:
    facts = list({fact.key: fact for term in terms for fact in term.facts}.values())
    found = set()
    for choice in product(*(fact.points for fact in facts)):
        settled = dict(zip((fact.key for fact in facts), choice, strict=True))
        worths = [term.share * min((term.ceiling, *(settled[fact.key] for fact in term.facts))) for term in terms]
        found.add(sum(worths, Decimal(0)))
    return found


@given(sums())
def test_ends_and_values_are_those_of_trying_everything(terms: list[Term]) -> None:
    found = every_sum(terms)
    assert (lowest(terms), highest(terms)) == (min(found), max(found))
    reach = reachable(terms)
    assert reach.is_exact and reach.values == found


@given(sums(), st.data())
def test_more_points_never_lower_the_sum(terms: list[Term], data: st.DataObject) -> None:
    number = data.draw(st.integers(0, len(terms) - 1))
    more = data.draw(st.integers(int(terms[number].ceiling), 5))
    raised = [*terms[:number], Term(terms[number].share, more, terms[number].facts), *terms[number + 1 :]]
    assert lowest(raised) >= lowest(terms) and highest(raised) >= highest(terms)


@given(sums())
def test_a_width_is_what_one_fact_alone_takes_from_the_best(terms: list[Term]) -> None:
    facts = {fact.key: fact for term in terms for fact in term.facts}
    found = widths(terms)
    assert [entry.width for entry in found] == sorted((entry.width for entry in found), reverse=True)
    assert {entry.fact.key for entry in found} == set(facts)
    for entry in found:
        worst = Fact(entry.fact.key, "", entry.fact.points[:1])
        bad = [Term(t.share, t.ceiling, tuple(worst if f.key == worst.key else f for f in t.facts)) for t in terms]
        assert highest(terms) - highest(bad) == entry.width


def test_facts_that_hang_together_give_no_impossible_sum() -> None:
    """One fastener of two parts: both get 1 or both get 5, never one of each."""
    glue = Fact("joint:glue", "the class of the glue", (1, 5))
    terms = [Term(Decimal("0.5"), 5, (glue,)), Term(Decimal("0.5"), 5, (glue,))]
    assert reachable(terms).values == {Decimal(1), Decimal(5)}


def test_too_much_that_hangs_together_is_said() -> None:
    facts = tuple(Fact(f"fact {number}", "", (1, 3, 5)) for number in range(12))
    terms = [Term(Decimal("0.1"), 5, facts), Term(Decimal("0.1"), 5, facts)]
    reach = reachable(terms)
    assert not reach.is_exact
    assert (min(reach.values), max(reach.values)) == (lowest(terms), highest(terms))
