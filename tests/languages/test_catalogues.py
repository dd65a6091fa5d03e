"""The catalogues hold exactly the texts of the program, every one translated, with the same fields."""

from __future__ import annotations

import os
import string

import pytest
from babel.messages.catalog import Catalog, Message

from tests.languages.collecting import TEMPLATE, collected, read, translations, updated, written

ACCEPTED = os.environ.get("PARTWAY_ACCEPT") == "1"


def keys(catalogue: Catalog) -> set[tuple[str | None, str]]:
    return {(message.context, forms(message)[0]) for message in catalogue if message.id}


def forms(message: Message) -> tuple[str, ...]:
    return tuple(message.id) if isinstance(message.id, (tuple, list)) else (message.id,)


def said(message: Message) -> tuple[str, ...]:
    return tuple(message.string) if isinstance(message.string, (tuple, list)) else (message.string or "",)


def fields(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}


@pytest.fixture(scope="module")
def template() -> Catalog:
    texts = collected()
    if ACCEPTED:
        TEMPLATE.write_bytes(written(texts))
        for language, path in translations().items():
            path.write_bytes(written(updated(language, read(path), texts)))
    return texts


def test_the_template_holds_exactly_the_texts_of_the_program(template: Catalog) -> None:
    assert keys(read(TEMPLATE)) == keys(template)


@pytest.mark.parametrize("language", translations())
def test_a_translation_has_every_text_and_no_other(template: Catalog, language: str) -> None:
    translation = read(translations()[language])
    assert sorted(str(key) for key in keys(template) - keys(translation)) == []
    assert sorted(str(key) for key in keys(translation) - keys(template)) == []
    assert not translation.obsolete


@pytest.mark.parametrize("language", translations())
def test_every_text_is_translated_and_none_is_a_guess(template: Catalog, language: str) -> None:
    translation = read(translations()[language])
    bare = [forms(message)[0] for message in translation if message.id and not all(said(message))]
    assert bare == []
    assert [message.id for message in translation if message.fuzzy] == []


@pytest.mark.parametrize("language", translations())
def test_a_translation_has_the_fields_of_its_original(template: Catalog, language: str) -> None:
    """A plural form may leave the number out, as English does with `once`; it may not name another field."""
    wrong = []
    for message in read(translations()[language]):
        if message.id:
            wanted = set().union(*(fields(text) for text in forms(message)))
            spare = {"n"} if message.pluralizable else set()
            wrong += [text for text in said(message) if text and not wanted - spare <= fields(text) <= wanted | spare]
    assert wrong == []


@pytest.mark.parametrize("language", translations())
def test_a_translation_keeps_the_blanks_at_the_ends(template: Catalog, language: str) -> None:
    def ends(text: str) -> tuple[bool, bool]:
        return text[:1].isspace(), text[-1:].isspace()

    messages = [message for message in read(translations()[language]) if message.id]
    wrong = [said(m) for m in messages for text in said(m) if text and ends(text) != ends(forms(m)[0])]
    assert wrong == []
