"""Which of the headings that claim a column have it, and which of them yield."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from pipeline.intake.layout.assets import are_schedules, posts_before_assets
from pipeline.intake.layout.counted_posts import whole_numbers
from pipeline.intake.layout.courts import is_court, may_be_a_court
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.heading_rows import HeadingRow
from pipeline.intake.layout.place_names import is_on_a_ground, is_within_a_ground
from pipeline.intake.layout.posts_headed import names_under, number_posts, says_posts
from pipeline.intake.layout.round_or_square import round_or_square
from pipeline.intake.layout.several_meanings import Rows, names_grounds
from pipeline.intake.survey.heading_words import speaks_of_posts
from pipeline.intake.survey.headings import FAINT, LISTS_IN_HEADINGS, WEAK, Claim, says_where
from pipeline.intake.survey.list_words import read_word
from pipeline.intake.survey.post_cells import is_same_as_above
from schemas.grounds import NUMBERED_SCHOOLS
from schemas.survey import SURVEY


def without_courts(heading: HeadingRow, data: Rows) -> HeadingRow:
    """The headings, where courts without a name (`T1`, `2`) name no site: one that says where, and names it, does."""
    where = [n for n, c in heading.claims.items() if c.name == "site_name"]
    if not where or not all(may_be_a_court(heading.texts[n]) and _all_codes(n, data) for n in where):
        return heading
    claims = {n: c for n, c in heading.claims.items() if n not in where}
    of_ground = [n for n, t in heading.texts.items() if n not in claims and says_where(t) and not _all_codes(n, data)]
    named = {of_ground[0]: Claim("site_name", "", FAINT)} if len(of_ground) == 1 else {}
    return replace(heading, claims=claims | named)


def site_elsewhere(chosen: dict[str, list[int]], heading: HeadingRow, data: Rows) -> None:
    """A column of other things names no site, nor one that says where: within a ground, or beside one that names grounds."""
    for name in ("site_name", "site_code"):  # `Sch.` may be a pipe's schedule
        columns = [n for n in chosen.get(name, ()) if not are_schedules(heading.texts[n], data, n)]
        if name in chosen and not columns:
            del chosen[name]
        elif name in chosen:
            chosen[name] = columns
    if "site_name" in chosen and not (
        named := [n for n in chosen["site_name"] if not _of_other_words(heading.claims[n], n, data)]
    ):
        del chosen["site_name"]
    elif "site_name" in chosen:
        chosen["site_name"] = named
    where = chosen.get("site_name", [])
    if len(where) > 1 and (in_words := [n for n in where if not _all_codes(n, data)]):  # `Bldg` beside `Bldg name`
        where = chosen["site_name"] = in_words
    if where and all(heading.claims[n].strength == FAINT for n in where):
        claimed = {n for columns in chosen.values() for n in columns}
        if _within_a_ground(where[0], data) or any(names_grounds(n, data) for n in heading.texts if n not in claimed):
            del chosen["site_name"]


def choose(heading: HeadingRow, data: Rows, turned: bool = False) -> tuple[dict[str, list[int]], tuple[tuple[str, str], ...]]:
    """Columns that claim each name, in order; a weak heading yields to a surer one, and is named.

    `turned`: the headings stand below each other, where a blank row parts bands of posts, which are all read.
    """
    claims, texts = heading.claims, heading.texts
    by_name: dict[str, list[int]] = {}
    for n in sorted(claims):
        by_name.setdefault(claims[n].name, []).append(n)
    _posts_that_are_named(by_name, claims, texts, names_under(heading.texts, data))
    chosen, passed_over = {}, []
    for name, columns in by_name.items():
        columns = _no_numbers(name, columns, heading, data)
        columns = columns if turned else _where_most_are(columns, heading, data)
        sure = [n for n in columns if claims[n].strength > WEAK]
        if not columns:
            continue
        if (
            name == "quantity"
            and not sure
            and not heading.labels
            and "post_code" not in by_name
            and any(says_posts(texts[n]) for n in columns)
        ):
            where = (by_name.get("site_name") or by_name.get("site_code", []))[:1] + [n for n, t in texts.items() if is_court(t)]
            if len(columns) == 1 and number_posts(whole_numbers(columns[0], data), where, data):
                chosen[name] = columns
                continue
            passed_over += [(texts[n], "") for n in columns]  # 'Posts' may be their names
            continue
        if name == "post_size" and round_or_square({n: texts[n] for n in columns}, data):
            chosen[name] = columns
            continue
        sure = sure or _named_in_words(name, [n for n in columns if claims[n].strength > FAINT], columns, texts, data)
        sure = sure or [n for n in columns if len(columns) > 1 and names_grounds(n, data)]
        sure = posts_before_assets(sure, heading, data) if name == "post_code" else sure
        if sure:
            passed_over += [(texts[n], texts[sure[0]]) for n in columns if n not in sure]
        chosen[name] = sure or columns
    return chosen, tuple(passed_over)


def _no_numbers(name: str, columns: list[int], heading: HeadingRow, data: Rows) -> list[int]:
    """The columns without those of a list of words in which nothing but numbers stands: `Line` may number the rows."""
    listed = SURVEY.column(name).kind == "choice" and name not in ("soil_class", "exposure")
    weak = [n for n in columns if listed and heading.claims[n].strength <= WEAK]
    cells = {n: [row[n] for _, row in data if n in row] for n in weak}
    numbers = {
        n for n, there in cells.items() if there and all(str(c.value).strip(" .").replace(".", "").isdigit() for c in there)
    }
    return [n for n in columns if n not in numbers]


def _where_most_are(columns: list[int], heading: HeadingRow, data: Rows) -> list[int]:
    """Of several columns those that stand together with most known ones, where blank columns part a row of headings."""
    if len(columns) < 2:
        return columns
    filled = sorted(heading.texts.keys() | {n for _, row in data for n in row})
    part, parts = 0, {}
    for before, n in zip([filled[0], *filled], filled, strict=False):
        part += n > before + 1
        parts[n] = part
    known = Counter(parts[n] for n in heading.claims)
    best = max(known.values())
    chosen = [n for n in columns if known[parts[n]] == best]
    return chosen or columns


def _texts(column: int, data: Rows) -> list[str]:
    return [str(row[column].value) for _, row in data if column in row and row[column].kind == "text"]


def _of_other_words(known: Claim, column: int, data: Rows) -> bool:
    """Whether a column names no site by what stands there: the game, or nothing but words of a list (`concrete`)."""
    texts = [t for t in _texts(column, data) if not is_same_as_above(t)]
    weak = known.strength <= WEAK and bool(texts) and all(len(t.strip()) > 2 for t in texts)
    listed = weak and any(all(read_word(name, t) for t in texts) for name in LISTS_IN_HEADINGS)
    return listed or _of_the_game(column, data)


def _of_the_game(column: int, data: Rows) -> bool:
    """Whether every cell speaks of the game or of a post, and names no ground: `Basketball post`."""
    texts = _texts(column, data)
    return bool(texts) and all(speaks_of_posts(t) and not ground_in(t) for t in texts)


_NUMBERED_SCHOOL = re.compile(rf"(?:{NUMBERED_SCHOOLS})\W+(?:n\W{{0,2}}o?\W*)?\d{{1,4}}", re.IGNORECASE)
"""`Liceo 3`, `Escuela N° 12`: the number is the school's name."""


def _within_a_ground(column: int, data: Rows) -> bool:
    """Whether half of the cells are parts of a ground without a name of their own: `Playground`, `North court 2`."""
    texts = [t for t in _texts(column, data) if not is_same_as_above(t) and not _NUMBERED_SCHOOL.fullmatch(t.strip())]
    within = [is_within_a_ground(t) or is_on_a_ground(t) for t in texts]
    return 2 * sum(within) >= max(1, len(within))


def _named_in_words(name: str, sure: list[int], columns: list[int], texts: Mapping[int, str], data: Rows) -> list[int]:
    """Surer columns of a name, but for one of numbers where another one names the site in words, and one of its courts."""
    if name != "site_name":
        return sure
    codes = {n for n in columns if whole_numbers(n, data) or (may_be_a_court(texts[n]) and _all_codes(n, data))}
    named = [n for n in sure if n not in codes] or ([n for n in columns if n not in codes] if sure else [])
    return [n for n in named if not may_be_a_court(texts[n])] or named


def _all_codes(column: int, data: Rows) -> bool:
    """Whether no cell has a word of three letters: `T1`, `2`."""
    return not any(re.search(r"[^\W\d_]{3}", t) for t in _texts(column, data) if not is_same_as_above(t))


def _posts_that_are_named(
    by_name: dict[str, list[int]], claims: Mapping[int, Claim], texts: Mapping[int, str], named: frozenset[int]
) -> None:
    """`Posts` heads the posts' names where none else does, and another heading states their number or its cells are names."""
    columns = by_name.get("quantity", [])
    weak = [n for n in columns if claims[n].strength == WEAK and says_posts(texts[n])]
    if len(weak) == 1 and "post_code" not in by_name and (len(columns) > 1 or weak[0] in named):
        by_name["quantity"] = [n for n in columns if n not in weak]
        by_name["post_code"] = weak
        if not by_name["quantity"]:
            del by_name["quantity"]
