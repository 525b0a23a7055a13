"""What a person sees in a cell."""

from __future__ import annotations

from pipeline.reading.book import Cell


def as_shown(cell: Cell) -> str:
    """What a person sees in a cell, as near as it is known."""
    if cell.shown:
        return cell.shown
    if cell.kind == "no_result":
        return "(a formula without a result)"
    if isinstance(cell.value, bool):
        return str(cell.value).upper()
    if isinstance(cell.value, float):
        return f"{cell.value:.15g} {cell.shown_unit}".strip()
    return f"{cell.value} {cell.shown_unit}".strip()
