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


def answered(command: Callable[..., int]) -> Callable[..., None]:
    """The one place where errors become messages and exit statuses."""

    @wraps(command)
    def run(**options: Any) -> None:
        from pipeline.refusals import answer

        sys.exit(answer(lambda: command(**options)))

    return run


@click.group(
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80},
    epilog="Start with `postquote form survey.xlsx`: an empty survey to send out.",
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
@click.option("--catalogue", required=True, type=click.Path(), help="The catalogue, one workbook.")
@click.option("--out", required=True, type=click.Path(path_type=Path), metavar="DIR", help="Folder for the results.")
@click.option("--date", "on", type=click.DateTime(["%Y-%m-%d"]), help="Date of the quotations; today, where it is left out.")
@click.option("--jobs", type=click.IntRange(1), help="Worker processes; the machine's cores, where it is left out.")
@click.option("--cluster", default="", metavar="ADDRESS", help="Address of a Dask scheduler that works instead.")
@click.option("--renew", is_flag=True, help="Issue quotations that have expired anew, with the new date.")
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
    quiet: bool,
) -> int:
    """Quote every SURVEY (a file, or a folder that is read through)."""
    from pipeline.inputs import Request
    from pipeline.run import quote as run
    from pipeline.terminal import Teller, say_outcome

    now = datetime.now()
    day = on.date() if on else date.today()
    request = Request(surveys, catalogue, out, day, jobs or os.cpu_count() or 1, cluster, renew, now)
    outcome = run(request, Teller(quiet))
    say_outcome(outcome, str(out), quiet)
    return outcome.exit_status
