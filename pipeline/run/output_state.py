"""What stands in the output folder when a run begins: hashes of the files that it may keep, taken while readers are at work."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from pipeline.ledger.store import Ledger
from pipeline.output.folder import file_digest


def expected(ledger: Ledger) -> list[str]:
    """Paths of the newest workbooks and of the data files that the last finished run left."""
    last = ledger.last_finished()
    if last is None:
        return []
    workbooks = [r.workbook for r in ledger.latest(last.run).values()]
    return workbooks + [path for path in ledger.outputs() if path.startswith("data/")]


def look(folder: Path, paths: Sequence[str]) -> Mapping[str, str]:
    """Path -> hash of what stands there, '' where nothing does."""
    return {path: file_digest(folder / path) for path in paths}
