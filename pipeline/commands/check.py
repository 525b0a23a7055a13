"""`postquote check`: surveys and a catalogue read and validated, nothing quoted."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

import click

from pipeline.commands.terminal import by_sender, counted, listed, wrapped
from pipeline.intake.dictionary import EMPTY, Dictionary, dictionary
from pipeline.intake.query import Query
from pipeline.intake.take_in import take_in
from pipeline.intake.taken import Taken
from pipeline.reading import find_surveys
from pipeline.run.outcome import ALL_QUOTED, REFUSED, SOME_HELD, in_one_line, waiting
from pipeline.run.request import Progress
from pipeline.site.tasks import Gathered, gather


def check(
    surveys: Sequence[str], catalogue: str, since: Path | None, out: Path | None, jobs: int, as_json: bool, progress: Progress
) -> int:
    """Exit status; a JSON result goes to stdout, sentences to stderr, marked copies to `out`."""
    faults, policy, seller_words, odd = _catalogue(catalogue, since)
    found = find_surveys(surveys, without=[str(out)] if out else [])
    progress.stage("Reading surveys", len(found))
    taken = list(take_in(found, jobs, progress.step, seller_words=seller_words))
    gathered = gather(taken, policy, "", "")
    queries = gathered.queries
    returned = _return(out, found, taken, queries, jobs, progress) if out else []
    if as_json:
        click.echo(json.dumps(_result(gathered, faults, odd), indent=2, ensure_ascii=True))
    _say_catalogue(faults, odd, catalogue)
    _say(gathered, returned)
    if faults:
        return REFUSED
    return SOME_HELD if any(waiting(q) for q in queries) else ALL_QUOTED


def _catalogue(path: str, since: Path | None) -> tuple[list[dict[str, str]], dict[str, Any], Dictionary, list[dict[str, str]]]:
    """Faults of the catalogue, policy and seller's dictionary (as documented where there is none to read), and what is odd."""
    from pipeline.intake.catalogue import CatalogueFaults, documented_policy
    from pipeline.intake.catalogue.apart import read_apart
    from pipeline.intake.catalogue.oddities import oddities

    if not path:
        return [], documented_policy(), EMPTY, []
    try:
        read = read_apart(path)
    except CatalogueFaults as error:
        return [asdict(f) for f in error.faults], documented_policy(), EMPTY, []
    odd = [asdict(o) for o in oddities(read.tables)]
    if since is not None:
        from pipeline.run.since import held_against

        odd += held_against(read, since)
    return [], read.policy, dictionary(read.tables), odd


def _return(
    out: Path, found: Sequence[Any], taken: Sequence[Taken], queries: Sequence[Query], jobs: int, progress: Progress
) -> list[str]:
    """Marked copies under `out`/returns; paths of those that were written."""
    from pipeline.output.folder import write_whole
    from pipeline.run.return_copies import marked_files

    paths = []
    for path, data in marked_files(found, taken, queries, jobs, progress):
        write_whole(out / path, data)
        paths.append(path)
    return paths


def _result(gathered: Gathered, faults: Sequence[dict[str, str]], odd: Sequence[dict[str, str]]) -> dict[str, Any]:
    """What `--json` prints."""
    files = [
        {"file": f.file, "format": f.format, "rows": f.rows, "held": f.held, "replaced": f.replaced, "notes": list(f.notes)}
        for f in gathered.files
    ]
    queries = [asdict(q) for q in gathered.queries]
    return {"files": files, "queries": queries, "catalogue_faults": list(faults), "catalogue_warnings": list(odd)}


def _say_catalogue(faults: Sequence[dict[str, str]], odd: Sequence[dict[str, str]], catalogue: str) -> None:
    if faults:
        lines = [f"{_place(f['sheet'], f['cell'])}: {f['message']} {f['suggestion']}".lstrip(": ") for f in faults]
        listed(f"The catalogue has {counted(len(faults), 'fault')}.", lines, "mend these first")
    elif catalogue:
        click.echo("The catalogue has no fault.", err=True)
    if odd:
        lines = [f"{o['sheet']}, {o['item']}: {o['message']}" for o in odd]
        listed(f"Legal, but look at it ({len(odd):,}):", lines, "--json prints them all")


def _say(gathered: Gathered, returned: Sequence[str]) -> None:
    _say_queries(gathered)
    if files := gathered.files:
        rows, quoted, held, replaced = (sum(getattr(f, n) for f in files) for n in ("rows", "quoted", "held", "replaced"))
        waits = f"{held:,} {'waits' if held == 1 else 'wait'} for a correction"
        again = f", {replaced:,} replaced by a later or an equal row" if replaced else ""
        wrapped(f"{counted(len(files), 'file')}, {counted(rows, 'row')}: {quoted:,} can be quoted, {waits}{again}.")
    if returned:
        many = "copy is" if len(returned) == 1 else "copies are"
        wrapped(f"Next: {len(returned):,} marked {many} in the folder returns; send them back to their senders.")
    elif gathered.queries:
        wrapped("Next: correct the cells named, or run again with --out DIR for marked copies to send back.")


def _say_queries(gathered: Gathered) -> None:
    """What waits, what was only noticed, and what was noted of the files, each by file."""
    more = "--json prints them, --out DIR writes marked copies."
    by_sender("To correct, by file:", [(q.file, in_one_line(q)) for q in gathered.queries if waiting(q)], more)
    by_sender("Read, but look at it:", [(q.file, in_one_line(q)) for q in gathered.queries if not waiting(q)], more)
    by_sender("Noted while reading:", [(f.file, note) for f in gathered.files for note in f.notes], "--json prints them.")


def _place(*parts: str) -> str:
    return ", ".join(filter(None, parts))
