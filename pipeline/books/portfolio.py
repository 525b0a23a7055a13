"""The portfolio workbook: all sites of a run."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from pipeline.books.model import Setting, SiteSummary
from pipeline.intake.model import Query


def portfolio_workbook(
    summaries: Iterable[SiteSummary],
    queries: Sequence[Query],
    files: Sequence[Mapping[str, Any]],
    changes: Sequence[Mapping[str, Any]],
    expired: Sequence[Mapping[str, Any]],
    vanished: Sequence[Mapping[str, Any]],
    setting: Setting,
    date: str,
) -> bytes:
    """The workbook of all sites as .xlsx bytes; the same arguments give the same bytes."""
    raise NotImplementedError
