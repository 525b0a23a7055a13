"""Which site and which post a row is about, where its code is left blank.

Source: design section 11, rules 4 and 5.
"""

from __future__ import annotations

import hashlib
import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from pipeline.intake.survey.fault import CellFault, Fault, RowRead
from pipeline.intake.survey.survey_row import Origin, SurveyRow
from schemas.order import folded, natural

_LONGEST = 32  # characters of the name in a made code

Who = tuple[str, str]
"""Name and customer of a site, folded."""


def identified(read: Sequence[RowRead]) -> list[RowRead]:
    """The rows with a site code made from the site's name and a post code by their order, where those are left blank."""
    codes = _codes_by_name([r.row for r in read])
    return _numbered([_with_site(r, codes) for r in read])


def made_code(name: str, customer: str) -> str:
    """A code for a site of which only the name is known: the same every night, and another one for another customer."""
    plain = re.sub(r"[^\w]+", "-", name).strip("-").upper()[:_LONGEST].strip("-")
    mark = hashlib.blake2b(f"{folded(name)}\n{folded(customer)}".encode(), digest_size=2).hexdigest().upper()
    return f"{plain}-{mark}".lstrip("-")


def _who(row: SurveyRow) -> Who:
    return folded(row.site_name or ""), folded(row.customer or "")


def _codes_by_name(rows: Sequence[SurveyRow]) -> dict[Who, list[str]]:
    """The codes that a name with its customer stands with, each in its first spelling."""
    found: dict[Who, dict[str, str]] = defaultdict(dict)
    for row in rows:
        if row.site_code and row.site_name:
            spelled = found[_who(row)]
            key = folded(row.site_code)
            spelled[key] = min(spelled.get(key, row.site_code), row.site_code, key=natural)
    return {who: sorted(spelled.values(), key=natural) for who, spelled in found.items()}


def _with_site(read: RowRead, codes: dict[Who, list[str]]) -> RowRead:
    row = read.row
    if row.site_code or not row.site_name or "site_code" in row.unread:
        return read
    known = codes.get(_who(row), [])
    if len(known) > 1:
        message = f"“{row.site_name}” stands with several codes: {', '.join(known)}."
        at = row.cells.get("site_code") or row.cells.get("site_name", "")
        return replace(read, faults=(*read.faults, CellFault("site_code", at, Fault("CONFLICT", message, " or ".join(known)))))
    code = known[0] if known else made_code(row.site_name, row.customer or "")
    return replace(read, row=_made(row, "site_code", row.site_name, code))


def _numbered(read: Sequence[RowRead]) -> list[RowRead]:
    """Posts without a code are numbered in their site, file by file, in the order of the rows."""
    taken: dict[tuple[str, str], set[str]] = defaultdict(set)
    place: dict[tuple[str, str], int] = defaultdict(int)
    for r in read:
        if r.row.post_code:
            taken[r.row.file, folded(r.row.site_code)].add(folded(r.row.post_code))
    out = []
    for r in read:
        row, site = r.row, (r.row.file, folded(r.row.site_code))
        place[site] += 1
        if row.site_code and not row.post_code and ("post_code" not in row.unread or row.quantity):
            number = place[site]
            while str(number) in taken[site]:
                number += 1
            taken[site].add(str(number))
            r = replace(r, row=_made(row, "post_code", row.typed.get("post_code", ""), str(number)))
        out.append(r)
    return out


def _made(row: SurveyRow, name: str, typed: str, code: str) -> SurveyRow:
    origin = Origin(name, row.cells.get(name, ""), typed, code, "made")
    changed: dict[str, str] = {name: code}
    return replace(row, **changed, origins=(*row.origins, origin))  # type: ignore[arg-type]
