"""`partway explain`: what a rule means."""

from __future__ import annotations

from pathlib import Path

import click

WORKFLOWS = ("actions", "pipeline", "hooks")
"""Each is a file of the folder `workflows`, which says where it goes."""


@click.command()
@click.argument("rule", required=False)
@click.option("--workflow", type=click.Choice(WORKFLOWS), help="A file that has a forge, or a hook, check every change.")
def explain(rule: str | None, workflow: str | None) -> None:
    """What RULE means, with a bad and a good example; without RULE the list of all rules."""
    from difflib import get_close_matches

    from generator.commands.folders import Unreadable
    from generator.rules.explanations import explanation, rule_ids, summaries

    if workflow is not None:
        click.echo((Path(__file__).parent / "workflows" / f"{workflow}.yaml").read_text("utf-8"), nl=False)
        return
    if rule is None:
        for name, level, first in summaries():
            click.echo(f"{name:24} {level:8} {first}")
        return
    if rule not in rule_ids():
        near = get_close_matches(rule, rule_ids(), n=3, cutoff=0.5)
        meant = f"Did you mean {' or '.join(near)}?" if near else "`partway explain` lists them all."
        raise Unreadable(f'There is no rule "{rule}". {meant}')
    click.echo(explanation(rule))
