"""Several posts named in one Post cell: how many they are, and whether another row or number says otherwise."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pipeline.intake.layout.courts import at_court, courts_of, each_a_court
from pipeline.intake.layout.record import Record, Stated, Wrong
from pipeline.intake.layout.row_records import names_a_site
from pipeline.intake.layout.told_numbers import may_be_told
from pipeline.intake.measures import read_whole
from pipeline.intake.survey.heading_words import alike, posts_in_the_plural
from pipeline.intake.survey.headings import fold
from pipeline.intake.survey.post_cells import PostsNamed, posts_named
from pipeline.intake.survey.read_cell import typed
from pipeline.reading.book import Cell
from schemas.grounds import COURTS


@dataclass(frozen=True)
class _Post:
    """A record with what its Post cell says."""

    record: Record
    text: str
    named: PostsNamed | None
    court: str = ""


def with_named_posts(records: Sequence[Record]) -> list[Record]:
    """`records` of a file with the number of posts that their Post cells name.

    `1-4` is a range where it stands alone in its site and no stated number contradicts, a code where the site's other
    posts are of its form; else it is asked.
    """
    places: dict[tuple[str, ...], list[int]] = defaultdict(list)
    for place, record in enumerate(records):
        places[_site(record)].append(place)
    made = list(records)
    sites = [[records[place] for place in of_site] for of_site in places.values()]
    each_row = any(_of_each_row(site) for site in sites)
    for of_site, site in zip(places.values(), sites, strict=True):
        for place, record in zip(of_site, _of_a_site(site, each_row), strict=True):
            made[place] = record
    return made


def _of_each_row(site: Sequence[Record]) -> bool:
    """Whether numbers of posts on a site's rows can be no total of the site: they differ, or are less than its rows."""
    numbers = [n for r in site if (n := stated_number(r)) is not None]
    return 1 < len(site) == len(numbers) and (len(set(numbers)) > 1 or numbers[0] < len(site))


def _of_a_site(records: Sequence[Record], each_row: bool) -> list[Record]:
    records = records if each_row else _with_totals_asked(records)
    posts = [replace(_post(r), court=court) for r, court in zip(records, courts_of(records), strict=True)]
    several = [p for p in posts if p.named and p.named.sure]
    made = [_counted(p, posts, several) if p.named else _alone(p, several) if p.text else p.record for p in posts]
    made = [_with_told_asked(r, len(made)) for r in made]
    return [at_court(r, p.court) if p.court else r for r, p in zip(made, posts, strict=True)]


def _with_totals_asked(records: Sequence[Record]) -> Sequence[Record]:
    """A number of posts on each row that is the number of the site's rows may be the site's own: that is asked.

    Where each row is a court of its own, the number is the court's; where a total sums them up, it is each row's.
    """
    if all(r.summed for r in records):
        return records
    stated = [r.values.get("quantity") for r in records]
    plural = [s for s in stated if s and posts_in_the_plural(s.heading.text) and not alike(s.heading.text)]
    if len(records) < 2 or len(plural) < len(records) or any(stated_number(r) != len(records) for r in records):
        return records
    if each_a_court(records) or any(_PER_COURT.search(s.heading.text) for s in plural):
        return records
    message = f"“{len(records)}” stands on each of the {len(records)} rows of the site: it may be how many posts the site has."
    put_right = f"1 where each row is one post, {len(records)} where each row stands for so many."
    return [_wrong(r, Wrong("quantity", _at(r), "CONFLICT", message, put_right)) for r in records]


def _with_told_asked(record: Record, rows: int) -> Record:
    """A remark that may be the row's number of posts, where none is stated and it is not that of the ground's rows."""
    said = may_be_told(record.values.get("notes"))
    if not said or said == rows or "quantity" in record.values or record.named or any(w.name == "quantity" for w in record.wrong):
        return record
    notes = record.values["notes"]
    message = f"“{typed(notes.cell)}” ({notes.at}) may be how many posts the row is."
    at = record.places.get("quantity") or notes.at
    return _wrong(
        record, Wrong("quantity", at, "CONFLICT", message, f"1 where the row is one post, {said} where it stands for so many.")
    )


_PER_COURT = re.compile(rf"\b(?:per|each|at|for|on)\b.*\b{COURTS}\b", re.IGNORECASE)


def _post(record: Record) -> _Post:
    stated = record.values.get("post_code")
    if stated is None or stated.cell.kind != "text" or stated.how == "group_heading":
        return _Post(record, "", None)
    text = typed(stated.cell)
    return _Post(record, text, posts_named(text))


def _site(record: Record) -> tuple[str, ...]:
    """The site of a record as it is compared within its file; rows that name none stand with their sheet's."""
    if not names_a_site(record.values):
        return ("", record.sheet)
    return tuple(fold(str(record.values[n].cell.value)) if n in record.values else "" for n in ("site_code", "site_name"))


def _counted(post: _Post, site: list[_Post], several: list[_Post]) -> Record:
    """The record of a post whose cell may name several, with their number, and what contradicts it."""
    record, named = post.record, post.named
    others = [p for p in site if p is not post and p.text]
    if named and not named.sure:
        decided = _decided(post, named, others)
        if isinstance(decided, Wrong):
            return _wrong(record, decided)
        named = decided
    if named is None:
        return _alone(post, several)
    record = replace(_with_number(record, named, post.text), named=named.codes)
    there = [o for o in others if o.court == post.court]
    again = next((o for o in there if fold(o.text) in _keys(named) or (o.named and _keys(o.named) & _keys(named))), None)
    return _wrong(record, _twice(record, post.text, again)) if again else record


def _alone(post: _Post, several: list[_Post]) -> Record:
    """The record of one post, which may be one of those that another row names."""
    there = [o for o in several if o is not post and o.court == post.court]
    within = next((o for o in there if o.named and fold(post.text) in _keys(o.named)), None)
    return _wrong(post.record, _twice(post.record, post.text, within)) if within else post.record


def _keys(named: PostsNamed) -> set[str]:
    return {fold(c) for c in named.codes}


def _decided(post: _Post, named: PostsNamed, others: list[_Post]) -> PostsNamed | Wrong | None:
    """Whether `1-4` or `3/4` is several posts, one post's code (None), or has to be asked."""
    stated = stated_number(post.record)
    if stated == named.number:
        return named
    if stated == 1 or any(_form(o.text) == _form(post.text) for o in others):
        return None
    if stated is None and not others:
        return named
    message = f"“{post.text}” under “Post” can be the code of one post, or the names of {named.number} posts."
    put_right = f"{named.number} where it names so many posts, 1 where it is a code."
    return Wrong("quantity", _at(post.record), "CONFLICT", message, put_right)


def _form(text: str) -> str:
    """The form of a code: figures and letters of any kind."""
    return re.sub(r"[^\W\d_]+", "a", re.sub(r"\d+", "0", text.casefold())).replace(" ", "")


def stated_number(record: Record) -> int | None:
    """The stated number of posts; None where there is none, or none that can be read."""
    stated = record.values.get("quantity")
    value = read_whole(stated.cell.value) if stated and stated.cell.kind in ("text", "number") else None
    return value if isinstance(value, int) else None


def _at(record: Record) -> str:
    return record.places.get("quantity") or record.values["post_code"].at


def _with_number(record: Record, named: PostsNamed, text: str) -> Record:
    """The number that a Post cell names, where no other is stated."""
    post, stated = record.values["post_code"], stated_number(record)
    if "quantity" in record.values:
        if named.number is None or stated is None or stated == named.number:
            return record
        message = f"“{typed(record.values['quantity'].cell)}” is stated, and “{text}” under “Post” names {named.number} posts."
        put_right = f"{named.number}, or name the posts that are meant."
        return _wrong(record, Wrong("quantity", record.values["quantity"].at, "CONFLICT", message, put_right))
    if named.number is None:
        message = f"“{text}” under “Post” does not say how many posts there are."
        return _wrong(record, Wrong("quantity", _at(record), "MISSING", message, "the number of posts, such as 2"))
    cell = Cell(post.cell.row, post.cell.column, "number", named.number)
    return replace(record, values={**record.values, "quantity": Stated(cell, post.heading, _at(record), "post_cell")})


def _twice(record: Record, text: str, other: _Post) -> Wrong:
    """A post that stands in a row with others and in a row of its own."""
    message = f"“{text}” and “{other.text}” ({other.record.label}) name the same post."
    put_right = "Name each post on one row only."
    return Wrong("post_code", record.values["post_code"].at, "CONFLICT", message, put_right)


def _wrong(record: Record, wrong: Wrong) -> Record:
    """The record without the value of a column that is asked about."""
    values = {n: v for n, v in record.values.items() if n != wrong.name or n == "post_code"}
    return replace(record, values=values, wrong=(*record.wrong, wrong))
