"""Caption files of every kind and in every state, as words with their times."""

from __future__ import annotations

import io

import pytest
import webvtt

from generator.draft.captions import MOST_WORDS, Unusable, read_captions
from generator.draft.decoding import decode
from tests.bench.draft import KEPT_ASIDE, TUNED, files


def words(text: str) -> list[str]:
    return [word.text for word in read_captions(text).words]


def times(text: str) -> list[float]:
    return [word.at for word in read_captions(text).words]


def test_webvtt_without_its_marks() -> None:
    text = (
        "WEBVTT - a film\nKind: captions\nLanguage: de\n\nNOTE not\nsaid\n\nSTYLE\n::cue { color: red }\n\nintro-1\n"
        "00:01.000 --> 00:02.000 align:start position:0%\n<v Ann>Hi <b>all</b> &amp; <c.loud>sundry</c></v>\n"
    )
    assert words(text) == ["Hi", "all", "sundry"]
    assert read_captions(text).language == "de"


def test_subrip_without_blank_lines_and_with_a_broken_time_keeps_every_word() -> None:
    text = (
        "1\n00:00:01,000 --> 00:00:02,000\nHi\n2\n00:zz --> 00:00:03\nthere\n3\n00:00:05,500 --> 00:00:06,000\n{\\an8}you\n"
    )
    assert words(text) == ["Hi", "there", "you"]
    assert times(text) == [1.0, 2.0, 5.5]
    assert read_captions(text).untimed == 1


@pytest.mark.parametrize(
    "line", ["0:42 Lift.", "[0:42] Lift.", "(00:42) Lift.", "00:00:42 - Lift.", "0:42\nLift.", "[00:42.00]Lift."]
)
def test_plain_timed_lines(line: str) -> None:
    assert words(line) == ["Lift."] and times(line) == [42.0]


def test_captions_that_roll_are_read_once() -> None:
    text = (
        "WEBVTT\n\n00:01.000 --> 00:02.000\n \ntake<00:01.500><c> the</c>\n\n00:02.000 --> 00:02.010\ntake the\n \n\n"
        "00:02.010 --> 00:04.000\ntake the\nlid<00:03.000><c> off</c>\n"
    )
    assert words(text) == ["take", "the", "lid", "off"]
    assert times(text) == [1.0, 1.5, 2.01, 3.0]
    assert len(read_captions(text).shown_again) == 4


def test_the_same_words_said_again_later_stay() -> None:
    assert words("0:01 Lift the lid.\n0:40 Lift the lid.") == ["Lift", "the", "lid."] * 2


def test_captions_out_of_order_are_put_in_order() -> None:
    captions = read_captions("0:30 second\n0:10 first")
    assert [word.text for word in captions.words] == ["first", "second"] and captions.unordered == 1


def test_sounds_are_no_words() -> None:
    captions = read_captions("0:01 [Music] Lift it ♪ la la ♪")
    assert [word.text for word in captions.words] == ["Lift", "it"] and captions.sounds == ("[Music]", "la", "la")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252", "latin-1"])
def test_encodings_are_told_apart(encoding: str) -> None:
    text = "0:01 Die Rückwand lösen.\n0:04 Den Akku abziehen.\n"
    assert words(decode(text.encode(encoding)).text)[:3] == ["Die", "Rückwand", "lösen."]


def test_nul_and_other_unseen_signs_are_no_part_of_a_word() -> None:
    assert words("0:01 Li\u200bft\x00 the\u202e lid\ufeff") == ["Lift", "the", "lid"]


@pytest.mark.parametrize("text", ["", "   \n\n", "WEBVTT\n\n", "0:01 ...", "no time here", "00:01.000 --> 00:02.000\n\n"])
def test_what_holds_no_timed_words_is_refused_in_words(text: str) -> None:
    with pytest.raises(Unusable, match=r"\.$"):
        read_captions(text)


def test_more_words_than_fit_are_refused() -> None:
    with pytest.raises(Unusable, match="cut it into several files"):
        read_captions("\n".join(f"{minute}:00 {'word ' * 99}{minute}" for minute in range(MOST_WORDS // 90)))


@pytest.mark.parametrize(
    "path",
    [path for folder in (TUNED, KEPT_ASIDE) for path in files(folder) if path.suffix != ".txt"],
    ids=lambda path: path.stem,
)
def test_another_reader_finds_the_same_captions(path) -> None:  # type: ignore[no-untyped-def]
    """Where a file is sound a well-kept library reads the same words, each shown as often as it is shown."""
    other = webvtt.from_buffer(io.StringIO(path.read_text("utf-8")), format=path.suffix[1:])
    shown = [word for caption in other for word in caption.text.replace("&amp;", "").split()]
    ours = read_captions(path.read_text("utf-8"))
    assert sorted(word.text for word in (*ours.words, *ours.shown_again)) == sorted(shown)
