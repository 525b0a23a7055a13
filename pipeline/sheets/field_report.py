"""What a field sheet is made from: what goes where, and each thing to confirm or to measure as one question."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from pipeline.sheets import show
from pipeline.sheets.assembly import Items
from pipeline.sheets.customer_report import Fitted
from pipeline.sheets.customer_site import fitted
from pipeline.sheets.read_as import read_as
from pipeline.sheets.report import PostReport, SiteReport
from pipeline.sheets.wording import number, strength_open
from schemas.field import A_ROW_EACH
from schemas.findings import BY_CODE
from schemas.survey import HEIGHT_METHODS, SIZE_METHODS, SURVEY

TOOLS = {"post_size": SIZE_METHODS, "post_height": HEIGHT_METHODS}
"""How a column was measured, where that counts."""
_CLEARED = "strength_cleared"


@dataclass(frozen=True)
class Question:
    """One row of the table on `Check`: a column of the survey at a post, to be confirmed or measured again."""

    post: str
    asks: str
    column: str  # heading of the survey
    read_as: str
    choices: tuple[str, ...]  # words of the column's list, () where it is free
    tools: tuple[str, ...]  # what may stand under `With`, () where that does not count
    who: str
    was: str  # what stands in the survey's own cell, '' nothing
    of: str = ""  # which of the posts of its row, '' where there is one
    together: bool = False  # it is about so many posts that a tick says whether all were looked at
    up_to: float | None = None  # moment at the ground up to which a clearance would hold [N m]


@dataclass(frozen=True)
class FieldReport:
    """Everything that a field sheet says; `identity` is what it answers to, by content."""

    number: str  # of the quotation
    site_name: str
    identity: str
    date: str  # ISO
    program: str
    paper: str
    feet: bool
    fitted: tuple[Fitted, ...]
    look_at: dict[str, tuple[str, ...]]  # post -> what to look at there
    questions: tuple[Question, ...]


def field_report(report: SiteReport, items: Items, identity: str, program: str, paper: str) -> FieldReport:
    """The field sheet of a site's revision."""
    asked = tuple(questions(report))
    look_at: dict[str, tuple[str, ...]] = {}
    for q in asked:
        look_at[q.post] = tuple(dict.fromkeys((*look_at.get(q.post, ()), q.asks)))
    made = tuple(fitted(report, items))
    return FieldReport(number(report), report.site_name, identity, report.date, program, paper, report.feet, made, look_at, asked)


def questions(report: SiteReport) -> Iterator[Question]:
    """Each confirm of each post with a kit, and each query that holds nothing, as a row with its own column.

    Source: design section 12.4. A column is asked once a post; what an engineer clears comes last.
    """
    for post in report.posts:
        asks: dict[str, tuple[str, str]] = {}
        sentences = {f.code: f.sentence for f in post.findings if f.state == "confirm"}
        for code in post.kit.confirm if post.kit else ():
            rule = BY_CODE[code]
            asks.setdefault(rule.column, (sentences.get(code) or f"Confirm the {rule.about}.", rule.confirmed_by))
        for query in report.queries:
            if not query.holds_row and query.name and query.code != "ASKED" and query.post_code == post.row.post_code:
                asks.setdefault(query.name, (query.message, "whoever measures the post"))
        if strength_open(post):
            asks |= _strength(post, asks)
        for name, (words, who) in sorted(asks.items(), key=lambda ask: (ask[0] == _CLEARED, SURVEY.names.index(ask[0]))):
            yield from _of_each(_question(post, name, words, who, report.feet), post.quantity)


def _of_each(question: Question, posts: int) -> Iterator[Question]:
    """The question for each of the posts that stand on one row of the survey; for all of them where they are many."""
    if posts <= A_ROW_EACH:
        yield from (replace(question, of=f"{n} of {posts}" if posts > 1 else "") for n in range(1, posts + 1))
    else:
        yield replace(question, of=f"All {posts} posts", together=True)


def _strength(post: PostReport, asks: dict[str, tuple[str, str]]) -> dict[str, tuple[str, str]]:
    """What helps where the strength is open: the wall and the footing measured, and an engineer's word."""
    who = BY_CODE["STRENGTH"].confirmed_by
    cleared = asks.get(_CLEARED, ("Are the loads on post, base and footing cleared? See the sheet Loads.", who))
    measured = "whoever measures the post"
    more = {_CLEARED: cleared}
    if post.row.wall is None:
        more.setdefault("wall", ("Measure the wall near the ground, where rust eats it.", measured))
    if "footing_depth" in asks and post.row.footing_diameter is None and post.row.post_base != "driven":
        more["footing_diameter"] = ("Measure the footing across.", measured)
    return {name: asks.get(name, ask) for name, ask in more.items()}


def _question(post: PostReport, name: str, words: str, who: str, feet: bool) -> Question:
    column, row = SURVEY.column(name), post.row
    typed, value = row.typed.get(name, ""), getattr(row, name)
    known = read_as(column, value, feet) if value not in (None, "") else show.UNKNOWN
    seen = f"{known} (typed: {typed})" if typed and typed != known else known
    was, up_to = row.own.get(name, typed), _clears_up_to(post) if name == _CLEARED else None
    if up_to is not None:
        words = f"{words} Up to {show.moment(up_to, feet)} at the ground."
    return Question(row.post_code, words, column.heading, seen, column.values, TOOLS.get(name, ()), who, was, up_to=up_to)


def _clears_up_to(post: PostReport) -> float | None:
    """The greater moment at the ground of the kit that is to be cleared [N m]; None where one is not known."""
    moments = (post.kit.moment_play, post.kit.moment_storm) if post.kit else (math.nan,)
    return None if any(math.isnan(m) for m in moments) else max(moments)
