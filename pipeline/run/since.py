"""A catalogue held against what a folder has quoted: prices that may be slips, items that none of its surveys could use."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.ledger.schema import LedgerError
from pipeline.ledger.store import Ledger
from pipeline.money.price_changes import slips
from pipeline.rules.arrays import Catalogue
from pipeline.rules.catalogue_arrays import catalogue as arrays
from pipeline.run.output_state import LEDGER
from pipeline.site.blocks import MOST_ROWS
from pipeline.site.compute import work_out


def held_against(read: Any, folder: Path) -> list[dict[str, str]]:
    """What is to be looked at, as `sheet`, `item`, `message`; LedgerError where the folder holds no ledger."""
    path = folder / LEDGER
    if not path.is_file():
        raise LedgerError(f"{folder} holds no ledger: no run has been finished there. Name the folder given to --out.")
    ledger = Ledger(path, read_only=True)
    try:
        last = ledger.last_finished()
        old = ledger.catalogue(last.catalogue) if last else None
        rows = [SurveyRow.from_dict(row) for site in ledger.site_codes() for row in _rows(ledger, site)]
    finally:
        ledger.close()
    moved = slips(old.tables, read.tables, read.policy) if old else ()
    found = [{"sheet": "Prices", "item": "against the last run", "message": sentence} for sentence in moved]
    return [*found, *_unused(rows, arrays(read.tables), read.policy)]


def _rows(ledger: Ledger, site: str) -> Sequence[dict[str, Any]]:
    kept = ledger.site_rows(site)
    return kept[0]["quoted"] if kept else ()


def _unused(rows: Sequence[SurveyRow], c: Catalogue, policy: Any) -> Iterator[dict[str, str]]:
    """Active items that are in no kit of any post that was quoted."""
    blocks = [rows[start : start + MOST_ROWS] for start in range(0, len(rows), MOST_ROWS)]
    kits = [work_out(block, c, policy).kits for block in blocks]
    tables = (
        ("Mounts", c.mounts.code, [k.mount for k in kits]),
        ("Boards", c.boards.code, [k.board for k in kits]),
        ("Rings", c.rings.code, [k.ring for k in kits]),
        ("Extensions", c.extensions.code, [k.extension for k in kits]),
    )
    for sheet, codes, used in tables:
        in_a_kit = {codes[i] for i in np.unique(np.concatenate(used)).tolist() if i >= 0} if used else set()
        for code in codes:
            if code not in in_a_kit:
                yield {"sheet": sheet, "item": code, "message": "no post of the folder's surveys could use it."}
