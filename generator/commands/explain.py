"""`partway explain`: what a rule means."""

from __future__ import annotations

import click


@click.command()
@click.argument("rule", required=False)
def explain(rule: str | None) -> None:
    """What RULE means, with a bad and a good example; without RULE the list of all rules."""
    from difflib import get_close_matches

    from generator.commands.folders import Unreadable
    from generator.rules.explanations import explanation, rule_ids, summaries

    if rule is None:
        for name, level, first in summaries():
            click.echo(f"{name:24} {level:8} {first}")
        return
    if rule not in rule_ids():
        near = get_close_matches(rule, rule_ids(), n=3, cutoff=0.5)
        meant = f"Did you mean {' or '.join(near)}?" if near else "`partway explain` lists them all."
        raise Unreadable(f'There is no rule "{rule}". {meant}')
    click.echo(explanation(rule))
