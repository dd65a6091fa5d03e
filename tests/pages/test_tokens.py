"""Tokens and plain rules for pictures that stand alone."""

from __future__ import annotations

from generator.pages.tokens import plain_rules, resolved, rules_about, tokens_of

SHEET = """
/* :root { --ink: not-this; } */
@font-face { font-family: "A"; src: url(a.woff2); }
:root { --ink: #111; --paper: #fff; --line: var(--ink) }
@media (prefers-color-scheme: dark) { :root { --ink: #eee; } .a { --ink: red; } }
@media print { :root { --ink: #000; } }
.a { fill: var(--ink); }
.a .b, .c { stroke: var(--line); width: var(--wide, 3px) }
@media (max-width: 9px) { .a { display: none; } }
"""


def test_light_tokens_are_those_outside_any_medium_and_dark_those_in_its_own() -> None:
    assert tokens_of(SHEET) == {"ink": "#111", "paper": "#fff", "line": "var(--ink)"}
    assert tokens_of(SHEET, dark=True) == {"ink": "#eee"}


def test_plain_rules_leave_out_what_depends_on_a_medium() -> None:
    rules = plain_rules(SHEET)
    assert rules.splitlines()[1:] == [
        ".a{fill: var(--ink);}",
        ".a .b, .c{stroke: var(--line); width: var(--wide, 3px)}",
    ]
    assert rules_about(rules, ["c"]).splitlines() == [".a .b, .c{stroke: var(--line); width: var(--wide, 3px)}"]


def test_values_stand_in_place_of_tokens_even_of_tokens_that_name_tokens() -> None:
    rules = rules_about(plain_rules(SHEET), ["c"])
    assert resolved(rules, tokens_of(SHEET)) == ".a .b, .c{stroke: #111; width: 3px}"
    assert resolved(".a{fill: var(--gone)}", {}) == ".a{fill: none}"
