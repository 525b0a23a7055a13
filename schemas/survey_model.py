"""The pandera model of the survey: what every row must be, by itself and beside the others. Heavy, as schemas.frames."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import pandas as pd
import pandera.pandas as pa

from schemas.column import Column
from schemas.frames import column_model, dtype
from schemas.lengths import SLACK
from schemas.order import folded
from schemas.survey import ROUND_ONLY, SURVEY, WALL_PART
from schemas.surveyed_post import SurveyedPost


def survey_frame(posts: Sequence[SurveyedPost]) -> pd.DataFrame:
    """The rows of all surveys as one frame: a row a post row, the glossary's names, SI, blank where nothing is known."""
    known = {c.name: [getattr(p, c.name) for p in posts] for c in SURVEY.columns}
    keys = {name: [v or None for v in known[name]] for name in SURVEY.key}
    return pd.DataFrame({c.name: pd.Series((known | keys)[c.name], dtype=dtype(c)) for c in SURVEY.columns})


def survey_model(policy: Mapping[str, Any]) -> pa.DataFrameSchema:
    """What every survey row must be: lists, needed cells, the policy's plausible ranges, and what columns and rows say together."""
    columns = {c.name: column_model(c, _plausible(c, policy)) for c in SURVEY.columns}
    together = [pa.Check(rule, error=name, ignore_na=False) for name, rule in TOGETHER.items()]
    return pa.DataFrameSchema(columns, checks=together, strict=True, ordered=True, name=SURVEY.name)


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
    stated = [_alike(d[name]).groupby(site).transform("nunique") for name in ("site_name", "customer", "site_kind")]
    return ~(pd.concat(stated, axis=1).max(axis=1) > 1)


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
