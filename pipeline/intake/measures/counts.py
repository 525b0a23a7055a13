"""Whole numbers, plain decimals and money."""

from __future__ import annotations

from decimal import Decimal

from pipeline.intake.measures.model import Doubt


def read_whole(value: str | int | float) -> int | Doubt:
    """A whole number: `4`, `4.0`, `4 posts`, `12x`."""
    try:
        return int(str(value))
    except ValueError:
        return Doubt("UNREADABLE", f"'{value}' is not a whole number.", "Type digits only, such as 4.")


def read_decimal(value: str | int | float) -> Decimal | Doubt:
    """A plain decimal or an amount of money: `1,234.50`, `$1,234.50`, `1 234,50`."""
    try:
        return Decimal(str(value))
    except ArithmeticError:
        return Doubt("UNREADABLE", f"'{value}' is not a number.", "Type digits only, such as 1234.50.")
