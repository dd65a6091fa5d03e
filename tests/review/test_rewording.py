"""Reworded texts: both texts can be read off the pieces, and the pieces are words."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from generator.review import wording
from generator.review.wording import Fate, Piece, nearby, reworded

WORDS = st.lists(st.sampled_from(["lift", "the", "cover", " ", "\n\n", ",", "old", "new", "é", "5.0", "mm"]), max_size=12)


def test_a_word_that_was_changed_is_shown_whole() -> None:
    assert reworded("Lift the old cover.", "Lift the new cover.") == (
        Piece(Fate.KEPT, "Lift the "),
        Piece(Fate.GONE, "old"),
        Piece(Fate.CAME, "new"),
        Piece(Fate.KEPT, " cover."),
    )


def test_words_next_to_each_other_are_one_change() -> None:
    fates = [piece.fate for piece in reworded("one two three", "four five three")]
    assert fates == [Fate.GONE, Fate.CAME, Fate.KEPT]


@given(WORDS, WORDS)
def test_both_texts_can_be_read_off_the_pieces(old: list[str], new: list[str]) -> None:
    before, after = "".join(old), "".join(new)
    pieces = reworded(before, after)
    assert (before == after) == (pieces == ())
    if pieces:
        assert "".join(piece.text for piece in pieces if piece.fate is not Fate.CAME) == before
        assert "".join(piece.text for piece in pieces if piece.fate is not Fate.GONE) == after
        assert all(piece.text for piece in pieces)


def test_a_long_text_is_shown_whole(monkeypatch) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.setattr(wording, "MOST_WORDS", 3)
    assert reworded("a b c d", "a b c e") == (Piece(Fate.GONE, "a b c d"), Piece(Fate.CAME, "a b c e"))


def test_what_is_far_from_a_change_is_left_out() -> None:
    long = "word " * 100
    pieces = nearby(reworded(f"{long}old {long}", f"{long}new {long}"))
    assert [piece.fate for piece in pieces] == [Fate.KEPT, Fate.GONE, Fate.CAME, Fate.KEPT]
    assert pieces[0].text.startswith("…") and pieces[-1].text.endswith("…")
    assert max(len(piece.text) for piece in pieces) < 70
