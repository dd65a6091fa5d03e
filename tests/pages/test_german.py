"""The German edition of the demo has no English left in it, but for names, addresses and what is marked as English."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser

import pytest

from tests.pages.reading import HIDDEN_TEXT, VOID
from tests.pages.sites import demo_site

TELLING = re.compile(
    r"\b(all|and|are|as|at|back|be|been|between|can|come|comes|counts?|cover|does|done|each|every|from|has|have|is|it|its|"
    r"joints?|known|makes?|no|not|nothing|of|on|or|other|out|own|parts?|reads?|screws?|screwdriver|steps?|takes?|than|that|"
    r"the|their|then|there|these|they|this|those|tools?|what|when|where|whether|which|who|with|without|work|yes|you|your)\b",
    re.IGNORECASE,
)
"""English words that are no German ones; left out are those that are both, such as `in`, `so`, `was` and `will`."""

SPOKEN = frozenset({"alt", "aria-description", "aria-label", "aria-roledescription", "data-label", "placeholder", "title"})
"""Attributes whose value a reader is shown or told."""

AS_WRITTEN = frozenset({"code", "kbd", "pre", "samp", *HIDDEN_TEXT})
"""Elements that hold what is the same in every language."""

ADDRESS = re.compile(r"https?://\S+")


class Said(HTMLParser):
    """What a page says in its language: its texts and spoken attributes outside of what is marked as another one."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.said: list[str] = []
        self.languages = [("", "")]
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        attributes = {name: value or "" for name, value in attrs}
        inherited = self.languages[-1][1]
        language = attributes.get("lang", inherited)
        if tag == "html":
            self.languages[0] = ("", language)
        if self._is_own(language):
            self.said += [value for name, value in attributes.items() if name in SPOKEN]
            if attributes.get("name") == "description":
                self.said.append(attributes["content"])
        if tag not in VOID:
            self.languages.append((tag, language))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.languages.pop()

    def handle_endtag(self, tag: str) -> None:
        while self.languages[-1][0] != tag:
            self.languages.pop()
        self.languages.pop()

    def handle_data(self, data: str) -> None:
        tag, language = self.languages[-1]
        if tag not in AS_WRITTEN and self._is_own(language) and data.strip():
            self.said.append(" ".join(data.split()))

    def _is_own(self, language: str) -> bool:
        return language == self.languages[0][1]


def pages(folder: str) -> Iterator[tuple[str, str]]:
    for path, text in demo_site().items():
        is_german = path.startswith("de/")
        if path.endswith(".html") and isinstance(text, str) and is_german == (folder == "de"):
            yield path, text


def english_in(text: str) -> list[str]:
    return [words for words in Said(text).said if TELLING.search(ADDRESS.sub("", words))]


def test_every_page_has_a_german_one_that_says_it_is() -> None:
    german = dict(pages("de"))
    assert "de/tarn-5/workings.html" in german
    assert {path for path, text in german.items() if '<html lang="de"' not in text} == set()


@pytest.mark.parametrize("kind", ["", "tarn-5/"])
def test_a_german_page_holds_no_telling_english_word(kind: str) -> None:
    chosen = [(path, text) for path, text in pages("de") if path.removeprefix("de/").startswith("tarn-5/") == bool(kind)]
    assert chosen
    assert [(path, words) for path, text in chosen for words in english_in(text)] == []


def test_on_the_english_pages_the_same_words_are_found() -> None:
    """Otherwise the test above would find nothing anywhere."""
    found = {path: len(english_in(text)) for path, text in pages("en")}
    assert found["tarn-5/workings.html"] > 100
    assert found["tarn-5/index.html"] > 30
    assert {path for path, count in found.items() if count == 0} <= {"404.html"}


@pytest.mark.parametrize(
    ("html", "found"),
    [
        ('<html lang="de"><p>Der Akku</p></html>', []),
        ('<html lang="de"><p>Take out the battery</p></html>', ["Take out the battery"]),
        ('<html lang="de"><p><b lang="en">Take out the battery</b> heraus</p></html>', []),
        ('<html lang="de"><a aria-label="To the step">3</a><img alt="Akku"></html>', ["To the step"]),
        ('<html lang="de"><svg><title>What it is</title></svg></html>', ["What it is"]),
        ('<html lang="de"><p>https://example.org/the/step</p><script>the</script><code>the</code></html>', []),
    ],
)
def test_what_counts_as_english(html: str, found: list[str]) -> None:
    assert english_in(html) == found
