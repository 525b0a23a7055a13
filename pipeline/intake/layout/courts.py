"""Posts of the same name on several courts of one ground, told apart by the sender's own column of courts."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from pipeline.intake.layout.record import Record
from pipeline.intake.survey.folding import fold
from pipeline.intake.survey.post_cells import is_same_as_above
from pipeline.intake.survey.read_cell import typed
from schemas.grounds import BEFORE_A_COURT, BEHIND_A_COURT, COURTS

_NUMBERED = r"no|nr|nro|n[°º]|#|núm|num(?:ber|mer|ero)?|número|name|nom|nombre|nome|id|refs?|reference|code|label|mark|letter|tag"
_HEADING = re.compile(
    rf"\W*{BEFORE_A_COURT}{COURTS}{BEHIND_A_COURT}\W*(?:{_NUMBERED})?\W*",
    re.IGNORECASE,
)
_OR = re.compile(r"\s*/\s*|\s+(?:or|o|ou|oder|y|et|e)\s+", re.IGNORECASE)
_LONGEST = 24  # characters of a court's name


def is_court(heading: str) -> bool:
    """Whether a heading is over the courts of a ground."""
    return _HEADING.fullmatch(heading.replace("_", " ")) is not None


def may_be_a_court(heading: str) -> bool:
    """Whether a heading is over courts, or over courts and what else: `Sede / cancha`."""
    return any(map(is_court, _OR.split(heading.strip())))


def pieces_of(heading: str) -> list[str]:
    """The things that a heading is over: `Covered court`, `plaza`."""
    return _OR.split(heading.strip())


def courts_of(site: Sequence[Record]) -> list[str]:
    """The court of each record of a site, where courts are stated and only they tell posts of one name apart; else ''."""
    for heading in dict.fromkeys(h for r in site for h in r.extra if is_court(h)):
        places = [(_court(heading, cell), _code(r)) for r, cell in zip(site, _as_above(heading, site), strict=True)]
        codes = {code for _, code in places}
        if all(court and code for court, code in places) and len({*_folded(places)}) == len(site) > len(codes):
            return [court for court, _ in places]
    return [""] * len(site)


def each_a_court(site: Sequence[Record]) -> bool:
    """Whether each record of a site has a court of its own in the sender's column of courts."""
    for heading in dict.fromkeys(h for r in site for h in r.extra if may_be_a_court(h)):
        courts = [fold(court) for court in _as_above(heading, site)]
        if all(courts) and len(set(courts)) == len(site):
            return True
    return False


def _as_above(heading: str, site: Sequence[Record]) -> Iterator[str]:
    """The cells of a column of courts; a mark for the same as above, or a blank within a site's block, is the one above it."""
    above, sheet = "", ""
    for record in site:
        cell = record.extra.get(heading, "")
        in_block = any(v.how == "block" for v in record.values.values())
        if not (is_same_as_above(cell) or (in_block and not cell)):
            above, sheet = cell, record.sheet
        yield above if record.sheet == sheet else ""


def _folded(places: Sequence[tuple[str, str]]) -> list[tuple[str, str]]:
    return [(fold(court), code) for court, code in places]


def _court(heading: str, cell: str) -> str:
    """A court in words: `Court 2` for `2` under `Court`."""
    if len(cell) > _LONGEST:
        return ""
    thing = re.search(COURTS, heading, re.IGNORECASE)
    return f"{thing[0]} {cell}" if thing and re.fullmatch(r"\w{1,2}", cell) else cell


def _code(record: Record) -> str:
    stated = record.values.get("post_code")
    return fold(typed(stated.cell)) if stated and stated.cell.kind in ("text", "number") else ""


def at_court(record: Record, court: str) -> Record:
    """The record with its court before the post's own name."""
    stated = record.values["post_code"]
    cell = replace(stated.cell, kind="text", value=f"{court} {typed(stated.cell)}", shown="")
    named = tuple(f"{court} {name}" for name in record.named)
    return replace(record, values={**record.values, "post_code": replace(stated, cell=cell, how="group_heading")}, named=named)
