"""The commands about what runs have left in a folder: explain, compare, preview, mark."""

from __future__ import annotations

import os
from datetime import date, datetime
from pathlib import Path

import click

from pipeline.cli_arguments import CATALOGUE, answered


@click.command(
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


@click.command(
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


@click.command(
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


@click.command(
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
