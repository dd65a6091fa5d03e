"""Renamed things: what the author says, then what is likest, and nothing that is merely alike a little."""

from __future__ import annotations

from generator.review import matching
from generator.review.matching import renamed


def traits(words: str) -> frozenset[str]:
    return frozenset(words.split())


def test_the_author_knows_best() -> None:
    gone = {"old": traits("a b c"), "other": traits("x y z")}
    came = {"new": traits("x y z")}
    assert renamed(gone, came, {"new": ("old",)}) == {"new": "old"}
    assert renamed(gone, came, {}) == {"new": "other"}


def test_the_likest_are_paired_first_and_each_once() -> None:
    gone = {"a": traits("1 2 3 4"), "b": traits("1 2 3 4 5")}
    came = {"c": traits("1 2 3 4 5"), "d": traits("1 2 3 4")}
    assert renamed(gone, came, {}) == {"c": "b", "d": "a"}


def test_little_alike_is_another_thing() -> None:
    assert renamed({"a": traits("1 2 3")}, {"b": traits("1 4 5")}, {}) == {}
    assert renamed({"a": frozenset()}, {"b": frozenset()}, {}) == {}


def test_of_very_many_only_what_is_said(monkeypatch) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.setattr(matching, "MOST_COMPARED", 1)
    gone = {"a": traits("1"), "b": traits("2")}
    assert renamed(gone, {"c": traits("1"), "d": traits("9")}, {"d": ("b",)}) == {"d": "b"}
