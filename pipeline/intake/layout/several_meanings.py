"""Headings with several meanings: what stands below them says which column it is, or they stay as they are."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from pipeline.intake.layout.beside import group_label, key_of
from pipeline.intake.layout.counted_posts import are_no_names, counts_posts, stands_behind, whole_numbers
from pipeline.intake.layout.courts import is_court
from pipeline.intake.layout.grid import Row, line
from pipeline.intake.layout.grounds import ground_in
from pipeline.intake.layout.heading_rows import HeadingRow
from pipeline.intake.layout.measured import MEASURED, are_heights, are_sizes, are_walls
from pipeline.intake.layout.place_names import name_places
from pipeline.intake.layout.postal_codes import without_postal_codes
from pipeline.intake.layout.posts_headed import names_under, says_posts
from pipeline.intake.layout.what_headings_mean import can_mean, meanings_of
from pipeline.intake.measures import Doubt, Measure, PipeSize, heading_unit, read_post_size
from pipeline.intake.measures.pipe_names import names_a_pipe
from pipeline.intake.survey.folding import fold, fold_word
from pipeline.intake.survey.heading_words import counts, counts_other_things, describes_a_site, goals_in_the_plural
from pipeline.intake.survey.headings import FAINT, SYNONYM, WEAK, Claim
from pipeline.intake.survey.lay_headings import without_both
from pipeline.intake.survey.list_words import question, read_word
from pipeline.intake.survey.post_cells import is_same_as_above, posts_named
from pipeline.intake.survey.shape_words import shape_described
from pipeline.intake.survey.words_of_headings import our_words
from pipeline.reading.book import Cell
from schemas.languages import NO, YES
from schemas.yes_no import YesNo

Rows = Sequence[tuple[int, Row]]


def decided(heading: HeadingRow, rows: Rows) -> tuple[HeadingRow, tuple[tuple[str, str], ...]]:
    """`_decided` until nothing changes: a heading that means another column leaves its first one to others."""
    meant: tuple[tuple[str, str], ...] = ()
    heading = without_postal_codes(heading, rows)
    for _ in range(3):
        heading, more = _decided(heading, rows)
        meant += more
        if not more:
            break
    return heading, meant


def _decided(heading: HeadingRow, rows: Rows) -> tuple[HeadingRow, tuple[tuple[str, str], ...]]:
    """The headings with what their cells say of those with several meanings, and each of these with its column.

    A heading means the one column that every cell below it fits, where none else claims that column.
    """
    claims, meant = dict(heading.claims), []
    names_of_posts = []
    for n, text in heading.texts.items():
        before = claims.get(n)
        if before is None and (asked := _ticked(text, n, rows)):
            claims[n] = Claim(asked.column, "", SYNONYM)
            continue
        fit = [m for m in _free(n, text, heading, rows) if _fits(m, n, heading, rows)]
        fit = ["quantity"] if "quantity" in fit else ["post_shape"] if set(fit) in _SHAPE_AND_MORE else fit
        if fit == ["post_code"] and (before is None or before.strength == WEAK):
            names_of_posts.append(n)
        elif len(fit) == 1 and (before is None or before.name != fit[0]):
            claims[n] = Claim(fit[0], heading_unit(text)[1] if fit[0] in MEASURED else "", SYNONYM)
            meant.append((line(text), fit[0]))
    labels = dict(heading.labels)
    for n, (label, words) in heading.open.items():
        own = {claims[k].name for k, other in labels.items() if key_of(other) == key_of(label)}
        fit = [m for m in meanings_of(words) if n not in claims and m not in own and _fits(m, n, heading, rows)]
        if len(fit) == 1:
            claims[n], labels[n] = Claim(fit[0], "", SYNONYM), label
            meant.append((line(heading.texts[n]), fit[0]))
    if named := _tell_posts(names_of_posts, heading, rows):
        claims[named] = Claim("post_code", "", SYNONYM)
        meant.append((line(heading.texts[named]), "post_code"))
    if not meant and (mostly := _mostly_shapes(replace(heading, claims=claims), rows)):
        claims[mostly] = Claim("post_shape", "", SYNONYM)
        meant.append((line(heading.texts[mostly]), "post_shape"))
    return replace(heading, claims=claims, labels=labels), tuple(meant)


_SHAPE_AND_MORE = ({"post_shape", "material"}, {"post_shape", "post_line"})
"""`Steel pipe`, `gooseneck pipe`: a gooseneck is read wherever it stands."""


def _mostly_shapes(heading: HeadingRow, rows: Rows) -> int:
    """A column of the kind of post where most cells say a shape, and none other says it; 0 where there is none.

    What is no shape there holds its row.
    """
    if any(c.name == "post_shape" for c in heading.claims.values()):
        return 0
    for n, text in heading.texts.items():
        if n in heading.claims or "desc" in text.casefold() or "post_shape" not in _free(n, text, heading, rows):
            continue
        texts = [str(c.value) for c in _cells(n, rows) if not is_same_as_above(str(c.value))]
        said = [len(t.strip()) > 1 and read_word("post_shape", t) is not None for t in texts]
        if sum(said) > 1 and sum(said) >= _MOST_OF_THEM * len(said):
            return n
    return 0


_MOST_OF_THEM = 2 / 3


def _free(column: int, text: str, heading: HeadingRow, rows: Rows) -> list[str]:
    """Columns that a heading can mean and that no surer one claims."""
    own = heading.claims.get(column)
    of_group = ("post_shape",) if own and own.name == "post_code" else ()  # `Pole` within a group is not its name
    text = without_both(text) if heading.labels else text
    names = (of_group if column in heading.labels else meanings_of(text)) or _labels_posts(column, heading, rows)
    sure = {c.name for k, c in heading.claims.items() if k != column and c.strength > WEAK}
    if names_under(heading.texts, rows) - {column}:  # `Posts` names them
        sure.add("post_code")
    return [m for m in names if m not in sure]


def _labels_posts(column: int, heading: HeadingRow, rows: Rows) -> tuple[str, ...]:
    """The posts' names, where a column that is not known has nothing but names of one post of several: `Hoop 1`, `North`."""
    claimed = column in heading.claims or any(c.name == "post_code" for c in heading.claims.values())
    if claimed or is_court(heading.texts[column]):
        return ()
    names = [str(c.value) for c in _cells(column, rows)]
    return ("post_code",) if names and all(_is_label(n) for n in names) else ()


def _is_label(text: str) -> bool:
    """Whether a cell names one post of several, or several: `North`, `Hoop 1`, `N & S`; bare numbers may be anything's."""
    several = posts_named(text)
    codes = several.codes if several and several.sure else (text,)
    return bool(codes) and all(group_label(c) and not c.strip().isdigit() for c in codes)


def may_name_posts(column: int, rows: Rows) -> bool:
    """Whether a cell of a column plainly names several posts, which would else be counted as one."""
    named = [posts_named(str(c.value)) for c in _cells(column, rows) if c.kind == "text"]
    return any(n and n.sure and n.form in ("list", "range") for n in named)


def _tell_posts(columns: Sequence[int], heading: HeadingRow, rows: Rows) -> int:
    """Of columns that can name posts, one whose names are no running numbers, else the first; 0 where one is known already."""
    words = [n for n in columns if any(c.kind == "text" and not str(c.value).strip().isdigit() for c in _cells(n, rows))]
    known = any(c.name == "post_code" for c in heading.claims.values())
    return next(iter(words if known else (*words, *columns)), 0)


def _ticked(text: str, column: int, rows: Rows) -> YesNo | None:
    """The question that a heading asks without its mark, where all its cells are ticks, or yes and no."""
    cells = _cells(column, rows)
    asked = question(text)[0]
    return asked if cells and asked and all(c.kind == "bool" or fold_word(str(c.value)) in _ANSWERS for c in cells) else None


_ANSWERS = frozenset(fold_word(w) for w in (*YES, *NO)) - {""} | {"✓", "✔", "☑", "✗", "☐"}


def _fits(name: str, column: int, heading: HeadingRow, rows: Rows) -> bool:
    """Whether every cell of a column is one of `name`'s."""
    fit = _FITS.get(name)
    if fit is not None:
        return fit(column, heading, rows)
    texts = [str(c.value) for c in _cells(column, rows) if not is_same_as_above(str(c.value))]
    if name == "post_shape" and {t.strip().upper() for t in texts} == {"R", "S"}:
        return True
    figures = any(letter.isdigit() for t in texts for letter in t)  # `100 x 100 x 4 SHS` is a size
    if name == "post_shape" and texts and not figures and all(len(t.strip()) > 1 and shape_described(t) for t in texts):
        return True
    words = [read_word(name, text) if len(text.strip()) > 1 else None for text in texts]
    return bool(words) and all(words) and any(w and w.value != "unknown" for w in words)


def _cells(column: int, rows: Rows) -> list[Cell]:
    return [row[column] for _, row in rows if column in row and len(row) > 2]


def names_grounds(column: int, rows: Rows) -> bool:
    """Whether every cell of a column, one at least, names a ground or is a mark for the same as above."""
    cells = _cells(column, rows)
    return bool(cells) and all(c.kind == "text" and (is_same_as_above(str(c.value)) or ground_in(str(c.value))) for c in cells)


def _names_sites(column: int, heading: HeadingRow, rows: Rows) -> bool:
    """Whether every cell names a ground; where no other heading says whose ground it is, names of places will do."""
    if names_grounds(column, rows):
        return True
    others = {c.name: n for n, c in heading.claims.items() if n != column and c.name == "site_code"}
    for n in (n for n, c in heading.claims.items() if n != column and c.name == "site_name"):
        coded = heading.claims[n].strength == FAINT and all(_CODE.fullmatch(str(c.value)) for c in _cells(n, rows))
        others["site_code" if coded else "site_name"] = n  # `LOCATION` over `PK-11`
    if "site_name" in others or not name_places(heading.texts[column], _cells(column, rows)):
        return False
    return not others or (describes_a_site(our_words(heading.texts[column])) and _one_each(column, others["site_code"], rows))


_CODE = re.compile(r"[\w./-]*\d[\w./-]*|[A-Z]{1,5}")


def _one_each(column: int, codes: int, rows: Rows) -> bool:
    """Whether each code of a column has one text of another, and no two the same."""
    pairs = {(fold(str(row[codes].value)), fold(str(row[column].value))) for _, row in rows if codes in row and column in row}
    return len({code for code, _ in pairs}) == len({name for _, name in pairs}) == len(pairs)


def names_posts(column: int, heading: HeadingRow, rows: Rows) -> bool:
    """Whether every row has a short name of its own at its ground and court, and none may be several posts or one."""
    if says_posts(heading.texts[column]) and column not in names_under(heading.texts, rows):
        return False
    above = [n for n, text in heading.texts.items() if n != column and _says_where(heading.claims.get(n), text)]
    where = dict.fromkeys(above, "")
    keys: list[tuple[str, ...]] = []
    if _may_be_numbers(column, heading.texts[column], rows) or stands_behind(column, heading, whole_numbers(column, rows)):
        return False
    for _, row in rows:
        if len(row) < 3:
            where = {n: line(str(row[n].value)) if n in row else "" for n in above} | {0: f"{len(keys)}"}
            continue
        where |= {n: line(str(row[n].value)) for n in above if n in row and not is_same_as_above(str(row[n].value))}
        cell = row.get(column)
        if cell is None or cell.kind not in ("text", "number") or not _is_a_name(line(str(cell.value))):
            return False
        keys.append((*where.values(), fold(line(str(cell.value))) or str(cell.value)))
    return bool(keys) and len(set(keys)) == len(keys)


def _may_be_numbers(column: int, text: str, rows: Rows) -> bool:
    """Whether a bare number under a plural (`Hoops`) may be how many there are: no cell names several by numbers."""
    cells = [str(c.value).strip() for c in _cells(column, rows)]
    several = [n.codes for c in cells if (n := posts_named(c)) and n.sure and n.form in ("list", "range")]
    numbered = any(code.isdigit() for codes in several for code in codes)
    return goals_in_the_plural(text) and not numbered and any(re.fullmatch(r"\d+(?:\.0)?", c) for c in cells)


def _says_where(known: Claim | None, text: str) -> bool:
    return (known is not None and known.name in ("site_code", "site_name")) or is_court(text)


def _sizes(column: int, heading: HeadingRow, rows: Rows) -> bool:
    """Whether each cell names a pipe or a section by itself, or is a post's size under a lay word for one."""
    return are_sizes(heading.texts[column], _cells(column, rows)) or _names_pipes(column, rows)


def _names_pipes(column: int, rows: Rows) -> bool:
    """Whether each cell says a size with its unit and its shape by itself, or one a pipe and the others a size with a unit.

    `NPS 3`, `114.3 x 5.0 CHS`, `100 mm SHS`; `DN 80` beside `90 mm`.
    """
    cells = [c for c in _cells(column, rows) if not is_same_as_above(str(c.value))]
    texts = list(dict.fromkeys(str(c.value) if c.kind == "text" else "" for c in cells))
    if any(isinstance(read_post_size(t), Doubt) and not names_a_pipe(t) for t in texts[:_FIRST]):
        return False
    read = [read_post_size(t) for t in texts]
    known = [m for m in read if isinstance(m, (Measure, PipeSize))]
    if any(isinstance(m, PipeSize) for m in known):
        return all(not isinstance(m, Doubt) or names_a_pipe(t) for m, t in zip(read, texts, strict=True))
    return bool(read) and len(known) == len(read) and all(m.shape for m in known)


_FIRST = 12  # cells that are tried before all of them


def _is_a_name(text: str) -> bool:
    named = posts_named(text)
    return len(text) <= 30 and not is_same_as_above(text) and (named is None or named.sure)


def may_count(heading: str, column: int, rows: Rows) -> bool:
    """Whether a column may say how many posts a row is: no running number, and not all one.

    Under a word for a number; or small numbers, some of them alike, under words that say nothing else that is counted.
    """
    numbers = whole_numbers(column, rows)
    running = numbers == list(range(1, len(numbers) + 1))
    names = can_mean().get(fold(heading_unit(heading)[0]), ())
    may = "quantity" in names or counts(heading) or (are_no_names(numbers) and not counts_other_things(heading))
    return may and bool(numbers) and not running and max(numbers) > 1


_FITS: Mapping[str, Callable[[int, HeadingRow, Rows], bool]] = {
    "site_name": _names_sites,
    "post_code": names_posts,
    "quantity": counts_posts,
    "post_size": _sizes,
    "post_height": lambda column, heading, rows: are_heights(heading.texts[column], _cells(column, rows)),
    "wall": lambda column, heading, rows: are_walls(heading.texts[column], _cells(column, rows)),
}
