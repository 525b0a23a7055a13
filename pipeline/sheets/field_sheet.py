"""The field sheet: a workbook to take to the site, what goes where and what to look at, and to send back filled in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pipeline.sheets import show
from pipeline.sheets.assembly import Assembly
from pipeline.sheets.customer_report import Fitted
from pipeline.sheets.drawing import elevation
from pipeline.sheets.elevations import PANEL, draw, scale_of
from pipeline.sheets.field_report import FieldReport, Question
from pipeline.xlsx.page import Book, Page
from pipeline.xlsx.values import Col
from schemas.field import ALL, BY, COLUMN, LOOKED_AT, NEW_READING, ON, POST, PROPERTY, QUESTION, READ_AS, UP_TO, WAS, WITH
from schemas.lengths import DOWN, UP
from schemas.words import CAUTION, CAUTION_IN_SHORT, ON_SITE_CHECKS

BOX = "\N{BALLOT BOX}"
BEFORE = ("post looked at, as listed on Check", "size and height measured again", "kit complete and undamaged")
DURING = ("clamps level and at their height", "board plumb, ring level", "fastened as the maker says")
AFTER = ("ring height measured from the court", "bolts tightened as the maker says", "post capped, site cleared")
_TICKS = (("Before", BEFORE), ("During", DURING), ("After", AFTER))
_LEAST_ROW = 22.0
"""Least height of a row that is filled in by hand, or stands beside a drawing [pt]."""
CHECK = [
    Col(POST, "bold", 18, 12),
    Col(QUESTION, "text", 50, 36),
    Col(COLUMN, "text", 22, 18),
    Col(READ_AS, "text", 30, 20),
    Col(NEW_READING, "fill", 22, 22),
    Col(WITH, "fill", 18, 18),
    Col(BY, "fill", 22, 22),
    Col(ON, "fill", 14, 14),
]
_LOOKED_AT = Col(LOOKED_AT, "fill", 12, 12)
"""Beside it, where so many posts stand on one row of the survey that they are asked about together."""
"""The table of `Check`: its headings are read when the sheet comes back. Source: contract section 5."""


def field_workbook(report: FieldReport) -> bytes:
    """The field sheet of one site's revision as .xlsx bytes; the same report gives the same bytes."""
    book = Book(f"Field sheet {report.number}", report.site_name, report.date, report.program, 2, report.paper)
    book.tag(PROPERTY, report.identity)
    _set_out(book, report)
    _check(book, report)
    return book.bytes()


def _print(page: Page, report: FieldReport, landscape: bool) -> None:
    page.print_as(0, f"{report.number}  {report.site_name}", landscape, CAUTION_IN_SHORT)


def facts(f: Fitted, feet: bool) -> list[tuple[str, str]]:
    """What a foreman needs to hang one kit: label and words, lengths to 1/8 in or 5 mm, the ring's height and a joint closer."""
    a = f.assembly
    parts = ((a.mount_words, a.mount), (a.board_words, a.board), (a.ring_words, a.ring), (a.extension_words, a.extension))
    below, above = (lambda z: show.set_out(a.end - z, feet)), (lambda z: show.set_out(z, feet))
    joint = f"{a.extension}: adds {show.set_out(a.added, feet)}, {a.joint}, {show.length(a.joint_length, feet, UP)} in the joint"
    court = a.board_bottom - a.court_rise
    return [
        ("Parts for one post", "\n".join(f"1 x {words} ({code})" if words else f"1 x {code}" for words, code in parts if code)),
        *([("Extension, first", joint)] if a.extension else []),
        ("Top of the clamps", f"{below(a.clamp_top)} below the top of the post; {above(a.clamp_top)} above the ground"),
        ("Foot of the clamps", f"{below(a.clamp_bottom)} below the top of the post; {above(a.clamp_bottom)} above the ground"),
        ("Ring above the court", f"{show.length(a.top, feet, DOWN)}: {setting(a, feet)}"),
        ("Board's lower edge", f"{show.set_out(court, feet)} above the court"),
        (
            "Court",
            f"{show.set_out(a.court_rise, feet)} above the ground at the post" if a.court_rise else "level with the ground",
        ),
        ("Hardware, torque", f"as the maker of the mount says{f' ({a.fastening})' if a.fastening else ''}"),
    ]


def setting(a: Assembly, feet: bool) -> str:
    """The ring's setting, counted from the top."""
    if a.step:
        return f"setting 1 of {round((a.top - a.lowest) / a.step) + 1} from the top, steps of {show.set_out(a.step, feet)}"
    travel = a.top - a.lowest
    return f"highest setting; goes down {show.length(travel, feet, DOWN)} without steps" if travel > 1e-3 else "fixed"


def _set_out(book: Book, report: FieldReport) -> None:
    page = book.page("Set-out")
    page.title(f"Set-out {report.number}: {report.site_name[:80]}")
    page.widths = {0: 20, 1: 52, 2: PANEL}
    row = page.para(1, CAUTION, "caution", 0, 2)
    if not report.fitted:
        page.para(row, "No post of this site has a kit yet; the sheet Check lists what to measure.", "strong", 0, 2)
    drawn = {f.assembly: elevation(f.assembly, report.feet) for f in report.fitted}
    scale = scale_of(list(drawn.values()))
    for f in report.fitted:
        first, row = row + 1, _block(page, row + 1, f, report)
        draw(page, first + 1, 2, drawn[f.assembly], scale, alone=False)
        page.keep(first, row - 1)
    page.sheet.freeze_panes(1, 0)
    _print(page, report, landscape=False)


def _block(page: Page, row: int, f: Fitted, report: FieldReport) -> int:
    """One kit on the posts that look the same, which a page holds whole, the drawing beside it; returns the next row."""
    a = f.assembly
    posts = f"{'Post' if len(f.posts) == 1 else 'Posts'} {show.listed(f.posts)} ({show.counted(f.quantity, 'post')})"
    size = f"{a.post_shape} {show.length(a.post_size, report.feet)}, {show.length(a.post_height, report.feet)} above the ground"
    row = page.section(row, f"{posts}: {size}", 3)
    looks = look_at(f, report)
    rows = [
        *facts(f, report.feet),
        *([("Look at first", "\n".join(looks))] if looks else []),
        *((when, "   ".join(f"{BOX} {what}" for what in whats)) for when, whats in _TICKS),
        ("Done", "   ".join(f"{BOX} {post}" for post in f.posts)),
    ]
    for label, words in rows:
        page.para(row, label, "label", 0, 0)
        page.tall(row, _LEAST_ROW)
        row = page.para(row, words, "para", 1, 1)
    return row


def look_at(f: Fitted, report: FieldReport) -> list[str]:
    """What to look at on the posts of a block; where that is not all of them, they are named."""
    where: dict[str, list[str]] = {}
    for post in f.posts:
        for what in report.look_at.get(post, ()):
            where.setdefault(what, []).append(post)
    return [what if len(posts) == len(f.posts) else f"{show.listed(posts)}: {what}" for what, posts in where.items()]


def _check(book: Book, report: FieldReport) -> None:
    page = book.page("Check", "#8A3B12")
    page.title(f"Check {report.number}: to be filled in on site and sent back")
    row = page.para(1, CAUTION, "caution")
    words = (
        "Fill in New reading with what you find, with its unit; a blank one answers nothing. A size is the outside size: what a "
        "tape reads round the post is written as “circumference 11 in”. Send this workbook back as it is."
    )
    row = page.para(row, words)
    if report.questions:
        top = row
        columns = [*CHECK, *([_LOOKED_AT] if any(q.together for q in report.questions) else [])]
        rows = [_row(q)[: len(columns)] for q in report.questions]
        row = page.table(top, "check", columns, rows, "What to confirm or to measure again")
        _for_the_way_back(page, top, report.questions)
        for number, question in enumerate(report.questions, top + 1):
            _lists(page, number, question)
            page.tall(number, _LEAST_ROW)
    else:
        row = page.para(row, "Nothing is left to confirm or to measure.", "strong")
    row = page.section(row + 1, "To be looked at on site, at every post", len(CHECK))
    page.para(row, "\n".join(f"{BOX} {what}: {say}" for what, say in ON_SITE_CHECKS))
    page.sheet.freeze_panes(1, 1)
    _print(page, report, landscape=True)


def _row(q: Question) -> list[Any]:
    asks = f"{q.of}: {q.asks}" if q.of else q.asks
    return [q.post, asks, q.column, q.read_as, None, None, None, None, None if q.together else "-"]


def _for_the_way_back(page: Page, top: int, questions: Sequence[Question]) -> None:
    """Beside the table, hidden: what the survey's own cells say, and up to what a clearance would hold."""
    first = len(CHECK) + 1
    for column, heading in enumerate((WAS, UP_TO), first):
        page.put(top, column, heading, "note")
    for row, q in enumerate(questions, top + 1):
        page.put(row, first, q.was, "note")
        page.put(row, first + 1, q.up_to, "note")
    page.sheet.set_column(first, first + 1, None, None, {"hidden": True})


def _lists(page: Page, row: int, question: Question) -> None:
    """Drop-downs where the survey's column has a list, and for the tool."""
    for column, words in ((4, question.choices), (5, question.tools), (8, (ALL,) if question.together else ())):
        if words:
            page.sheet.data_validation(row, column, row, column, {"validate": "list", "source": list(words)})
    who = {"validate": "any", "input_title": "By whom", "input_message": question.who[:255]}
    page.sheet.data_validation(row, 6, row, 6, who)
