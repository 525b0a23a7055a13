"""A value of the survey as it was read, in words."""

from __future__ import annotations

from typing import Any

from pipeline.sheets import show
from schemas.column import SI_UNIT, Column


def read_as(column: Column, value: Any, feet: bool) -> str:
    """A value as it was read, in the site's units."""
    if value is None:
        return show.UNKNOWN
    if column.kind == "lengths":
        return "; ".join(show.length(v, feet) for v in (value if isinstance(value, (tuple, list)) else (value,)))
    if column.name == "wall":
        return show.wall(value, feet)
    if column.kind in ("length", "pipe"):
        return show.length(value, feet)
    if column.kind == "angle":
        return show.angle(value)
    if column.kind == "speed":
        return show.speed(value, feet)
    unit = SI_UNIT.get(column.kind, "")
    return f"{value:g} {unit}" if unit else str(value)
