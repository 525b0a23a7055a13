"""The sender's own workbook back: each cell in doubt filled and commented, a list in front of what to correct."""

from __future__ import annotations

from collections.abc import Sequence

from pipeline.intake.model import Book, Query


def marked_copy(path: str, file: str, book: Book | None, queries: Sequence[Query]) -> bytes:
    """The marked workbook (.xlsx) for one input file."""
    raise NotImplementedError


def returned_name(names: Sequence[str]) -> dict[str, str]:
    """Where each input file's marked copy goes."""
    raise NotImplementedError
