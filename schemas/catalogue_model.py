"""The pandera models of the catalogue's tables: what every row must be by itself. Heavy, as schemas.frames."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import pandas as pd
import pandera.pandas as pa

from schemas.catalogue import LEAST_AND_MOST, MAY_BE_ZERO
from schemas.column import SI_UNIT, Column, Table
from schemas.frames import column_model
from schemas.lengths import SLACK
from schemas.order import folded


@cache
def catalogue_model(table: Table) -> pa.DataFrameSchema:
    """What the rows of `table` must be: filled where it is needed, lists, signs, windows, no key twice."""
    columns = {c.name: column_model(c, _numbers(c)) for c in table.columns}
    together = [pa.Check(rule, error=name, ignore_na=False) for name, rule in _rules(table).items()]
    return pa.DataFrameSchema(columns, checks=together, strict=True, ordered=True, name=table.name)


def _numbers(column: Column) -> list[pa.Check]:
    """No number is negative, none is 0 where 0 makes no sense, and no discount is above 100 %."""
    if column.kind not in SI_UNIT and column.kind not in ("money", "whole", "percent"):
        return []
    checks = [pa.Check.ge(0, error="negative")]
    if column.name not in MAY_BE_ZERO:
        checks.append(pa.Check.ne(0, error="zero"))
    return [*checks, pa.Check.le(100, error="above all")] if column.kind == "percent" else checks


Rule = Callable[[pd.DataFrame], "pd.Series[bool]"]


def _rules(table: Table) -> dict[str, Rule]:
    """What several columns or rows must say together, by the words in which a failure is named."""
    rules: dict[str, Rule] = {}
    for least, most in LEAST_AND_MOST:
        if least in table.names:
            rules[least] = lambda d, least=least, most=most: ~(d[least] > d[most] + SLACK)  # type: ignore[misc]
    if "step_m" in table.names:
        rules["step_m"] = lambda d: ~((d["adjustment"] == "stepped") & ~(d["step_m"] > 0))
    if table.key:
        rules["key"] = lambda d: _once(d, table)
    return rules


def _once(d: pd.DataFrame, table: Table) -> pd.Series[bool]:
    """Whether a row's key stands in no row before it; codes without regard to case and spaces."""
    keys = pd.DataFrame({name: d[name].map(_alike, na_action="ignore") for name in table.key})
    return ~keys.duplicated() | keys.isna().any(axis=1)


def _alike(value: object) -> object:
    return folded(value) if isinstance(value, str) else value
