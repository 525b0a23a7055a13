"""A column headed `Postcode` of a ground's address, which names no post."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from pipeline.intake.layout.grid import Row
from pipeline.intake.layout.heading_rows import HeadingRow
from pipeline.intake.survey.folding import fold
from schemas.grounds import POSTAL_CODES

_POSTAL = re.compile(POSTAL_CODES, re.IGNORECASE)
_HEADING = "postcode"


def without_postal_codes(heading: HeadingRow, rows: Sequence[tuple[int, Row]]) -> HeadingRow:
    """The heading without the claim of a column `Postcode` whose cells are of addresses, or beside which posts are named."""
    others = {c.name for n, c in heading.claims.items() if fold(heading.texts[n]) != _HEADING}
    drop = [n for n in heading.claims if fold(heading.texts[n]) == _HEADING and ("post_code" in others or _are_postal(n, rows))]
    return replace(heading, claims={n: c for n, c in heading.claims.items() if n not in drop}) if drop else heading


def _are_postal(column: int, rows: Sequence[tuple[int, Row]]) -> bool:
    cells = [str(row[column].value).strip() for _, row in rows if column in row]
    return bool(cells) and all(_POSTAL.fullmatch(c) for c in cells)
