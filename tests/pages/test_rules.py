"""The page of rules: every rule with all that `partway explain` says of it, linked from the library and from SARIF."""

from __future__ import annotations

import json
import re
from html import unescape
from pathlib import Path

from generator.commands.folders import load_library, read_theme
from generator.commands.reports import report
from generator.pages.rules import anchor_of
from generator.pages.site import render_shared
from generator.rules import RULES
from generator.rules.explanations import HEADINGS, documentation
from generator.rules.finding import Finding, Reported
from generator.source.places import Place

LIBRARY = load_library(Path(__file__).parent / "shelf")
PAGES = render_shared(LIBRARY, read_theme())


def plain(text: str) -> str:
    return re.sub(r"[\s`’'\"“”*\\:]+|Why|Bad|Good|Silent when", "", text)


def test_every_rule_stands_on_the_page_with_all_its_words() -> None:
    page = str(PAGES["rules.html"])
    pieces = re.split(r'<h3 id="([^"]+)">', page)
    told = dict(zip(pieces[1::2], pieces[2::2], strict=True))
    assert set(told) == {anchor_of(rule) for rule in RULES}
    for rule in RULES:
        words = plain(unescape(re.sub(r"<[^>]+>", " ", told[anchor_of(rule)])))
        assert plain(documentation(rule)) in words, rule
        assert [told[anchor_of(rule)].count(f"<strong>{label}</strong>") for label in HEADINGS] == [1] * len(HEADINGS)


def test_the_library_links_to_it() -> None:
    assert 'href="rules.html"' in str(PAGES["index.html"])


def test_sarif_links_to_each_rule_where_the_site_has_an_address() -> None:
    from dataclasses import replace

    found = (Reported("order/held", "error", "lamp", Finding(Place("lamp/device.yaml"), "It is held.")),)

    def rule(address: str | None) -> dict[str, object]:
        document = json.loads(report("sarif", replace(LIBRARY, address=address), found))
        return dict(document["runs"][0]["tool"]["driver"]["rules"][0])

    assert rule("https://example.org/guides/")["helpUri"] == "https://example.org/guides/rules.html#order-held"
    assert "helpUri" not in rule(None)
