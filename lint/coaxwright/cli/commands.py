"""The commands with their options."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from coaxwright.cli.cite_command import run_cite
from coaxwright.cli.review_command import Form, run_review
from coaxwright.rules import Severity

app = typer.Typer(
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    help="Review designs of coaxial wiring against rules of the trade and of published codes.",
)

Width = Annotated[int | None, typer.Option(min=60, help="Columns of text; the terminal's own if left out.")]


@app.callback()
def _coaxwright() -> None:
    """Keep the commands as commands, however many there are."""


@app.command()
def review(
    paths: Annotated[list[str], typer.Argument(metavar="PATH", help="Design files, or folders with *.coax.yaml.")],
    form: Annotated[Form, typer.Option("--as", help="The form of the report.")] = Form.TEXT,
    into: Annotated[Path | None, typer.Option(help="Write the report into this file.")] = None,
    returns_at: Annotated[
        Severity, typer.Option(help="The severity from which a finding returns a design.")
    ] = Severity.DEFICIENCY,
    width: Width = None,
    plain: Annotated[bool, typer.Option("--plain", help="No colour.")] = False,
) -> None:
    """Review designs; exit status 0 clear, 1 returned, 2 not understood, 3 incomplete."""
    raise typer.Exit(run_review(paths, form, into, returns_at.value, width, plain))


@app.command()
def cite(
    rule: Annotated[str, typer.Argument(help="The rule's name, such as bonding.conductor-length.")],
    ruleset: Annotated[
        list[str] | None, typer.Option(help="A ruleset with its edition, such as 'us 2020'; may be repeated.")
    ] = None,
    design: Annotated[Path | None, typer.Option("--for", help="Show the rule as it binds this design.")] = None,
    width: Width = None,
) -> None:
    """Show one rule with its reason, limits, sources, a wrong and a right example."""
    raise typer.Exit(run_cite(rule, ruleset or [], design, width))


def run(words: Sequence[str]) -> int:
    """Parse and run; a wrong option or value is told by the parser, with exit status 2."""
    try:
        app(list(words), prog_name="coaxwright")
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else 2
    return 0
