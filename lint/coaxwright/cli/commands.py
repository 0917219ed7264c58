"""The commands with their options.

The parser only parses: a command leaves its job with the parser's context, and the job runs when the parser has ended.
So no exit status that the parser gives to a closed pipe or an interruption can be taken for a review's.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Annotated

import typer

from coaxwright.cli.cached_reports import CachedReport
from coaxwright.cli.cite_command import run_cite
from coaxwright.cli.forms import Form
from coaxwright.cli.further import further_forms
from coaxwright.cli.levels_command import LevelsForm, run_levels
from coaxwright.cli.output import complain
from coaxwright.cli.punch_list_command import run_punch_list, wrong_name
from coaxwright.cli.renew_command import run_renew
from coaxwright.cli.review_command import run_review
from coaxwright.cli.schema_command import Described, run_schema
from coaxwright.cli.settings_command import SettingsForm, run_settings
from coaxwright.cli.show_command import ShowForm, run_show
from coaxwright.cli.standard_input import name_of_input
from coaxwright.cli.start_command import run_start
from coaxwright.cli.values import day, one_at_least, wide_enough
from coaxwright.cli.words import WrongWord
from coaxwright.cli.words import listed as _listed
from coaxwright.cli.words import one_of as _one_of
from coaxwright.rules import Severity
from coaxwright.starters import Dwelling, Incoming, Units

Job = Callable[[], int]


app = typer.Typer(
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    help="Review designs of coaxial wiring against rules of the trade and of published codes.",
)

Width = Annotated[
    int | None,
    typer.Option(metavar="COLUMNS", help="Width of the text, 60 or more; the terminal's own if left out."),
]
ReturnsAt = Annotated[
    str | None,
    typer.Option(
        metavar="SEVERITY",
        help=f"The severity from which a finding returns a design: {_listed(Severity)}; that of the settings, or "
        f"{Severity.DEFICIENCY.value}, if left out.",
    ),
]
Only = Annotated[
    list[str] | None, typer.Option(metavar="RULE", help="Ask this rule, or this topic, and no other; may be repeated.")
]
LeaveOut = Annotated[
    list[str] | None, typer.Option(metavar="RULE", help="Do not ask this rule, or this topic; may be repeated.")
]
ReviewersTerms = Annotated[
    list[str] | None,
    typer.Option(
        metavar="RULESET",
        help="Review designs that are not trusted by this ruleset alone, such as 'us 2023' or the path of your own; "
        "may be repeated.",
    ),
]


@app.callback()
def _coaxwright() -> None:
    """Keep the commands as commands, however many there are."""


@app.command()
def review(
    context: typer.Context,
    paths: Annotated[
        list[str],
        typer.Argument(metavar="PATH", help="Design files, folders with *.coax.yaml, or - for standard input."),
    ],
    form: Annotated[
        str, typer.Option("--as", metavar="FORM", help=f"The form of the report: {_listed(Form)}.")
    ] = Form.TEXT.value,
    into: Annotated[Path | None, typer.Option(metavar="FILE", help="Write the report into this file.")] = None,
    also: Annotated[
        list[str] | None,
        typer.Option(metavar="FORM=FILE", help="Write the same review in a further form into a file; may be repeated."),
    ] = None,
    returns_at: ReturnsAt = None,
    only: Only = None,
    leave_out: LeaveOut = None,
    reviewers_terms: ReviewersTerms = None,
    called: Annotated[
        str | None,
        typer.Option(metavar="NAME", help="The file that the design from standard input (-) is judged as."),
    ] = None,
    as_of: Annotated[
        str | None,
        typer.Option(
            "--as-of",
            metavar="DATE",
            help="The day by which a variance has ended or not, printed on a notice or checklist; today if left out, "
            "and nothing printed.",
        ),
    ] = None,
    punch_list: Annotated[
        Path | None,
        typer.Option(
            "--punch-list", metavar="FILE", help="Findings on this list are known: they are shown, and return nothing."
        ),
    ] = None,
    since: Annotated[
        str | None,
        typer.Option(
            "--since",
            metavar="REVISION",
            help="Only the designs that changed since this git revision, and only what it did not have.",
        ),
    ] = None,
    width: Width = None,
    plain: Annotated[bool, typer.Option("--plain", help="No color.")] = False,
    workers: Annotated[
        int | None,
        typer.Option(metavar="NUMBER", help="Processes that review designs; for many designs one for each core."),
    ] = None,
    fresh: Annotated[
        bool, typer.Option("--fresh", help="Review every design again, also those that have not changed.")
    ] = False,
    timing: Annotated[
        bool, typer.Option("--timing", help="Tell on standard error where the time went, rule by rule.")
    ] = False,
) -> None:
    """Review designs; exit status 0 clear, 1 returned, 2 not understood, 3 incomplete."""
    chosen = Form(_one_of(Form, "--as", form))
    name = name_of_input(paths, called)
    context.obj.append(
        partial(
            run_review,
            paths,
            chosen,
            into,
            _severity(returns_at),
            wide_enough(width),
            plain,
            also=further_forms(also or [], chosen, into, [*paths, *([name] if name else [])]),
            as_of=day(as_of),
            punch_list=_punch_list(punch_list),
            since=since,
            only=only or [],
            leave_out=leave_out or [],
            reviewers_terms=reviewers_terms or [],
            called=name,
            workers=one_at_least(workers),
            timing=timing,
            door=context.obj.door,
        )
    )


@app.command("punch-list")
def punch_list(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The list, named *.coax-punch-list.yaml.")],
    paths: Annotated[list[str], typer.Argument(metavar="PATH", help="Design files, or folders with *.coax.yaml.")],
    prune: Annotated[
        bool, typer.Option("--prune", help="Take off what is no longer found in the designs reviewed.")
    ] = False,
    as_of: Annotated[
        str | None,
        typer.Option(
            "--as-of", metavar="DATE", help="The day by which a variance has ended or not; today if left out."
        ),
    ] = None,
) -> None:
    """Record what the review finds now on a punch list; items of other designs, and comments, stay.

    Exit status 0, 2 where a file is not understood or cannot be written, 3 where the review is incomplete.
    """
    context.obj.append(partial(run_punch_list, file, paths, prune, day(as_of)))


@app.command()
def cite(
    context: typer.Context,
    rule: Annotated[
        str | None,
        typer.Argument(
            metavar="RULE",
            help="A rule's name, such as bonding.conductor-length, or a topic; left out, all are listed.",
        ),
    ] = None,
    ruleset: Annotated[
        list[str] | None,
        typer.Option(metavar="RULESET", help="A ruleset with its edition, such as 'us 2020'; may be repeated."),
    ] = None,
    design: Annotated[
        Path | None,
        typer.Option(
            "--for", metavar="DESIGN", help="Show the rule as it binds this design, and what came of it there."
        ),
    ] = None,
    subject: Annotated[
        str | None, typer.Option(metavar="TAG", help="With --for: only what came of it for the thing of this tag.")
    ] = None,
    reviewers_terms: ReviewersTerms = None,
    width: Width = None,
) -> None:
    """Show one rule with its reason, limits, sources, a wrong and a right example; or list all rules by topic."""
    if subject is not None and (design is None or rule is None):
        raise WrongWord("--subject narrows what came of one rule in one design; name the rule, and the design by --for")
    if reviewers_terms and design is None:
        raise WrongWord("--reviewers-terms are for a design; name it by --for")
    run = partial(run_cite, subject=subject, reviewers_terms=reviewers_terms or ())
    context.obj.append(partial(run, rule, ruleset or [], design, wide_enough(width)))


@app.command()
def settings(
    context: typer.Context,
    path: Annotated[Path, typer.Argument(metavar="PATH", help="A design, or a folder.")],
    form: Annotated[
        str, typer.Option("--as", metavar="FORM", help=f"The form to show them in: {_listed(SettingsForm)}.")
    ] = SettingsForm.TEXT.value,
    returns_at: ReturnsAt = None,
    only: Only = None,
    leave_out: LeaveOut = None,
    reviewers_terms: ReviewersTerms = None,
    into: Annotated[Path | None, typer.Option(metavar="FILE", help="Write it into this file.")] = None,
    width: Width = None,
) -> None:
    """Show what a design or a folder is reviewed by, and where each value comes from; exit status 0 or 2."""
    chosen = SettingsForm(_one_of(SettingsForm, "--as", form))
    context.obj.append(
        partial(
            run_settings,
            path,
            chosen,
            into,
            wide_enough(width),
            returns_at=_severity(returns_at),
            only=only or [],
            leave_out=leave_out or [],
            reviewers_terms=reviewers_terms or [],
        )
    )


@app.command()
def levels(
    context: typer.Context,
    path: Annotated[Path, typer.Argument(metavar="PATH", help="The design file.")],
    form: Annotated[
        str, typer.Option("--as", metavar="FORM", help=f"The form of the levels: {_listed(LevelsForm)}.")
    ] = LevelsForm.TEXT.value,
    service: Annotated[
        list[str] | None, typer.Option(metavar="SERVICE", help="Only this service; may be repeated.")
    ] = None,
    outlet: Annotated[str | None, typer.Option(metavar="TAG", help="Only this outlet.")] = None,
    suppose: Annotated[
        list[str] | None,
        typer.Option(
            metavar="WORDS",
            help="Suppose something else, such as 'C-104 in series 11'; may be repeated. The file is not changed.",
        ),
    ] = None,
    into: Annotated[Path | None, typer.Option(metavar="FILE", help="Write it into this file.")] = None,
    width: Width = None,
) -> None:
    """Show what every outlet gets; exit status 0, or 2 where the design is not understood."""
    chosen = LevelsForm(_one_of(LevelsForm, "--as", form))
    context.obj.append(
        partial(run_levels, path, chosen, service or [], outlet, suppose or [], into, wide_enough(width))
    )


@app.command()
def show(
    context: typer.Context,
    path: Annotated[Path, typer.Argument(metavar="PATH", help="The design file.")],
    form: Annotated[
        str, typer.Option("--as", metavar="FORM", help=f"The form to show it in: {_listed(ShowForm)}.")
    ] = ShowForm.TEXT.value,
    into: Annotated[Path | None, typer.Option(metavar="FILE", help="Write it into this file.")] = None,
    width: Width = None,
) -> None:
    """Show what was understood of a design; exit status 0, or 2 where it is not understood."""
    chosen = ShowForm(_one_of(ShowForm, "--as", form))
    context.obj.append(partial(run_show, path, chosen, into, wide_enough(width)))


@app.command()
def start(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The file to write, named *.coax.yaml.")],
    dwelling: Annotated[
        str, typer.Option(metavar="KIND", help=f"The kind of building: {_listed(Dwelling)}.")
    ] = Dwelling.ONE_FAMILY.value,
    ruleset: Annotated[
        str | None,
        typer.Option(metavar="RULESET", help="A ruleset with its edition; the newest of us if left out."),
    ] = None,
    incoming: Annotated[
        list[str] | None,
        typer.Option("--with", metavar="SERVICE", help=f"What comes in: {_listed(Incoming)}; may be repeated."),
    ] = None,
    title: Annotated[str | None, typer.Option(metavar="WORDS", help="The site, as it stands on the drawing.")] = None,
    units: Annotated[
        str, typer.Option(metavar="SYSTEM", help=f"Feet and AWG, or meters and mm²: {_listed(Units)}.")
    ] = Units.US.value,
    editor: Annotated[
        bool, typer.Option("--editor", help="Put the schema beside it and name it in the first line, for an editor.")
    ] = False,
) -> None:
    """Write a small commented design to begin with; a file that is there already is never touched."""
    wanted = [Incoming(_one_of(Incoming, "--with", word)) for word in incoming or [*Incoming]]
    kind = Dwelling(_one_of(Dwelling, "--dwelling", dwelling))
    system = Units(_one_of(Units, "--units", units))
    context.obj.append(partial(run_start, file, kind, ruleset, wanted, title, system, editor))


@app.command()
def renew(
    context: typer.Context,
    paths: Annotated[list[str], typer.Argument(metavar="PATH", help="Design files, or folders with *.coax.yaml.")],
    into: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Write the one design into this file, and leave it as it is.")
    ] = None,
) -> None:
    """Bring designs of an older format, or in former words, with their parts, up to this one; comments and layout stay.

    Exit status 0, or 2 where a file is not understood: that one is not written.
    """
    context.obj.append(partial(run_renew, paths, into))


@app.command()
def schema(
    context: typer.Context,
    what: Annotated[
        str, typer.Argument(metavar="WHAT", help=f"What it describes: {_listed(Described)}.")
    ] = Described.DESIGN.value,
    draft_07: Annotated[
        bool, typer.Option("--draft-07", help="In JSON Schema draft-07, which most editors read: a design or a part.")
    ] = False,
    into: Annotated[Path | None, typer.Option(metavar="FILE", help="Write it into this file.")] = None,
) -> None:
    """Print the JSON Schema of a design, a part, or another file that comes with the program."""
    context.obj.append(partial(run_schema, Described(_one_of(Described, "WHAT", what)), draft_07, into))


class Jobs(list[Job]):
    """What is to be done when the parser has ended, and what a review is answered from, if anything is."""

    def __init__(self, door: CachedReport | None) -> None:
        super().__init__()
        self.door = door


def run(words: Sequence[str], door: CachedReport | None = None) -> int:
    """Parse and run; a wrong option or value is told with the nearest right one, and gives exit status 2."""
    jobs = Jobs(door)
    try:
        app(list(words), prog_name="coaxwright", obj=jobs)
    except SystemExit as end:
        if end.code:
            return 2
    except WrongWord as error:
        complain(str(error))
        return 2
    return jobs[0]() if jobs else 0


def _punch_list(file: Path | None) -> Path | None:
    wrong = wrong_name(file) if file is not None else ""
    if wrong:
        raise WrongWord(wrong)
    return file


def _severity(written: str | None) -> str | None:
    return None if written is None else _one_of(Severity, "--returns-at", written)
