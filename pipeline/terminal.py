"""What the command prints: progress, the end of a run, refusals. Plain in a log or a pipe, aligned on 80 columns."""

from __future__ import annotations

import sys
import textwrap
import time
from collections.abc import Iterable, Sequence

import click

from pipeline.stages.outcome import FAILED, Outcome

SHOWN = 12
"""Queries that are printed; all are in the files."""
WIDTH = 79


class Teller:
    """Progress: a bar with rate and time left on a terminal, a line per stage in a log, nothing when quiet."""

    def __init__(self, quiet: bool) -> None:
        self._quiet = quiet
        self._bar = sys.stderr.isatty() and not quiet
        self._what, self._total, self._since, self._shown = "", 0, 0.0, 0.0

    def stage(self, what: str, total: int) -> None:
        """A stage begins."""
        self._what, self._total, self._since, self._shown = what, total, time.monotonic(), 0.0
        if not self._quiet and not self._bar and total:
            click.echo(f"{what}: {total}", err=True)

    def step(self, done: int) -> None:
        """So much of the stage is done."""
        now = time.monotonic()
        if not self._bar or (now - self._shown < 0.1 and done < self._total):
            return
        self._shown = now
        took = max(now - self._since, 1e-9)
        rate = done / took
        left = (self._total - done) / rate if rate else 0.0
        filled = 20 * done // max(self._total, 1)
        bar = "#" * filled + "." * (20 - filled)
        line = f"\r{self._what:<20} [{bar}] {done}/{self._total}  {rate:.0f}/s  {left:.0f} s left"
        click.echo(line[:WIDTH].ljust(WIDTH), err=True, nl=done >= self._total)

    def say(self, text: str) -> None:
        """Something worth knowing."""
        if not self._quiet:
            wrapped(text)


def wrapped(text: str, indent: str = "", first: str = "") -> None:
    """A paragraph on stderr, folded to the width of the screen."""
    for line in textwrap.wrap(text, WIDTH, initial_indent=first or indent, subsequent_indent=indent, break_long_words=False):
        click.echo(line, err=True)


def listed(heading: str, lines: Sequence[str], more: str) -> None:
    """A heading with some lines under it, and where the rest is to be found."""
    if not lines:
        return
    click.echo(heading, err=True)
    for line in lines[:SHOWN]:
        wrapped(line, "    ", "  - ")
    if len(lines) > SHOWN:
        click.echo(f"  and {len(lines) - SHOWN} more: {more}", err=True)


def say_outcome(o: Outcome, out: str, quiet: bool) -> None:
    """The end of a run: what came out, what waits for whom, what to do next."""
    if o.exit_status == FAILED:
        listed("Failed:", [f.split("\n")[0] for f in o.failures], "see above")
    if not quiet or o.waits:
        listed("Waiting for a correction:", o.waits, f"{out}/data/queries.csv")
    if quiet:
        return
    listed("Expired (issue them anew with --renew):", o.expired, f"{out}/portfolio.xlsx")
    listed("Noted:", o.notes, f"{out}/run.json")
    for name, value in _table(o):
        click.echo(f"{name:<16}{value}", err=True)
    wrapped(_next(o, out))


def _table(o: Outcome) -> Iterable[tuple[str, str]]:
    yield "Surveys", f"{o.files} files, {o.rows_read} rows: {o.rows_quoted} quoted, {o.rows_held} held"
    yield "Sites", f"{o.sites}: {o.ready} ready, {o.to_confirm} to confirm, {o.incomplete} incomplete"
    yield "Posts quoted", str(o.posts)
    yield "In all", o.total
    if o.unchanged:
        yield "Changed", "nothing since the last run; no file was touched"
    else:
        yield "Changed", f"{o.new_revisions} new revisions; {o.rewritten} files written"


def _next(o: Outcome, out: str) -> str:
    if o.waits:
        return f"Next: send the marked copies in {out}/returns back to their senders; look at {out}/portfolio.xlsx."
    return f"Next: look at {out}/portfolio.xlsx, then send the workbooks in {out}/sites."


def refuse(text: str) -> None:
    """Why nothing was done."""
    wrapped(text)
