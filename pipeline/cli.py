"""The command: arguments, messages, exit statuses. Nothing heavy is loaded before it is needed."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from datetime import date, datetime
from functools import wraps
from pathlib import Path
from typing import Any

import click

from pipeline import __version__

CATALOGUE = click.Path(exists=True, dir_okay=False)
FIRST_DAY, LAST_DAY = date(1990, 1, 1), date(2999, 12, 31)
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # threads of the number library cost more memory than they are worth here


class Folder(click.Path):
    """A folder for results; no name at all would be the current folder, which nobody has named."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The folder's path."""
        if not os.fspath(value).strip():
            self.fail("name a folder; '.' is the current one.", param, ctx)
        return super().convert(value, param, ctx)


FOLDER = Folder(file_okay=False, path_type=Path)


def answered(command: Callable[..., int]) -> Callable[..., None]:
    """The one place where errors become messages and exit statuses."""

    @wraps(command)
    def run(**options: Any) -> None:
        from pipeline.commands.messages import answer

        sys.exit(answer(lambda: command(**options)))

    return run


@click.group(
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
    epilog="""\b
Examples:
  postquote form survey.xlsx             an empty survey to send out
  postquote check surveys/               what the senders must correct
  postquote quote surveys/ --catalogue catalogue.xlsx --out quotes
  postquote explain quotes OAK-12 P3     the working for one post
  postquote compare quotes               what changed, and why
""",
)
@click.version_option(__version__, prog_name="postquote")
def main() -> None:
    """Say which mount, board and ring fit posts that already stand, how high the
    ring will reach, what load the post gets, and what it all costs."""


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
  postquote check survey.xlsx --json > queries.json

\b
Exit status: 0 nothing to correct; 1 some rows or files held; 2 wrong use or a
bad catalogue.
"""
)
@click.argument("surveys", nargs=-1, metavar="[SURVEY]...", type=click.Path())
@click.option("--catalogue", type=CATALOGUE, help="A catalogue to check; its policy then sets the ranges.")
@click.option("--out", type=FOLDER, metavar="DIR", help="Folder for marked copies.")
@click.option("--jobs", metavar="N", type=click.IntRange(1), help="Readers at a time; the machine's cores, where it is left out.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON on stdout.")
@click.option("--quiet", is_flag=True, help="Say only what waits or failed.")
@answered
def check(surveys: tuple[str, ...], catalogue: str | None, out: Path | None, jobs: int | None, as_json: bool, quiet: bool) -> int:
    """Read and validate surveys and a catalogue; quote nothing."""
    from pipeline.commands.check import check as run
    from pipeline.commands.terminal import TerminalProgress

    if not surveys and not catalogue:
        raise click.UsageError("Name a survey, a folder of surveys, or a catalogue with --catalogue.")
    return run(
        surveys,
        os.path.realpath(catalogue) if catalogue else "",
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


@main.command(
    epilog="""\b
Examples:
  postquote explain quotes OAK-12 P3
  postquote explain quotes OAK-12 P3 LIFT-35
"""
)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.argument("site")
@click.argument("post")
@click.argument("mount", default="")
@answered
def explain(folder: Path, site: str, post: str, mount: str) -> int:
    """The working for one post, with formulas and sources.

    Reads what a run left in DIR. Without MOUNT: the recommended kit."""
    from pipeline.commands.explain import explain as lines

    click.echo("\n".join(lines(folder, site, post, mount)))
    return 0


@main.command(
    epilog="""\b
Examples:
  postquote compare quotes
  postquote compare quotes --since 3 --sites
"""
)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--since", type=click.IntRange(0), metavar="RUN", help="Changes since that run, not only of the newest one.")
@click.option("--sites", is_flag=True, help="Site by site too, with each reason.")
@answered
def compare(folder: Path, since: int | None, sites: bool) -> int:
    """What changed between the runs of a folder, and why."""
    from pipeline.commands.compare import compare as lines

    for line in lines(folder, since, sites):
        click.echo(line)
    return 0


@main.command(
    epilog="""\b
Examples:
  postquote preview quotes --catalogue new.xlsx --out preview.xlsx
  postquote preview quotes --catalogue new.xlsx --json > preview.json

\b
Exit status: 0 done; 2 wrong use or a bad catalogue; 3 a failure on some site.
"""
)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option("--catalogue", required=True, type=CATALOGUE, help="The catalogue to look at, one workbook.")
@click.option("--out", type=click.Path(dir_okay=False, path_type=Path), metavar="FILE.xlsx", help="The workbook to write.")
@click.option("--date", "on", type=click.DateTime(["%Y-%m-%d"]), metavar="YYYY-MM-DD", help="The quotations' date; today.")
@click.option("--jobs", metavar="N", type=click.IntRange(1), help="Worker processes; the machine's cores, where it is left out.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON on stdout.")
@click.option("--quiet", is_flag=True, help="Show no progress.")
@answered
def preview(
    folder: Path, catalogue: str, out: Path | None, on: datetime | None, jobs: int | None, as_json: bool, quiet: bool
) -> int:
    """What another catalogue would do to everything quoted in DIR.

    DIR stays as it is. The answer in short stands at the terminal; --out writes a workbook of
    it: totals, sites, kits that change, prices, what the catalogue lacks."""
    from pipeline.commands.preview import preview as run
    from pipeline.commands.terminal import TerminalProgress
    from pipeline.run.request import Request

    if out is not None and (out.suffix.lower() != ".xlsx" or out.exists()):
        raise click.UsageError(f"{out} must be a new file that ends in .xlsx.")
    now = datetime.now()
    request = Request((), catalogue, folder, on.date() if on else now.date(), jobs or os.cpu_count() or 1, "", False, now)
    return run(request, out, as_json, TerminalProgress(quiet))


@main.command(
    epilog="""\b
Examples:
  postquote mark quotes OAK-12 sent
  postquote mark quotes OAK-12 accepted --on 2026-03-09 --note "order 4711"
  postquote mark quotes --customer "Elm District" sent

\b
Exit status: 0 done; 2 wrong use, or nothing that could be marked so.
"""
)
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.argument("words", nargs=-1, metavar="[SITE] sent|accepted|declined|open")
@click.option("--customer", default="", metavar="NAME", help="All sites of a customer, instead of one SITE.")
@click.option("--revision", metavar="N", type=click.IntRange(1), help="The revision meant; the latest, where it is left out.")
@click.option("--on", type=click.DateTime(["%Y-%m-%d"]), metavar="YYYY-MM-DD", help="When it was; today, where it is left out.")
@click.option("--note", default="", metavar="TEXT", help="A remark, such as an order number.")
@answered
def mark(folder: Path, words: tuple[str, ...], customer: str, revision: int | None, on: datetime | None, note: str) -> int:
    """What became of a site's quotation: the latest, today.

    What was sent stands until its last valid day, what was accepted for good; a
    declined site is closed; open takes a mark back."""
    from pipeline.commands.mark import Wanted
    from pipeline.commands.mark import mark as run
    from pipeline.ledger.marks import STATES

    site, state = ("", *words) if customer and len(words) == 1 else words if len(words) == 2 and not customer else ("", "")
    if state not in STATES:
        raise click.UsageError("Say which SITE (or --customer NAME), then sent, accepted, declined or open.")
    if customer and revision:
        raise click.UsageError("--revision is for one SITE.")
    wanted = Wanted(site, customer, state, revision, on.date() if on else date.today(), note)
    for sentence in run(folder, wanted, datetime.now()):
        click.echo(sentence, err=True)
    return 0
