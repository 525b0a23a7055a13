"""`postquote preview`: what another catalogue would do to everything quoted in a folder."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from pipeline.commands.terminal import listed, wrapped
from pipeline.ledger.schema import LedgerError
from pipeline.output.folder import write_whole
from pipeline.run.outcome import ALL_QUOTED, FAILED
from pipeline.run.output_state import LEDGER
from pipeline.run.preview import preview as quoted_with
from pipeline.run.request import Progress, Request
from pipeline.sheets.movement import Kit, posts_with_kit, total
from pipeline.sheets.preview_report import Preview


def preview(request: Request, file: Path | None, as_json: bool, progress: Progress) -> int:
    """Exit status; a workbook goes to `file`, the JSON object to stdout, sentences to stderr."""
    if not (request.out / LEDGER).is_file():
        raise LedgerError(f"{request.out} holds no ledger: no run has been finished there. Name the folder given to --out.")
    found = quoted_with(request, progress)
    if as_json:
        click.echo(json.dumps(as_plain(found), indent=2, ensure_ascii=True))
    if file is not None:
        from pipeline.sheets.preview import preview_workbook

        write_whole(file, preview_workbook(found))
    _say(found, str(file or ""), as_json)
    return FAILED if found.failures else ALL_QUOTED


def as_plain(found: Preview) -> dict[str, Any]:
    """The object that `--json` prints. Source: contract section 4."""
    m = found.movement
    return {
        "totals": {"was": str(m.total_was), "now": str(m.total)},
        "posts_with_kit": {
            "was": sum(posts_with_kit(s.was) for s in found.sites),
            "now": sum(posts_with_kit(s.now) for s in found.sites),
        },
        "sites": [
            {
                "site_code": s.site_code,
                "customer": s.customer,
                "total_was": str(total(s.was)) if s.was else None,
                "total": str(total(s.now)) if s.now else None,
                "posts_with_kit_was": posts_with_kit(s.was) if s.was else None,
                "posts_with_kit": posts_with_kit(s.now) if s.now else None,
                "promise": s.promise,
            }
            for s in found.sites
        ],
        "kits": [
            {"site_code": k.site_code, "post_code": k.post_code, "was": _kit(k.was), "now": _kit(k.now)} for k in found.kits
        ],
        "prices": [
            {
                "item": p.change.item,
                "was": str(p.change.was),
                "now": str(p.change.now),
                "quotations": p.quotations,
                "slip": p.change.slip,
            }
            for p in found.prices
        ],
        "broken_promises": list(found.broken_promises),
        "wanted": [dict(row) for row in found.wanted],
    }


def _kit(kit: Kit | None) -> dict[str, str] | None:
    return None if kit is None else dict(zip(("mount", "board", "ring", "extension"), kit, strict=True))


def _say(found: Preview, file: str, as_json: bool) -> None:
    for sentence in found.movement.sentences(found.currency):
        wrapped(sentence)
    listed("Promises that would be broken:", list(found.broken_promises), "the workbook lists them")
    listed("Prices that may be slips:", [p.change.sentence for p in found.prices if p.change.slip], "the workbook lists them")
    for failure in found.failures:
        wrapped(failure)
    written = f"Written: {file}. " if file else "" if as_json else "With --out FILE.xlsx a workbook says it at length. "
    wrapped(f"{written}Nothing in the folder has changed.")
