"""Rows of headings: where one stands, which columns it claims, and for which of several posts."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from pipeline.intake.layout.beside import (
    accepted,
    beside_the_first,
    column_group,
    group_label,
    label_and_rest,
    labelled,
    of_one_post,
)
from pipeline.intake.layout.grid import Row
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.measures import heading_unit
from pipeline.intake.survey.folding import fold_word
from pipeline.intake.survey.heading_words import is_whole_height, names_a_post, speaks_of_posts
from pipeline.intake.survey.headings import SYNONYM, WEAK, Claim, claim, joined, of_a_thing
from pipeline.intake.survey.lay_headings import without_both
from pipeline.intake.survey.other_things import is_a_sale, is_another_thing, is_over_other_things, of_other_posts, of_other_things
from pipeline.reading.book import Cell
from schemas.heading_words import BOARD_WORDS, OF_THE_GAME
from schemas.languages import NO, YES
from schemas.several_meanings import POSTS_IN_TITLES

OF_A_POST = frozenset(("post_code", "post_shape", "post_size", "post_height", "post_line", "old_fittings"))
WHOSE = frozenset(("site_code", "site_name", "post_code"))
_ONLY_OF_POSTS = frozenset(("post_code", "post_shape", "wall", "post_line", "post_base", "old_fittings", "quantity"))
"""Columns of which one stands in a table of posts beside size and height; trees have none of them."""
LONGEST = 80  # characters of a heading
BELOW = 40  # rows below a heading that may tell its columns
ABOVE = 12  # rows above a heading in which a title is looked for
ABOUT_POSTS = re.compile(rf"\b(?:{POSTS_IN_TITLES})\b", re.IGNORECASE)


@dataclass(frozen=True)
class HeadingRow:
    """A heading that takes `taken` rows: what each column claims, its words, and the post that it belongs to.

    `labels` has the post's name for columns that are one post's of several on a row.
    """

    taken: int
    claims: Mapping[int, Claim]
    texts: Mapping[int, str]
    labels: Mapping[int, str]
    of_others: bool = False  # a table of other things, which is not read
    open: Mapping[int, tuple[str, str]] = field(default_factory=dict)  # post and words of headings of one post that claim nothing


def is_of_others(rows: Sequence[tuple[int, Row]], i: int, heading: HeadingRow, tab: str) -> bool:
    """Whether the titles over a heading at row `i`, the tab or a heading itself say that other things stand below it."""
    titles = [tab]
    for _, row in reversed(rows[max(0, i - ABOVE) : i]):
        if len(row) > _TITLE:
            break
        titles += [str(c.value) for c in row.values() if c.kind == "text"]
    data = rows[i + heading.taken : i + heading.taken + BELOW]
    heads = [t for n, t in heading.texts.items() if not _asks_whether(t, n, data)]
    named = any(c.name == "post_code" and not is_another_thing(heading.texts[n]) for n, c in heading.claims.items())
    if any(map(is_over_other_things, titles)) or any(is_a_sale(t) or (is_another_thing(t) and not named) for t in heads):
        return True
    of_the_game = any(re.search(OF_THE_GAME, t, re.IGNORECASE) for t in (*titles, *heads))
    return not of_the_game and any(map(of_other_posts, heads))


_TITLE = 2  # cells of a title, at most


def heading_at(
    rows: Sequence[tuple[int, Row]], i: int, likely: int, named: bool = False, on_tab: bool = False
) -> HeadingRow | None:
    """The heading that starts at row `i`, or None; `likely` of its cells at least must look like headings.

    `named`: the posts' names stand in a row that has no heading; `on_tab`: the sheet's name is that of a ground.
    """
    upper = rows[i][1]
    if sum(_may_be_heading(c) for c in upper.values()) < likely:
        return None
    about = on_tab or any(_about_posts(r) for _, r in rows[max(0, i - ABOVE) : i])
    about = about or any(_is_a_post(c) for _, r in rows[i + 1 : i + 3] for c in r.values())
    one = one_row({n: str(c.value) for n, c in upper.items() if c.kind == "text"})
    below = rows[i + 1] if i + 1 < len(rows) else (0, {})
    if below[0] == rows[i][0] + 1 and all(c.kind == "text" for c in (*upper.values(), *below[1].values())):
        upper_texts, lower_texts = ({n: str(c.value) for n, c in cells.items()} for cells in (upper, below[1]))
        two = over_two_rows(upper_texts, lower_texts)
        if two and is_survey(two, named, about, rows[i + 2 : i + 2 + BELOW]):
            return two
    return one if is_survey(one, named, about, rows[i + 1 : i + 1 + BELOW]) else None


def one_row(texts: Mapping[int, str]) -> HeadingRow:
    """Headings of one row; those that name a post count where posts stand side by side."""
    claims = _with_whole_height({n: found for n, text in texts.items() if (found := claim(text))}, texts)
    every = {n: one for n, text in texts.items() if (one := labelled(text))}
    unclaimed = {n: one for n, one in every.items() if n not in claims}
    for beside in (every, unclaimed, beside_the_first(unclaimed, claims)):
        labels = {n: label for n, (label, _) in beside.items()}
        both = claims | {n: found for n, (_, found) in beside.items()}
        if accepted(labels, both):
            break
    else:
        return HeadingRow(1, claims, texts, {})
    both = _of_both(texts, labels) | both
    still = {n: open_one for n, text in texts.items() if n not in both and (open_one := label_and_rest(text))}
    return HeadingRow(1, both, texts, labels, open=still)


def _of_both(texts: Mapping[int, str], labels: Mapping[int, str]) -> dict[int, Claim]:
    """What headings claim that are both posts' of a row, where posts stand side by side: `OD both ends`."""
    every = {n: rest for n, text in texts.items() if labels and n not in labels and (rest := without_both(text)) != text}
    return {n: found for n, rest in every.items() if (found := claim(rest))}


def _with_whole_height(claims: Mapping[int, Claim], texts: Mapping[int, str]) -> dict[int, Claim]:
    """A total height is the post's where the rows are named posts, and no heading speaks of a board or a ring."""
    of_posts = any(c.name == "post_code" and names_a_post(texts[n]) for n, c in claims.items())
    others = {w for t in texts.values() for w in re.findall(r"\w+", t.casefold())} & BOARD_WORDS
    whole = [n for n, t in texts.items() if n not in claims and is_whole_height(t)] if of_posts and not others else []
    return {**claims, **{n: Claim("post_height", heading_unit(texts[n])[1], WEAK) for n in whole}}


def over_two_rows(upper: Mapping[int, str], lower: Mapping[int, str]) -> HeadingRow | None:
    """The heading over two rows where any column needs both, and neither row says more alone."""
    two, used = two_rows(upper, lower)
    over = _groups(upper, sorted(upper.keys() | lower.keys()))
    below = [found for n, t in lower.items() if not of_a_thing(over[n]) and (found := claim(t))]
    least = max(len(names_of(one_row(upper).claims.values())), len(names_of(below)))
    return two if used and len(names_of(two.claims.values())) >= least else None


def two_rows(upper: Mapping[int, str], lower: Mapping[int, str]) -> tuple[HeadingRow, bool]:
    """Headings written over two rows, and whether any of them needs both."""
    columns = sorted(upper.keys() | lower.keys())
    texts = {n: f"{upper.get(n, '')} {lower.get(n, '')}".strip() for n in columns}
    over = _groups(upper, columns)
    labels = {n: label for n in columns if n in lower and (label := column_group(over[n])) and claim(lower[n])}
    claims = {n: found for n in labels if (found := claim(lower[n]))}
    if accepted(labels, claims):
        rest = {n: found for n in columns if n not in labels and (found := _over(n, upper, lower, over))}
        unclaimed = {n: (label, t) for n, t in lower.items() if n not in claims and (label := column_group(over[n]))}
        rest = _of_both(upper, labels) | rest
        return HeadingRow(2, claims | rest, texts, of_one_post(labels, claims, upper), open=unclaimed), True
    if beside := _posts_below(upper, lower, over, texts):
        return beside, True
    claims = {n: found for n in columns if (found := _over(n, upper, lower, over))}
    used = any(claim(f"{_upper(n, upper, lower, over)} {lower[n]}") for n in claims if n in lower and over[n])
    return HeadingRow(2, claims, texts, {}), used


def _posts_below(
    upper: Mapping[int, str], lower: Mapping[int, str], over: Mapping[int, str], texts: Mapping[int, str]
) -> HeadingRow | None:
    """Posts side by side below what is measured: `N` and `S` under `Size`, and again under `Height`."""
    labels = {n: label for n, t in lower.items() if (label := group_label(t)) and claim(over[n])}
    claims = {n: found for n in labels if (found := claim(over[n]))}
    if not accepted(labels, claims):
        return None
    rest = _of_both(upper, labels) | {n: found for n in upper if n not in labels and (found := claim(upper[n]))}
    return HeadingRow(2, claims | rest, texts, of_one_post(labels, claims, upper))


def _groups(upper: Mapping[int, str], columns: Sequence[int]) -> dict[int, str]:
    """The upper heading over each column: its own, or that of the group on its left."""
    over, group = {}, ""
    for n in columns:
        group = upper.get(n, group)
        over[n] = group
    return over


def _upper(n: int, upper: Mapping[int, str], lower: Mapping[int, str], over: Mapping[int, str]) -> str:
    return over[n] if n in lower else upper[n]


def _over(n: int, upper: Mapping[int, str], lower: Mapping[int, str], over: Mapping[int, str]) -> Claim | None:
    """What a heading over two rows claims."""
    above, under = _upper(n, upper, lower, over), lower.get(n, "")
    if len(upper) == 1:
        return claim(under or above)
    starts_group = n in upper and n in lower and n + 1 in lower and n + 1 not in upper
    return joined(above, under, grouped=n not in upper or starts_group)


def _may_be_heading(cell: Cell) -> bool:
    return cell.kind == "text" and len(str(cell.value)) <= LONGEST and _means_something(str(cell.value).translate(_ONES))


_ONES = str.maketrans("0123456789", "1111111111")
"""A figure is as good as another for what a text means: `Post 12` is looked up once with `Post 47`."""


@lru_cache(maxsize=16384)
def _means_something(text: str) -> bool:
    return claim(text) is not None or labelled(text) is not None or bool(group_label(text))


def _is_a_post(cell: Cell) -> bool:
    """Whether a cell below a heading says that the row is a post: `Poste canasta` under `Elemento`."""
    return cell.kind == "text" and len(str(cell.value)) <= LONGEST and speaks_of_posts(str(cell.value))


def rows_of_others(row: HeadingRow, data: Sequence[tuple[int, Row]]) -> bool:
    """Whether the rows are other things by a heading, and no heading surely names a post; `Lights?` asks about the court."""
    named = any(c.name == "post_code" and c.strength >= SYNONYM for c in row.claims.values())
    return not named and any(of_other_things(t) and not _asks_whether(t, n, data) for n, t in row.texts.items())


def _asks_whether(heading: str, column: int, data: Sequence[tuple[int, Row]]) -> bool:
    """Whether a heading is a question, or has nothing but yes and no below it."""
    cells = [row[column] for _, row in data if column in row and len(row) > 2]
    answers = bool(cells) and all(c.kind == "bool" or fold_word(str(c.value)) in _YES_OR_NO for c in cells)
    return answers or heading.rstrip(" :*").endswith("?")


_YES_OR_NO = frozenset(fold_word(w) for w in (*YES, *NO)) - {""}


def _about_posts(above: Row) -> bool:
    """Whether a row above a heading speaks of posts, or names a ground."""
    return any(_says_posts_or_ground(str(c.value)) for c in above.values() if c.kind == "text")


@lru_cache(maxsize=16384)
def _says_posts_or_ground(text: str) -> bool:
    found = claim(text.rstrip(" :="))
    labelled_so = (found is not None and found.name in ("site_code", "site_name")) or labels_a_site(text)
    return bool(ABOUT_POSTS.search(text) or ground_in(text)) or labelled_so


def labels_a_site(text: str) -> bool:
    """Whether a text says whose ground it is behind a label: `Property: Cinnamon Creek`."""
    before, colon, name = text.partition(":")
    found = claim(before) if colon and name.strip() and len(before) <= _LONGEST_LABEL else None
    return found is not None and found.name in ("site_code", "site_name")


_LONGEST_LABEL = 40  # characters


def names_of(claims: Collection[Claim]) -> set[str]:
    return {c.name for c in claims}


def is_survey(row: HeadingRow, named: bool, about: bool, data: Sequence[tuple[int, Row]]) -> bool:
    """Whether a row of headings heads a survey: three columns, two of them surely about a post, and whose it is.

    `about`: a title above speaks of posts or names a ground, or the tab does; then a size and a height
    will do beside a column that only posts have.
    """
    names = names_of(row.claims.values())
    of_a_post = {c.name for c in row.claims.values() if c.strength >= SYNONYM} & OF_A_POST
    if named or len(set(row.labels.values())) > 1:
        names, of_a_post = names | {"post_code"}, of_a_post | {"post_code"}
    if rows_of_others(row, data):
        return False
    if about and {"post_size", "post_height"} <= names and names & _ONLY_OF_POSTS and of_a_post:
        return True
    return len(names) >= 3 and len(of_a_post) >= 2 and (bool(names & WHOSE) or len(of_a_post) >= 4)
