"""What only shows across rows and files: the same post twice, a site that contradicts itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pipeline.intake.model import Query, SurveyRow


@dataclass(frozen=True, slots=True)
class RowKey:
    """What settling needs of one row, light enough to be kept for a hundred thousand of them."""

    index: int
    file: str
    sheet: str
    row: int
    site_code: str
    post_code: str
    held: bool
    site_name: str
    customer: str
    site_kind: str
    says: bytes
    cells: tuple[str, str, str, str]  # addresses of post_code, site_name, customer, site_kind


def row_key(row: SurveyRow, index: int) -> RowKey:
    """The light key of `row`."""
    raise NotImplementedError


def settle(rows: Sequence[RowKey]) -> tuple[set[int], set[int], list[Query]]:
    """Indexes to drop as repeats, indexes to hold, and the queries that say so."""
    raise NotImplementedError
