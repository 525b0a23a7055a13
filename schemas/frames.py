"""pandera models of every table at its border, made from the glossary. Heavy: import it only where frames are checked."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from functools import cache
from typing import Any, NamedTuple

import pandas as pd
import pandera.pandas as pa
from pandera.errors import SchemaErrors

from schemas.column import SI_UNIT, Column, Table

FLOATS = {*SI_UNIT, "number"} - {"lengths"}
NEVER_NEGATIVE = {"mass", "speed", "moment", "force", "pressure", "money", "percent", "whole"}
SIGNED = {"court_rise", "post_to_end_line"}
"""Lengths that may be negative; the glossary's other lengths may not."""


_ISO_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")


DERIVED = {"Survey": {"size_nominal": "boolean", "shape_inferred": "boolean"}}
"""Columns that reading adds where it has something to say (whether a size was a nominal pipe size), by table."""


class FrameError(ValueError):
    """A frame that is not what its table says; `failures` has one sentence for each failure."""

    def __init__(self, table: str, failures: Iterable[str]) -> None:
        self.failures = tuple(failures)
        super().__init__(f"{table}: " + "; ".join(self.failures))


@cache
def model(table: Table) -> pa.DataFrameSchema:
    """The pandera model of `table` after reading: SI floats, words, Decimal money, whole numbers; no other columns.

    A column with `needed` has no blanks; a key is unique.
    """
    columns = {c.name: column_model(c) for c in table.columns}
    columns |= {name: pa.Column(dtype, nullable=True, required=False) for name, dtype in DERIVED.get(table.name, {}).items()}
    return pa.DataFrameSchema(
        columns,
        strict=True,
        ordered=True,
        unique=list(table.key) or None,
        name=table.name,
    )


class Failure(NamedTuple):
    """One value, or one row ('' for its column), that does not pass a check of its model."""

    row: int
    column: str
    check: str


def failures(data: pd.DataFrame, schema: pa.DataFrameSchema) -> list[Failure]:
    """Everything in `data` that does not pass, in one go and in order; FrameError where the frame itself is ill made."""
    try:
        schema.validate(data, lazy=True)
    except SchemaErrors as e:
        cases = e.failure_cases
        if cases["index"].isna().any():
            raise FrameError(str(schema.name), [str(case) for case in cases["failure_case"][cases["index"].isna()]]) from e
        alone = cases["schema_context"] == "Column"
        found = zip(cases["index"], cases["column"].where(alone, ""), cases["check"], strict=True)
        return sorted({Failure(int(row), str(column), str(check)) for row, column, check in found})
    return []


def frame(rows: Iterable[Mapping[str, Any]], table: Table) -> pd.DataFrame:
    """`rows` as a frame with the types of `table`; a name that a row lacks is blank."""
    rows = list(rows)
    data = {c.name: pd.Series([r.get(c.name) for r in rows], dtype=dtype(c)) for c in table.columns}
    types = DERIVED.get(table.name, {})
    others = sorted({k for r in rows for k in r} - set(data))
    extra = {k: pd.Series([r.get(k) for r in rows], dtype=types.get(k, "object")) for k in others}
    return pd.DataFrame({**data, **extra})


def check(data: pd.DataFrame, table: Table) -> pd.DataFrame:
    """`data` as it is, or FrameError with every failure of the table's model in one go."""
    return _checked(data, model(table), table.name)


def _checked(data: pd.DataFrame, schema: pa.DataFrameSchema, name: str) -> pd.DataFrame:
    try:
        return schema.validate(data, lazy=True)
    except SchemaErrors as e:
        cases = e.failure_cases
        faults = [
            f"{column or 'table'}: {what}, row {row}: {case!r}"
            for column, what, row, case in zip(
                cases["column"], cases["check"], cases["index"], cases["failure_case"], strict=True
            )
        ]
        raise FrameError(name, faults) from e


def dtype(column: Column) -> str:
    """The type of a column's values in a frame."""
    if column.kind in FLOATS or column.kind == "pipe":
        return "float64"
    if column.kind == "whole" or _numbered(column):
        return "Int64"
    return "boolean" if column.kind == "flag" else "object"


def _numbered(column: Column) -> bool:
    """A choice among whole numbers, such as a soil class."""
    return column.kind == "choice" and all(v.isdecimal() for v in column.values)


def column_model(column: Column, range_: Sequence[pa.Check] = ()) -> pa.Column:
    """The model of one column; a range of its own takes the place of `not negative`."""
    checks = [*range_] or _checks(column)
    return pa.Column(dtype(column), checks, nullable=not column.needed, required=True, title=column.heading)


def _checks(column: Column) -> list[pa.Check]:
    """What each value that is not blank must be."""
    if column.kind == "choice":
        values: list[Any] = [int(v) for v in column.values] if _numbered(column) else list(column.values)
        if not values:
            return [_each(lambda v: isinstance(v, str), "a word")]
        return [pa.Check.isin(values)]
    if column.kind in ("text", "code"):
        checks = [_each(lambda v: isinstance(v, str), "text")]
        return [*checks, _each(lambda v: bool(str(v).strip()), "not blank")] if column.needed else checks
    if column.kind == "lengths":
        return [_each(lambda v: isinstance(v, tuple) and all(isinstance(x, float) for x in v), "lengths in m")]
    if column.kind in ("money", "percent"):
        return [_each(lambda v: isinstance(v, Decimal), "an exact decimal"), _each(lambda v: v >= 0, "not negative")]
    if column.kind == "date":
        return [_each(lambda v: isinstance(v, str) and bool(_ISO_DATE.fullmatch(v)), "an ISO 8601 date")]
    if column.kind in NEVER_NEGATIVE or (column.kind in ("length", "pipe") and not _signed(column)):
        return [pa.Check.ge(0, error="not negative")]
    return []


def _signed(column: Column) -> bool:
    return column.name.removesuffix("_m") in SIGNED or column.name in ("ring_height_max_m",)


def _each(test: Any, words: str) -> pa.Check:
    """A check of one value at a time, named in plain words."""
    return pa.Check(test, element_wise=True, error=words)
