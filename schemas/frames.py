"""pandera models of every table at its border, made from the glossary. Heavy: import it only where frames are checked."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from decimal import Decimal
from functools import cache
from typing import Any, NamedTuple

import pandas as pd
import pandera.pandas as pa
from pandera.errors import SchemaErrors

from schemas.column import SI_UNIT, Column, Table
from schemas.lengths import SLACK
from schemas.order import folded
from schemas.policy import POLICY, SETTINGS
from schemas.survey import ROUND_ONLY, SURVEY, WALL_PART
from schemas.surveyed_post import SurveyedPost

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
    columns = {c.name: _column(c) for c in table.columns}
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


def survey_frame(posts: Sequence[SurveyedPost]) -> pd.DataFrame:
    """The rows of all surveys as one frame: a row a post row, the glossary's names, SI, blank where nothing is known."""
    known = {c.name: [getattr(p, c.name) for p in posts] for c in SURVEY.columns}
    keys = {name: [v or None for v in known[name]] for name in SURVEY.key}
    return pd.DataFrame({c.name: pd.Series((known | keys)[c.name], dtype=_dtype(c)) for c in SURVEY.columns})


def survey_model(policy: Mapping[str, Any]) -> pa.DataFrameSchema:
    """What every survey row must be: lists, needed cells, the policy's plausible ranges, and what columns and rows say together."""
    columns = {c.name: _column(c, _plausible(c, policy)) for c in SURVEY.columns}
    together = [pa.Check(rule, error=name, ignore_na=False) for name, rule in TOGETHER.items()]
    return pa.DataFrameSchema(columns, checks=together, strict=True, ordered=True, name=SURVEY.name)


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


def _plausible(column: Column, policy: Mapping[str, Any]) -> list[pa.Check]:
    """The policy's range of a column."""
    if not column.least:
        return []
    least, most = float(policy[column.least]) - SLACK, float(policy[column.most]) + SLACK
    if column.kind == "lengths":
        return [pa.Check(lambda v: all(least <= x <= most for x in v), element_wise=True, error="plausible")]
    return [pa.Check.in_range(least, most, error="plausible")]


def _names_its_site(d: pd.DataFrame) -> pd.Series:
    return d["site_code"].notna() | d["site_name"].notna()


def _wall_within_size(d: pd.DataFrame) -> pd.Series:
    return ~(d["wall"] > d["post_size"] / WALL_PART + SLACK)


def _clear_within_height(d: pd.DataFrame) -> pd.Series:
    return ~(d["clear_length"] > d["post_height"] + SLACK)


def _round_where_it_must_be(d: pd.DataFrame) -> pd.Series:
    return ~(d["size_basis"].isin(ROUND_ONLY) & d["post_shape"].notna() & (d["post_shape"] != "round"))


def _post_stands_once(d: pd.DataFrame) -> pd.Series:
    keys = pd.DataFrame({name: _alike(d[name]) for name in SURVEY.key})
    return ~keys.duplicated(keep=False) | keys.isna().any(axis=1)


def _site_says_one_thing(d: pd.DataFrame) -> pd.Series:
    site = _alike(d["site_code"])
    said = [_alike(d[name]).groupby(site).transform("nunique") for name in ("site_name", "customer", "site_kind")]
    return ~(pd.concat(said, axis=1).max(axis=1) > 1)


def _alike(codes: pd.Series) -> pd.Series:
    """Codes as they are compared."""
    return codes.map(folded, na_action="ignore")


TOGETHER: dict[str, Callable[[pd.DataFrame], pd.Series]] = {
    "names its site": _names_its_site,
    "wall within size": _wall_within_size,
    "clear within height": _clear_within_height,
    "round where it must be": _round_where_it_must_be,
    "post stands once": _post_stands_once,
    "site says one thing": _site_says_one_thing,
}
"""What several columns or rows must say together, by the words in which a failure is named."""

POLICY_IN_FORCE = pa.DataFrameSchema(
    {s.name: pa.Column(object, nullable=False) for s in SETTINGS}, strict=True, name="policy in force"
)
"""One row, every setting once: the mapping that the computation reads."""


def frame(rows: Iterable[Mapping[str, Any]], table: Table) -> pd.DataFrame:
    """`rows` as a frame with the types of `table`; a name that a row lacks is blank."""
    rows = list(rows)
    data = {c.name: pd.Series([r.get(c.name) for r in rows], dtype=_dtype(c)) for c in table.columns}
    types = DERIVED.get(table.name, {})
    others = sorted({k for r in rows for k in r} - set(data))
    extra = {k: pd.Series([r.get(k) for r in rows], dtype=types.get(k, "object")) for k in others}
    return pd.DataFrame({**data, **extra})


def check(data: pd.DataFrame, table: Table) -> pd.DataFrame:
    """`data` as it is, or FrameError with every failure of the table's model in one go."""
    return _checked(data, model(table), table.name)


def check_policy(policy: Mapping[str, Any]) -> None:
    """FrameError where a policy lacks a setting, has an unknown one, or has a blank."""
    data = pd.DataFrame({k: pd.Series([v], dtype=object) for k, v in policy.items()})
    _checked(data, POLICY_IN_FORCE, POLICY.name)


def _checked(data: pd.DataFrame, schema: pa.DataFrameSchema, name: str) -> pd.DataFrame:
    try:
        return schema.validate(data, lazy=True)
    except SchemaErrors as e:
        cases = e.failure_cases
        said = [
            f"{column or 'table'}: {what}, row {row}: {case!r}"
            for column, what, row, case in zip(
                cases["column"], cases["check"], cases["index"], cases["failure_case"], strict=True
            )
        ]
        raise FrameError(name, said) from e


def _dtype(column: Column) -> str:
    """The type of a column's values in a frame."""
    if column.kind in FLOATS or column.kind == "pipe":
        return "float64"
    if column.kind == "whole" or _numbered(column):
        return "Int64"
    return "boolean" if column.kind == "flag" else "object"


def _numbered(column: Column) -> bool:
    """A choice among whole numbers, such as a soil class."""
    return column.kind == "choice" and all(v.isdecimal() for v in column.values)


def _column(column: Column, range_: Sequence[pa.Check] = ()) -> pa.Column:
    """The model of one column; a range of its own takes the place of `not negative`."""
    checks = [*range_] or _checks(column)
    return pa.Column(_dtype(column), checks, nullable=not column.needed, required=True, title=column.heading)


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
