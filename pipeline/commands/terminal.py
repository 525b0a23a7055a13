"""What the command prints: progress, the end of a run, refusals. Plain in a log or a pipe, aligned on 80 columns."""

from __future__ import annotations

import shutil
import sys
import textwrap
import time
from collections.abc import Iterable, Sequence

import click

from pipeline.run.outcome import FAILED, Outcome
from schemas.order import natural

SHOWN = 12
"""Lines of a list, or queries of all files together, that are printed; all are in the files."""
WIDTH = 79


class TerminalProgress:
    """Progress: a bar with rate and time left on a terminal, a line per stage in a log, nothing when quiet."""

    def __init__(self, quiet: bool) -> None:
        self._quiet = quiet
        self._bar = sys.stderr.isatty() and not quiet
        self._what, self._total, self._since, self._shown = "", 0, 0.0, 0.0
        self._open = False

    def stage(self, what: str, total: int) -> None:
        """A stage begins."""
        if self._open:
            click.echo("", err=True)
        self._what, self._total, self._since, self._shown, self._open = what, total, time.monotonic(), 0.0, False
        if not self._quiet and not self._bar and total:
            click.echo(f"{what}: {total:,}" if total > 1 else what, err=True)

    def step(self, done: int) -> None:
        """So much of the stage is done."""
        now = time.monotonic()
        if not self._bar or (now - self._shown < 0.1 and done < self._total):
            return
        self._shown, self._open = now, done < self._total
        room = min(WIDTH, shutil.get_terminal_size((WIDTH + 1, 24)).columns - 1)
        line = progress(self._what, done, self._total, now - self._since)
        click.echo("\r" + line[:room].ljust(room), err=True, nl=not self._open)

    def say(self, text: str) -> None:
        """Something worth knowing."""
        if not self._quiet:
            wrapped(text)


def progress(what: str, done: int, total: int, took: float) -> str:
    """One line of progress after `took` [s]: bar, count, rate and time left; at the end, how long it took."""
    filled = 16 * done // max(total, 1)
    bar = "#" * filled + "." * (16 - filled)
    rate = done / max(took, 1e-9)
    text = f"in {span(took)}" if done >= total else f"{span((total - done) / rate)} left" if done else ""
    speed = f"{rate:,.0f}/s" if rate >= 1 else f"{rate * 60:.1f}/min"
    return f"{what:<22}[{bar}] {done:,}/{total:,}  {speed if done > 1 else '':>8}  {text}".rstrip()


def span(seconds: float) -> str:
    """A time in words, as coarse as it is worth: `3 s`, `4 min`, `1 h 20 min`, `14 h`."""
    if seconds < 90:
        return f"{seconds:.0f} s"
    minutes = round(seconds / 60)
    if minutes < 60:
        return f"{minutes} min"
    return f"{minutes // 60} h {minutes % 60} min" if minutes < 600 else f"{minutes / 60:,.0f} h"


def counted(number: int, one: str, many: str = "") -> str:
    """A count with its noun: `1 file`, `2 files`."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def wrapped(text: str, indent: str = "", first: str = "") -> None:
    """A paragraph on stderr, folded to the width of the screen."""
    fold = textwrap.TextWrapper(
        WIDTH, initial_indent=first or indent, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )
    for line in fold.wrap(printable(text)):
        click.echo(line, err=True)


def printable(text: str) -> str:
    """`text` without what a terminal could take for a command."""
    return "".join(c if c.isprintable() else " " for c in text)


def listed(heading: str, lines: Sequence[str], more: str) -> None:
    """A heading with some lines under it, and where the rest is to be found."""
    if not lines:
        return
    click.echo(heading, err=True)
    for line in lines[:SHOWN]:
        wrapped(line, "    ", "  - ")
    if len(lines) > SHOWN:
        click.echo(f"  and {len(lines) - SHOWN:,} more: {more}", err=True)


def by_sender(heading: str, entries: Sequence[tuple[str, str]], more: str) -> None:
    """Queries grouped by the file that they came in, so that each sender's stand together: pairs of file and what is asked."""
    files: dict[str, list[str]] = {}
    for file, text in sorted(entries, key=lambda entry: natural(entry[0])):
        files.setdefault(file, []).append(text)
    if not files:
        return
    click.echo(heading, err=True)
    most = max(1, SHOWN // len(files))
    for file, asked in list(files.items())[:SHOWN]:
        wrapped(f"{file} ({len(asked):,})", "    ", "  ")
        for text in asked[:most]:
            wrapped(text, "      ", "    - ")
        if len(asked) > most:
            click.echo(f"      and {len(asked) - most:,} more", err=True)
    if len(files) > SHOWN:
        click.echo(f"  and {counted(len(files) - SHOWN, 'more file')}", err=True)
    if len(files) > SHOWN or any(len(asked) > most for asked in files.values()):
        wrapped(f"All: {more}", "  ", "  ")


def say_outcome(o: Outcome, out: str, quiet: bool) -> None:
    """The end of a run: what came out, what waits for whom, what to do next."""
    if o.exit_status == FAILED:
        listed("Failed:", [f.split("\n")[0] for f in o.failures], "see above")
    listed("Promised, and no longer holds:", o.broken, f"{out}/portfolio.xlsx")
    listed("Prices that may be slips:", o.slips, f"{out}/portfolio.xlsx")
    if not quiet or o.waits:
        asked = [(file, text or "see there") for file, _, text in (w.partition("\n") for w in o.waits)]
        by_sender("Waiting for a correction, by file:", asked, f"{out}/data/queries.csv")
    if quiet:
        return
    listed("Expired (issue them anew with --renew):", o.expired, f"{out}/portfolio.xlsx")
    listed("Noted:", o.notes, f"{out}/run.json")
    for name, value in _table(o):
        wrapped(value, " " * 16, f"{name:<16}")
    wrapped(_next(o, out))


def _table(o: Outcome) -> Iterable[tuple[str, str]]:
    not_read = f" ({o.files_not_read:,} not read)" if o.files_not_read else ""
    replaced = f", {o.rows_replaced:,} replaced" if o.rows_replaced else ""
    rows = f"{counted(o.rows_read, 'row')}: {o.rows_quoted:,} quoted, {o.rows_held:,} held{replaced}"
    yield "Surveys", f"{counted(o.files, 'file')}{not_read}, {rows}"
    yield "Sites", f"{o.sites:,}: {o.ready:,} ready, {o.to_confirm:,} to confirm, {o.incomplete:,} incomplete"
    kits = f"{o.posts_with_kit:,} with a kit, {o.posts - o.posts_with_kit:,} without"
    yield "Posts", f"{o.posts:,} quoted ({kits}), {o.posts_held:,} held"
    yield "In all", o.total
    if o.unchanged:
        yield "Changed", "nothing since the last run; no file was touched"
    else:
        yield "Changed", f"{counted(o.new_revisions, 'new revision')}; {counted(o.rewritten, 'file')} written"


def _next(o: Outcome, out: str) -> str:
    if o.waits:
        return f"Next: send the marked copies in {out}/returns back to their senders; look at {out}/portfolio.xlsx."
    if not o.sites:
        return f"Next: nothing was quoted; look at {out}/portfolio.xlsx."
    return f"Next: look at {out}/portfolio.xlsx, then send the quotations in {out}/customers."


def refuse(text: str) -> None:
    """Why nothing was done."""
    if sys.stderr.isatty():
        click.echo("\r" + " " * WIDTH + "\r", err=True, nl=False)  # what is left of a bar
    wrapped(text)
