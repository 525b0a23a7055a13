"""What the catalogue lacks: one new item that would serve posts which have no kit for want of it alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pipeline.sheets import show
from pipeline.xlsx.page import Page
from pipeline.xlsx.values import Col
from schemas.lengths import DOWN, UP

_NOTHING = "Nothing: no post is without a kit for want of one mount or one extension alone."


def write_wanted(page: Page, row: int, name: str, wanted: Sequence[Mapping[str, Any]], feet: bool) -> int:
    """A table of rows of data/wanted.csv from `row` on, lengths in the readers' units; returns the row after it."""
    if not wanted:
        return page.para(row, _NOTHING)
    columns = [
        Col("Rank", "whole"),
        Col("What is wanted", "bold", 60),
        Col("Posts it would serve", "whole"),
        Col("Sites", "whole"),
        Col("At the sites", "text", 60),
    ]
    rows = [[w["rank"], _item(w, feet), w["posts"], w["sites"], str(w["site_codes"]).replace(";", ", ")] for w in wanted]
    return page.table(row, name, columns, rows)


def _item(w: Mapping[str, Any], feet: bool) -> str:
    """The wanted item in words."""
    least, most = w["size_least_m"], w["size_most_m"]
    size = show.length(least, feet)
    if least != most:  # a window that holds them all
        size = f"{show.length(least, feet, DOWN)} to {show.length(most, feet, UP)}"
    if w["kind"] == "mount":
        return f"a mount for {w['post_shape']} posts of {size}"
    return f"an extension of at least {show.depth(w['added_m'], feet)} for {w['post_shape']} posts of {size}"
