"""The kits of the post: how many, in which order they stand and why, and the figures of the one that is looked at."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from pipeline.explaining.case import POST, Case
from pipeline.explaining.layout import filed, heading, item, number, paragraph, table
from pipeline.explaining.price_steps import codes, unit_price
from pipeline.money.prices import minor_unit, rounded
from pipeline.rules.arrays import REFUSED
from pipeline.rules.choice import MOST_HEIGHTS, ONE_BOARD, WIDEST_BOARD
from pipeline.rules.rank import differing
from pipeline.rules.verdict import codes as finding_codes
from schemas.words import LOAD_STATES, VERDICTS

SHOWN = 6
"""Kits that are listed."""

_ORDER = (
    "Order: kits whose load is over stand last; then fewest items other than asked for; more wanted ring heights served; "
    "verdict (viable, viable_confirm, viable_extended);{choice} lower unit price; codes of mount, board, ring."
)
_CHOICES = {
    WIDEST_BOARD: " the customer's choice, the wider board;",
    MOST_HEIGHTS: " the customer's choice, the greater range of ring heights;",
    ONE_BOARD: " the customer's choice, one board wherever it fits: {board} with ring {ring};",
}


def kits(case: Case) -> Iterator[str]:
    """How many kits there are, the first of them with what ranks them, and which one is shown below."""
    k, many = case.shown.kits, len(case.shown.kits.rank)
    yield from heading(f"Kits for post {case.row.post_code}")
    if case.answer.posts.cleared[POST] == REFUSED:
        yield from paragraph("None: a licensed engineer has refused the loads on this post (STRENGTH).")
        return
    if not many:
        yield from paragraph("None: no mount of the catalogue that fits the post can be sold with a board and a ring.")
        return
    yield from paragraph(f"{many} {'kit' if many == 1 else 'kits'} can be sold for this post. {_order(case)}")
    shown = list(range(min(SHOWN, many)))
    if case.kit >= SHOWN:
        shown.append(case.kit)
    differs = differing(case.shown.posts, k.post, k.mount, k.board, k.ring)
    heads = ("rank", "load", "other", "heights", "verdict", f"price {case.currency}", "kit")
    yield from table(heads, [_row(case, n, int(differs[n])) for n in shown])
    if many > len(shown):
        yield from paragraph(f"The other {many - len(shown)} stand in data/kits.csv.")
    yield from item("Recommended", _named(case, 0))
    if case.kit < 0:
        yield from paragraph(f"No kit has mount {case.mount_code}: no load and no price can be given for it.")
    elif case.kit != case.recommended:
        yield from item("Looked at below", f"{_named(case, case.kit)}, the best with mount {case.mount_code}")


def _order(case: Case) -> str:
    """What ranks the kits, the customer's choice included."""
    p, c = case.answer.posts, case.catalogue
    choice = int(p.choice[POST])
    board, ring = int(p.customer_board[POST]), int(p.customer_ring[POST])
    if choice == ONE_BOARD and board < 0:
        return _ORDER.format(choice="")
    named = _CHOICES.get(choice, "").format(board=c.boards.code[board], ring=c.rings.code[ring])
    return _ORDER.format(choice=named)


def _named(case: Case, n: int) -> str:
    return f"rank {int(case.shown.kits.rank[n])}, {_kit(case, n)}"


def _kit(case: Case, n: int) -> str:
    k, c = case.shown.kits, case.catalogue
    parts = [c.mounts.code[int(k.mount[n])], c.boards.code[int(k.board[n])], c.rings.code[int(k.ring[n])]]
    e = int(k.extension[n])
    return " + ".join([*parts, *([c.extensions.code[e]] if e >= 0 else [])])


def _row(case: Case, n: int, differs: int) -> list[str]:
    k = case.shown.kits
    heights = f"{int(k.covered[n])} of {int(case.shown.fit.wanted[POST])}"
    price = rounded(int(k.price[n]) * case.catalogue.price_unit, minor_unit(case.currency))
    load = LOAD_STATES[int(k.load["load_state"][n])]
    return [str(int(k.rank[n])), load, str(differs), heights, VERDICTS[int(k.verdict[n])], str(price), _kit(case, n)]


def figures(case: Case) -> Iterator[str]:
    """The kit's line in data/kits.csv."""
    k, n = case.shown.kits, case.kit
    yield from paragraph("The kit as it stands in data/kits.csv (units in the names; blank: not known or none):")
    mount, board, ring, extension = codes(case)
    rows = [
        ("rank", str(int(k.rank[n]))),
        ("verdict", VERDICTS[int(k.verdict[n])]),
        ("confirm", ";".join(finding_codes(k.confirm[n]))),
        *zip(("mount", "board", "ring", "extension"), (mount, board, ring, extension), strict=True),
        ("ring_heights_covered", str(int(k.covered[n]))),
        ("load_state", LOAD_STATES[int(k.load["load_state"][n])]),
        *((name, _load(case, name)) for name in ("utilisation_play", "utilisation_storm")),
        *((f"{name}_N_m", _load(case, name)) for name in ("moment_play", "moment_storm")),
        *((f"{name}_m", _load(case, name, filed)) for name in ("wall_needed", "footing_depth_needed", "ring_sag")),
        ("hung_mass_kg", _load(case, "hung_mass")),
        ("unit_price", str(unit_price(case))),
    ]
    for name, text in rows:
        yield from item(name, text, indent=4)


def _load(case: Case, name: str, shown: Callable[[float], str] = number) -> str:
    value = float(case.shown.kits.load[name][case.kit])
    return "" if math.isnan(value) else shown(value)
