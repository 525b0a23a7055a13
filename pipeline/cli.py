"""The command: arguments, messages, exit statuses. Nothing heavy is loaded before it is needed."""

from __future__ import annotations

import os
from datetime import date, datetime
from pathlib import Path

import click

from pipeline import __version__
from pipeline.cli_arguments import CATALOGUE, FOLDER, answered
from pipeline.cli_results import compare, explain, mark, preview

FIRST_DAY, LAST_DAY = date(1990, 1, 1), date(2999, 12, 31)
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # threads of the number library cost more memory than they are worth here


@click.group(
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
    epilog="""\b
Examples:
  postquote form survey.xlsx             an empty survey to send out
  postquote check surveys/               what the senders must correct
  postquote quote surveys/ --catalogue catalogue.xlsx --out quotes
  postquote explain quotes OAK-12 P3     the working for one post
  postquote compare quotes               what changed, and why
  postquote mark quotes OAK-12 sent      what became of a quotation
""",
)
@click.version_option(__version__, prog_name="postquote")
def main() -> None:
    """Say which mount, board and ring fit posts that already stand, how high the
    ring will reach, what load the post gets, and what it all costs."""


for _command in (explain, compare, preview, mark):
    main.add_command(_command)


@main.command(
    epilog="""\b
Examples:
  postquote quote surveys/ --catalogue catalogue.xlsx --out quotes
  postquote quote a.xlsx b.csv --catalogue catalogue.xlsx --out quotes \\
      --date 2026-03-02 --jobs 4

\b
Exit status: 0 all rows quoted; 1 some rows or files held; 2 wrong use or a
bad catalogue, nothing written; 3 a failure on some site, the others written.
"""
)
@click.argument("surveys", nargs=-1, required=True, metavar="SURVEY...", type=click.Path())
@click.option("--catalogue", required=True, type=CATALOGUE, help="The catalogue, one workbook.")
@click.option("--out", required=True, type=FOLDER, metavar="DIR", help="Folder for the results.")
@click.option(
    "--date",
    "on",
    metavar="YYYY-MM-DD",
    type=click.DateTime(["%Y-%m-%d"]),
    help="Date of the quotations; today, where it is left out.",
)
@click.option("--jobs", metavar="N", type=click.IntRange(1), help="Worker processes; the machine's cores, where it is left out.")
@click.option("--cluster", default="", metavar="ADDRESS", help="Address of a Dask scheduler that works instead.")
@click.option("--renew", is_flag=True, help="Issue quotations that have expired anew, with the new date.")
@click.option("--pdf", is_flag=True, help="Each customer's quotation as a PDF too, by LibreOffice.")
@click.option("--quiet", is_flag=True, help="Say only what waits or failed.")
@answered
def quote(
    surveys: tuple[str, ...],
    catalogue: str,
    out: Path,
    on: datetime | None,
    jobs: int | None,
    cluster: str,
    renew: bool,
    pdf: bool,
    quiet: bool,
) -> int:
    """Quote every SURVEY: a file, or a folder read through.

    One quotation a customer, one workbook a site, a portfolio of all sites, and
    each sender's own workbook back with the cells to correct marked."""
    from pipeline.commands.terminal import TerminalProgress, say_outcome, wrapped
    from pipeline.run.request import Request
    from pipeline.run.story import quote as run

    now = datetime.now()
    day = on.date() if on else date.today()
    if not FIRST_DAY <= day <= LAST_DAY:
        raise click.UsageError(f"--date {day.isoformat()} is not between {FIRST_DAY.isoformat()} and {LAST_DAY.isoformat()}.")
    request = Request(surveys, os.path.realpath(catalogue), out, day, jobs or os.cpu_count() or 1, cluster, renew, now)
    outcome = run(request, progress := TerminalProgress(quiet))
    say_outcome(outcome, str(out), quiet)
    if pdf:
        from pipeline.commands.pdf import make_pdfs

        for sentence in make_pdfs(out, progress):
            wrapped(sentence)
    return outcome.exit_status


@main.command(
    epilog="""\b
Examples:
  postquote check surveys/
  postquote check surveys/ --catalogue catalogue.xlsx --out checked
  postquote check --catalogue new.xlsx --since quotes
  postquote check survey.xlsx --json > queries.json

\b
Exit status: 0 nothing to correct; 1 some rows or files held; 2 wrong use or a
bad catalogue.
"""
)
@click.argument("surveys", nargs=-1, metavar="[SURVEY]...", type=click.Path())
@click.option("--catalogue", type=CATALOGUE, help="A catalogue to check; its policy then sets the ranges.")
@click.option("--since", type=FOLDER, metavar="DIR", help="Hold the catalogue against what DIR has quoted.")
@click.option("--out", type=FOLDER, metavar="DIR", help="Folder for marked copies.")
@click.option("--jobs", metavar="N", type=click.IntRange(1), help="Readers at a time; the machine's cores, where it is left out.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON on stdout.")
@click.option("--quiet", is_flag=True, help="Say only what waits or failed.")
@answered
def check(
    surveys: tuple[str, ...],
    catalogue: str | None,
    since: Path | None,
    out: Path | None,
    jobs: int | None,
    as_json: bool,
    quiet: bool,
) -> int:
    """Read and validate surveys and a catalogue; quote nothing."""
    from pipeline.commands.check import check as run
    from pipeline.commands.terminal import TerminalProgress

    if not surveys and not catalogue:
        raise click.UsageError("Name a survey, a folder of surveys, or a catalogue with --catalogue.")
    if since and not catalogue:
        raise click.UsageError("--since holds a catalogue against a folder: name it with --catalogue.")
    return run(
        surveys,
        os.path.realpath(catalogue) if catalogue else "",
        since,
        out,
        jobs or os.cpu_count() or 1,
        as_json,
        TerminalProgress(quiet),
    )


@main.command(
    epilog="""\b
Examples:
  postquote form survey.xlsx
  postquote form encuesta.xlsx --language es
  postquote form again.xlsx --from quotes OAK-12 ELM-3
  postquote form catalogue.xlsx --catalogue
"""
)
@click.argument("file", metavar="FILE.xlsx", type=click.Path(path_type=Path))
@click.argument("sites", metavar="[SITE...]", nargs=-1)
@click.option("--catalogue", is_flag=True, help="An empty catalogue instead of an empty survey.")
@click.option("--language", type=click.Choice(("en", "es", "fr", "de", "pt", "it")), default="en", help="Language of the survey.")
@click.option("--from", "known", type=FOLDER, metavar="DIR", help="Fill in what DIR knows of its sites, or of those named.")
@answered
def form(file: Path, sites: tuple[str, ...], catalogue: bool, language: str, known: Path | None) -> int:
    """Write an empty survey, or catalogue, to fill in.

    It has the headings, units, drop-downs and notes. With --from it has what
    the last survey said of each post, to be measured again."""
    from pipeline.output.folder import write_whole

    if file.suffix.lower() != ".xlsx":
        raise click.UsageError(f"{file} does not end in .xlsx; give the form such a name.")
    if file.exists():
        raise click.UsageError(f"{file} is there already; give the form another name, or move that file away.")
    if catalogue and (known or sites or language != "en"):
        raise click.UsageError("--language and --from are for a survey, not for a catalogue.")
    if sites and known is None:
        raise click.UsageError(f"{sites[0]} is a site of which folder? Name it: --from DIR {' '.join(sites)}.")
    from pipeline.commands.form import write

    click.echo(write(file, sites, catalogue, language, known, write_whole), err=True)
    return 0
