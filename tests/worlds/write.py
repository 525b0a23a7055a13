"""Writes a made-up world as people would have it: one catalogue workbook, several survey workbooks."""

from __future__ import annotations

import math
import random
from fractions import Fraction
from pathlib import Path
from typing import Any

from openpyxl import Workbook
from oracle.model import Catalogue, Post

from .catalogues import Made
from .units import LENGTHS, MASSES, MPH, Cell, decimal_text, length_cell, lengths_cell, number

Column = tuple[str, list[Cell]]


def money(value: Any) -> Cell:
    return int(value) if value == int(value) else float(value)


class Heads:
    """Chooses a unit per column, and writes it in one of the ways that the contract allows."""

    def __init__(self, rng: random.Random) -> None:
        self.rng = rng

    def titled(self, heading: str, unit: str, plain: bool) -> str:
        forms = (f"{heading} [{unit}]",) if plain else (f"{heading} [{unit}]", f"{heading} ({unit})", f"{heading}, {unit}")
        return self.rng.choice(forms)

    def lengths(self, heading: str, values: list[Any], plain: bool = True, text: float = 0.0) -> Column:
        unit = self.rng.choice(tuple(LENGTHS))
        return self.titled(heading, unit, plain), [length_cell(v, unit, self.rng, text) for v in values]

    def masses(self, heading: str, values: list[Any]) -> Column:
        unit = self.rng.choice(tuple(MASSES))
        return f"{heading} [{unit}]", [None if v is None else number(v, MASSES[unit]) for v in values]


def fill(sheet: Any, columns: list[Column], above: tuple[str, ...] = ()) -> None:
    """Headings and cells, below some title rows."""
    for n, line in enumerate(above, start=1):
        if line:
            sheet.cell(n, 1, line)
    for x, (heading, cells) in enumerate(columns, start=1):
        sheet.cell(len(above) + 1, x, heading)
        for y, value in enumerate(cells, start=len(above) + 2):
            if value is not None:
                sheet.cell(y, x, value)


def status(items: Any) -> Column:
    return "Status", ["active" if i.active else "withdrawn" for i in items]


def mount_columns(c: Catalogue, h: Heads) -> list[Column]:
    m = c.mounts
    return [
        ("Mount", [i.code for i in m]),
        ("Description", [f"Mount {i.code} for a {i.shape} post" for i in m]),
        ("Post shape", [i.shape for i in m]),
        h.lengths("Post size least", [i.least for i in m]),
        h.lengths("Post size most", [i.most for i in m]),
        ("Fastening", [i.fastening for i in m]),
        ("Adjustment", [i.adjustment for i in m]),
        h.lengths("Post height needed", [i.needed for i in m]),
        h.lengths("For ring height", [i.for_ring for i in m]),
        h.lengths("Ring travel", [i.travel for i in m]),
        h.lengths("Ring step", [i.step or None for i in m]),
        h.lengths("Clamp length", [i.clamp for i in m]),
        h.lengths("Overhang", [i.overhang for i in m]),
        h.lengths("Board width most", [i.width_most for i in m]),
        h.masses("Board mass most", [i.mass_most for i in m]),
        h.masses("Mass", [i.mass for i in m]),
        ("Price", [money(i.price) for i in m]),
        status(m),
    ]


def board_columns(c: Catalogue, h: Heads) -> list[Column]:
    b = c.boards
    return [
        ("Board", [i.code for i in b]),
        ("Description", [f"Board {i.code}" for i in b]),
        ("Outline", [i.outline for i in b]),
        h.lengths("Width", [i.width for i in b]),
        h.lengths("Height", [i.height for i in b]),
        h.masses("Mass", [i.mass for i in b]),
        ("Face", ["sheet steel" for _ in b]),
        ("Frame", ["angle" for _ in b]),
        ("Ring pattern", [i.pattern for i in b]),
        ("Price", [money(i.price) for i in b]),
        status(b),
    ]


def ring_columns(c: Catalogue, h: Heads) -> list[Column]:
    r = c.rings
    return [
        ("Ring", [i.code for i in r]),
        ("Description", [f"Ring {i.code}" for i in r]),
        ("Kind", [i.kind for i in r]),
        ("Ring pattern", [i.pattern for i in r]),
        h.masses("Mass", [i.mass for i in r]),
        ("Price", [money(i.price) for i in r]),
        status(r),
    ]


def extension_columns(c: Catalogue, h: Heads) -> list[Column]:
    e = c.extensions
    return [
        ("Extension", [i.code for i in e]),
        ("Description", [f"Extension {i.code}" for i in e]),
        ("Post shape", [i.shape for i in e]),
        h.lengths("Post size least", [i.least for i in e]),
        h.lengths("Post size most", [i.most for i in e]),
        ("Joint", [i.joint for i in e]),
        h.lengths("Added height", [i.added for i in e]),
        h.lengths("Joint length", [i.joint_length for i in e]),
        h.lengths("Upper size", [i.upper for i in e]),
        h.lengths("Upper clear length", [i.upper_clear for i in e]),
        h.lengths("Bore least", [i.bore_least for i in e]),
        h.lengths("Bore most", [i.bore_most for i in e]),
        ("Rated moment [N m]", [None if i.rated is None else float(i.rated) for i in e]),
        h.masses("Mass", [i.mass for i in e]),
        ("Price", [money(i.price) for i in e]),
        status(e),
    ]


def small_sheets(made: Made, h: Heads) -> dict[str, list[Column]]:
    c = made.catalogue
    return {
        "Pairings": [("Mount", [m for m, _ in c.pairings]), ("Board", [b for _, b in c.pairings])],
        "Services": [
            ("Service", [s.code for s in c.services]),
            ("Description", [f"Work {s.code}" for s in c.services]),
            ("Charged", [s.charged for s in c.services]),
            ("Price", [money(s.price) for s in c.services]),
        ],
        "Price breaks": [
            ("Item", [i for i, _, _ in c.breaks]),
            ("From quantity", [q for _, q, _ in c.breaks]),
            ("Price", [money(p) for _, _, p in c.breaks]),
        ],
        "Freight": [h.masses("Mass up to", [m for m, _ in c.freight]), ("Price", [money(p) for _, p in c.freight])],
        "Customers": [
            ("Customer", [i.name for i in c.customers]),
            ("Discount [%]", [money(i.discount) for i in c.customers]),
            ("Tax exempt", ["yes" if i.exempt else "no" for i in c.customers]),
            ("Note", [None for _ in c.customers]),
            *further_columns(c),
        ],
        "Policy": [
            ("Setting", [name for name, _, _ in made.policy_rows]),
            ("Value", [value for _, value, _ in made.policy_rows]),
            ("Unit", [unit or None for _, _, unit in made.policy_rows]),
            ("Note", [None for _ in made.policy_rows]),
        ],
    }


def further_columns(c: Catalogue) -> list[Column]:
    """Columns of `Customers` that may be missing: left out where no customer needs them, blank where one does not."""
    columns: list[Column] = [
        ("Also known as", ["; ".join(i.names) or None for i in c.customers]),
        ("Order together", ["yes" if i.together else None for i in c.customers]),
        ("Choice", [None if i.choice == "least price" else i.choice for i in c.customers]),
    ]
    return [column for column in columns if any(column[1])]


def write_catalogue(made: Made, path: Path, rng: random.Random) -> None:
    h = Heads(rng)
    makers = {"Mounts": mount_columns, "Boards": board_columns, "Rings": ring_columns, "Extensions": extension_columns}
    sheets = {name: make(made.catalogue, h) for name, make in makers.items()} | small_sheets(made, h)
    book = Workbook()
    book.remove(book.active)
    for name, columns in sheets.items():
        fill(book.create_sheet(name), columns)
    book.save(path)


def size_cells(posts: tuple[Post, ...], h: Heads) -> Column:
    """Sizes as outside sizes, circumferences or nominal names."""
    heading, cells = h.lengths("Post size", [p.size for p in posts], plain=False, text=0.4)
    unit = next(u for u in ("mm", "cm", "in", "ft", "m") if heading.endswith((f"[{u}]", f"({u})", f", {u}")))
    for n, post in enumerate(posts):
        if post.basis == "circumference":
            cells[n] = math.pi * float(post.size) / float(LENGTHS[unit])
        elif post.typed_size:
            cells[n] = post.typed_size
    return heading, cells


def basis_cells(posts: tuple[Post, ...], rng: random.Random) -> Column:
    """A nominal size sets the basis by itself where it is written as one (`NPS 3`)."""
    by_itself = [(p.typed_size or "").startswith("NPS") and rng.random() < 0.5 for p in posts]
    return "Size is", [None if alone else p.basis for p, alone in zip(posts, by_itself, strict=True)]


def wall_column(posts: tuple[Post, ...], h: Heads) -> Column:
    """Blank where a schedule gives the wall."""
    stated = [None if "sch" in (p.typed_size or "") else p.wall for p in posts]
    return h.lengths("Wall thickness", stated, plain=False, text=0.4)


def lean_cells(posts: tuple[Post, ...], h: Heads) -> Column:
    slopes = {math.atan(0.01): "1:100", math.atan(1 / 48): "1/4 in per ft", math.radians(1): "1 deg"}
    cells: list[Cell] = []
    for post in posts:
        text = slopes.get(post.lean) if post.lean is not None else None
        cells.append(text or (None if post.lean is None else math.degrees(post.lean)))
    return "Lean [deg]", cells


def wind_cells(posts: tuple[Post, ...], h: Heads) -> Column:
    """Numbers under mph, or text in m/s."""
    cells: list[Cell] = []
    for post in posts:
        exact = None if post.wind is None else decimal_text(Fraction(post.wind), 3)
        n = None if post.wind is None else Fraction(post.wind) / MPH
        cells.append(None if n is None else int(n) if n.denominator == 1 else f"{exact} m/s")
    return "Wind speed [mph]", cells


def survey_columns(posts: tuple[Post, ...], h: Heads) -> list[Column]:
    rng = h.rng

    def words(heading: str, name: str) -> Column:
        return heading, [getattr(p, name) for p in posts]

    def length(heading: str, name: str) -> Column:
        return h.lengths(heading, [getattr(p, name) for p in posts], plain=False, text=0.4)

    unit = rng.choice(("ft", "in", "m", "mm"))
    return [
        words("Site code", "site"), words("Site name", "site_name"), words("Customer", "customer"),
        words("Site kind", "site_kind"),
        words(rng.choice(("Post", "POLE", "post")), "code"),
        (rng.choice(("Identical posts", "Qty")), [None if p.quantity == 1 and rng.random() < 0.5 else p.quantity for p in posts]),
        words("Post shape", "shape"), size_cells(posts, h), basis_cells(posts, rng), words("Measured with", "measured"),
        wall_column(posts, h), words("Post material", "material"), length("Height above ground", "height"),
        words("Height measured with", "height_measured"), length("Court above ground", "rise"),
        length("Clear straight length", "clear"), words("Post line", "line"), words("Post base", "base"), lean_cells(posts, h),
        words("Old fittings", "fittings"), words("Condition", "condition"),
        (f"{rng.choice(('Ring heights wanted', 'Rim height'))} [{unit}]", [lengths_cell(p.wanted, unit, rng) for p in posts]),
        length("Least board width", "least_width"), words("Mount asked for", "mount_asked"),
        words("Board asked for", "board_asked"), words("Ring asked for", "ring_asked"),
        length("Footing diameter", "footing_diameter"), length("Footing depth", "footing_depth"), words("Soil class", "soil"),
        wind_cells(posts, h), words("Exposure", "exposure"),
        words("Lean shimmed", "shimmed"), words("Strength cleared", "cleared"), words("Cleared by", "cleared_by"),
        words("Cleared up to [N m]", "cleared_moment"), ("Painted", ["green" for _ in posts]),
    ]  # fmt: skip


def write_survey(posts: tuple[Post, ...], path: Path, rng: random.Random) -> None:
    columns = survey_columns(posts, Heads(rng))
    rng.shuffle(columns)
    book = Workbook()
    book.active.title = "Posts"
    fill(book.active, columns, rng.choice(((), ("Survey of posts", ""), ("Posts that stand", "filled in by hand", ""))))
    book.save(path)
