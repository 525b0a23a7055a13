"""How a run ended: what the command prints and its exit status."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import Any

ALL_QUOTED, SOME_HELD, REFUSED, FAILED = 0, 1, 2, 3
"""Exit statuses. Source: contract section 4."""


@dataclass(frozen=True)
class Outcome:
    """Counts and sentences; plain, so that an unchanged run can say again what the one before said."""

    exit_status: int
    sites: int
    posts: int
    rows_read: int
    rows_quoted: int
    rows_held: int
    files: int
    ready: int
    to_confirm: int
    incomplete: int
    total: str  # of all sites, with the currency
    new_revisions: int
    rewritten: int  # files of the folder that were written
    waits: tuple[str, ...]  # where something waits for a sender: 'file, sheet, cell: what'
    failures: tuple[str, ...]
    notes: tuple[str, ...]
    expired: tuple[str, ...]  # 'SITE-r1, valid until ...'
    unchanged: bool = False

    def as_text(self) -> str:
        """For the ledger."""
        return json.dumps(asdict(self))

    @staticmethod
    def from_text(text: str) -> Outcome:
        """The inverse of `as_text`."""
        plain: dict[str, Any] = {k: tuple(v) if isinstance(v, list) else v for k, v in json.loads(text).items()}
        return Outcome(**plain)
