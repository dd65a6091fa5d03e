"""What each rule means, for people: its docstring, which is the only place where that is written."""

from __future__ import annotations

import inspect
from collections.abc import Iterator

from generator.rules import RULES, function_of, level_of

HEADINGS = ("Why:", "Bad:", "Good:", "Silent when:")
"""What every rule explains after its first sentence, each at the start of a line."""


def rule_ids() -> tuple[str, ...]:
    """Every rule, gravest first."""
    return RULES


def summaries() -> Iterator[tuple[str, str, str]]:
    """For every rule its id, its level and its first sentence."""
    for rule in RULES:
        yield rule, level_of(rule), summary(rule)


def summary(rule: str) -> str:
    """The first line of a rule's docstring. KeyError for what is no rule."""
    return documentation(rule).split("\n", 1)[0]


def documentation(rule: str) -> str:
    """The docstring of a rule without its indentation. KeyError for what is no rule."""
    if rule not in RULES:
        raise KeyError(rule)
    return inspect.getdoc(function_of(rule)) or ""


def explanation(rule: str) -> str:
    """A rule as `partway explain` prints it: id and level, then its docstring. KeyError for what is no rule."""
    return f"{rule}  ({level_of(rule)})\n\n{documentation(rule)}\n"
