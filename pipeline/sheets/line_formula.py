"""The live total of a line of a quotation, and what it gives in decimal arithmetic."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from pipeline.money.amounts import QuoteLine


def line_formula(row: int, digits: int, quantity: str = "C", price: str = "E", discount: str = "F") -> str:
    """Live total of the line on the 1-based sheet `row`: rounded half up, whatever binary numbers make of the half.

    The others are the letters of the columns. The inner rounding to eight decimals undoes binary drift; amounts, prices
    and discounts have fewer.
    """
    return f"=ROUND(ROUND({quantity}{row}*{price}{row}*(1-{discount}{row}/100),8),{digits})"


def line_total(line: QuoteLine, digits: int) -> Decimal:
    """What the formula gives, in decimal arithmetic."""
    exact = line.quantity * line.unit_price * (1 - line.discount_percent / 100)
    return exact.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP)
