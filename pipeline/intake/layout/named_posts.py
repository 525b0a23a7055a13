"""Several posts named in one Post cell: how many they are, and whether another row or number says otherwise."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

from pipeline.intake.layout.courts import at_court, courts_of
from pipeline.intake.layout.record import Record, Stated, Wrong
from pipeline.intake.layout.row_records import names_a_site
from pipeline.intake.measures import read_whole
from pipeline.intake.survey.headings import fold
from pipeline.intake.survey.post_cells import PostsNamed, posts_named
from pipeline.intake.survey.read_cell import typed
from pipeline.reading.book import Cell


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
    posts = [_post(r) for r in records]
    sites: dict[tuple[str, ...], list[_Post]] = defaultdict(list)
    for post in posts:
        sites[_site(post.record)].append(post)
    courts = [c for site in sites.values() for c in courts_of([p.record for p in site])]
    by_post = dict(zip((id(p) for site in sites.values() for p in site), courts, strict=True))
    posts = [replace(p, court=by_post[id(p)]) for p in posts]
    sites = {key: [p for p in posts if _site(p.record) == key] for key in sites}
    made = [_counted(p, sites[_site(p.record)]) if p.named or _of_several(p, sites) else p.record for p in posts]
    return [at_court(r, p.court) if p.court else r for r, p in zip(made, posts, strict=True)]


def _post(record: Record) -> _Post:
    stated = record.values.get("post_code")
    if stated is None or stated.cell.kind != "text" or stated.how == "group_heading":
        return _Post(record, "", None)
    text = typed(stated.cell)
    return _Post(record, text, posts_named(text))


def _site(record: Record) -> tuple[str, ...]:
    """The site of a record as it is compared within its file; rows that name none stand with their sheet's."""
    if not names_a_site(record):
        return ("", record.sheet)
    return tuple(fold(str(record.values[n].cell.value)) if n in record.values else "" for n in ("site_code", "site_name"))


def _of_several(post: _Post, sites: dict[tuple[str, ...], list[_Post]]) -> bool:
    return bool(post.text) and any(p.named for p in sites[_site(post.record)])


def _counted(post: _Post, site: list[_Post]) -> Record:
    """A record with its number of posts, and what contradicts it."""
    record, named = post.record, post.named
    others = [p for p in site if p is not post and p.text]
    if named and not named.sure:
        decided = _decided(post, named, others)
        if isinstance(decided, Wrong):
            return _wrong(record, decided)
        named = decided
    if named is None:
        there = [o for o in others if o.court == post.court and o.named and o.named.sure]
        within = next((o for o in there if o.named and fold(post.text) in _keys(o.named)), None)
        return _wrong(record, _twice(record, post.text, within)) if within else record
    record = replace(_with_number(record, named, post.text), named=named.codes)
    there = [o for o in others if o.court == post.court]
    again = next((o for o in there if fold(o.text) in _keys(named) or (o.named and _keys(o.named) & _keys(named))), None)
    return _wrong(record, _twice(record, post.text, again)) if again else record


def _keys(named: PostsNamed) -> set[str]:
    return {fold(c) for c in named.codes}


def _decided(post: _Post, named: PostsNamed, others: list[_Post]) -> PostsNamed | Wrong | None:
    """Whether `1-4` or `3/4` is several posts, one post's code (None), or has to be asked."""
    stated = _number(post.record)
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


def _number(record: Record) -> int | None:
    """The stated number of posts; None where there is none, or none that can be read."""
    stated = record.values.get("quantity")
    value = read_whole(stated.cell.value) if stated and stated.cell.kind in ("text", "number") else None
    return value if isinstance(value, int) else None


def _at(record: Record) -> str:
    return record.places.get("quantity") or record.values["post_code"].at


def _with_number(record: Record, named: PostsNamed, text: str) -> Record:
    """The number that a Post cell names, where no other is stated."""
    post, stated = record.values["post_code"], _number(record)
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
