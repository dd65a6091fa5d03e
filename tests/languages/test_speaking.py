"""Saying things in the language in force."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from markupsafe import Markup

from generator.languages import (
    Catalogue,
    day,
    decimal_mark,
    direction,
    fallbacks,
    language,
    list_of,
    name_of,
    say,
    say_as,
    say_many,
    speaking,
)
from generator.languages import catalogues as shelf
from generator.languages.catalogues import catalogue_from
from generator.languages.locales import ENGLISH, decimal_mark_of, list_in, locale_of

POLISH = b'''
msgid ""
msgstr ""
"Language: pl\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Plural-Forms: nplurals=3; plural=(n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<12 || n%100>14) ? 1 : 2);\\n"

msgid "Lift the {part}."
msgstr "{part}: podnie\xc5\x9b\xc4\x87."

msgid "step"
msgstr "krok"

msgctxt "of a stair"
msgid "step"
msgstr "stopie\xc5\x84"

msgid "{n} screw"
msgid_plural "{n} screws"
msgstr[0] "{n} \xc5\x9bruba"
msgstr[1] "{n} \xc5\x9bruby"
msgstr[2] "{n} \xc5\x9brub"

#, fuzzy
msgid "board"
msgstr "tablica"

msgid "cover"
msgstr ""
'''


@pytest.fixture
def polish(monkeypatch: pytest.MonkeyPatch) -> Catalogue:
    catalogue = catalogue_from(POLISH)
    monkeypatch.setattr(shelf, "read_catalogue", lambda tag: catalogue if tag == "pl" else None)
    return catalogue


def test_outside_of_any_speaking_it_is_english() -> None:
    assert language() == "en"
    assert say("Lift the {part}.", part="lid") == "Lift the lid."
    assert say_many("{n} screw", "{n} screws", 1) == "1 screw"
    assert say_many("{n} screw", "{n} screws", 0) == "0 screws"


def test_the_language_holds_inside_and_goes_back_outside_even_after_an_error(polish: Catalogue) -> None:
    with speaking("pl-PL"):
        assert language() == "pl-PL"
        assert say("Lift the {part}.", part="lid") == "lid: podnieść."
        with speaking("en"):
            assert say("step") == "step"
        assert say("step") == "krok"
    with pytest.raises(ZeroDivisionError), speaking("pl"):
        _ = 1 // 0
    assert say("step") == "step"


def test_plural_forms_are_those_of_the_language(polish: Catalogue) -> None:
    with speaking("pl"):
        said = [say_many("{n} screw", "{n} screws", n) for n in (1, 2, 5, 12, 22)]
    assert said == ["1 śruba", "2 śruby", "5 śrub", "12 śrub", "22 śruby"]


def test_a_context_tells_meanings_apart(polish: Catalogue) -> None:
    with speaking("pl"):
        assert (say("step"), say_as("of a stair", "step")) == ("krok", "stopień")


def test_what_is_untranslated_or_a_guess_or_unknown_is_said_in_english(polish: Catalogue) -> None:
    with speaking("pl"):
        assert [say("board"), say("cover"), say("never written")] == ["board", "cover", "never written"]
    with speaking("tlh"):
        assert say("step") == "step"


def test_a_tilde_of_a_text_holds_a_line_together_and_one_of_a_value_stays() -> None:
    assert say("step~{number}", number="~4") == "step\u00a0~4"


def test_fields_are_values_and_never_formats() -> None:
    assert say("Lift the {part}.", part="{0} %s {part}") == "Lift the {0} %s {part}."
    with pytest.raises(KeyError):
        say("Lift the {part}.", joint="lid")


def test_a_field_of_safe_html_makes_the_sentence_safe_and_escapes_the_rest() -> None:
    said = say("<{part}> & {link}", part="<b>", link=Markup("<a>x</a>"))
    assert isinstance(said, Markup)
    assert said == "&lt;&lt;b&gt;&gt; &amp; <a>x</a>"
    assert not isinstance(say("{part}", part="<b>"), Markup)


def test_lists_numbers_and_days_follow_the_language() -> None:
    with speaking("de"):
        assert list_of(["A", "B", "C"]) == "A, B und C"
        assert list_of(["A", "B"], "or") == "A oder B"
        assert decimal_mark() == ","
        assert day("2026-03-12") == "12. März 2026"
    assert day("2026-03-12") == "12 March 2026"
    assert (list_of([]), list_of(["A"]), list_of(["A", "B", "C"])) == ("", "A", "A, B and C")


@pytest.mark.parametrize("words", [[], ["a"], ["a", "b"], ["a", "b", "c"], ["a", "b", "c", "d"]])
@pytest.mark.parametrize("last", ["and", "or"])
def test_english_is_what_the_locale_data_say_of_british_english(words: list[str], last: str) -> None:
    assert list_in(ENGLISH, words, last) == list_in("en-GB", words, last)  # type: ignore[arg-type]
    assert decimal_mark_of(ENGLISH) == decimal_mark_of("en-GB")
    assert direction(ENGLISH) == locale_of(ENGLISH).text_direction


def test_directions_and_names_of_languages() -> None:
    assert [direction(tag) for tag in ("en", "de", "ar", "he-IL", "zz")] == ["ltr", "ltr", "rtl", "rtl", "ltr"]
    assert [name_of(tag) for tag in ("en", "de", "he", "xx")] == ["English", "Deutsch", "עברית", "xx"]
    assert fallbacks("zh-Hant-TW") == ("zh-Hant-TW", "zh-Hant", "zh")


def test_english_does_not_wait_for_the_locale_data() -> None:
    code = (
        "import sys; from generator.languages import say, list_of, decimal_mark, direction, speaking\n"
        "with speaking('en'): say('x'); list_of(['a', 'b']); decimal_mark(); direction('en')\n"
        "sys.exit('babel' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=Path(__file__).parent.parent.parent, check=False)
    assert done.returncode == 0
