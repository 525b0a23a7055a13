"""Why a quotation changed: catalogue, policy, terms and rows now against those that it last came out with, in words.

Only what the quotation used before or uses now counts; the rest of the catalogue cannot be a reason.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from pipeline.intake.survey.survey_row import SurveyRow, stated
from pipeline.ledger.kept_catalogue import Kept
from pipeline.money.customers import terms
from pipeline.sheets.report import Change
from pipeline.site.task import Before, World
from schemas.catalogue import BOARDS, EXTENSIONS, MOUNTS, RINGS, SERVICES
from schemas.column import SI_UNIT, Column, Table
from schemas.order import folded, natural
from schemas.policy import SETTINGS
from schemas.survey import SURVEY

Facts = Mapping[str, Any]
Tables = Mapping[str, Iterable[Facts]]

_KINDS = ((MOUNTS, "mount"), (BOARDS, "board"), (RINGS, "ring"), (EXTENSIONS, "extension"), (SERVICES, "service"))
_SAY_NOTHING = frozenset({"options_per_post", "quote_valid_days", "show_units", "paper", "price_slip", "wanted_window"})
_TERMS = (
    ("discount_percent", "discount [%]"),
    ("tax_exempt", "tax exempt"),
    ("order_together", "order together"),
    ("choice", "choice"),
)
_NAMED = 6
"""Sites that are named where they moved another's price."""
_NO_GEOMETRY = frozenset({"price", "status", "description"})


def reasons(before: Before, now: Facts, rows: Iterable[SurveyRow], customer: str, world: World) -> tuple[Change, ...]:
    """The reasons for a new revision, in a fixed order; never empty. `now` is the content of quote.content."""
    was, is_ = before.content["says"], now["says"]
    found: list[Change] = []
    if before.rows is not None:
        found += _rows(before.rows, {row.post_code: {"typed": row.typed, "values": stated(row)} for row in rows})
    kept = world.before.get(before.catalogue)
    if kept is not None:
        tables = world.catalogue.tables
        used = _used(was) | _used(is_)
        found += _items(kept.tables, tables, used)
        found += _breaks(kept.tables, tables, used)
        found += _pairings(kept.tables, tables, used)
        found += _terms(customer, kept.tables, tables)
        found += _policy(kept, world)
        found += _freight(was, is_, kept.tables, tables)
    if now["order"]["moved_by"] or not found:
        found += _order(before.content.get("order", {}), now["order"])
    if not found and before.program != world.setting.program:
        found = [Change("program", "postquote", before.program, world.setting.program)]
    return tuple(found or [*_kits(was, is_)] or [Change("other", "", "", "")])


def renewed(before: Before, date: str) -> tuple[Change, ...]:
    """The reason for a quotation that was issued anew because the old one had expired."""
    return (Change("renewed", "valid until", before.valid_until, date),)


def _used(says: Facts) -> set[str]:
    """Folded codes of the items and services that a quotation's lines name."""
    return {folded(line[1]) for line in says["lines"] if line[0] != "freight"}


def _rows(was: Mapping[str, Mapping[str, Facts]], now: Mapping[str, Mapping[str, Facts]]) -> Iterator[Change]:
    """Survey rows that were added, removed or changed, and which cell."""
    for post in sorted({*was, *now}, key=natural):
        name = post or "a row without a post code"
        if post not in was:
            yield Change("survey row added", name, "", "added")
        elif post not in now:
            yield Change("survey row removed", name, "there", "")
        else:
            yield from _cells(name, was[post], now[post])


def _cells(post: str, old: Mapping[str, Facts], new: Mapping[str, Facts]) -> Iterator[Change]:
    """Cells that say something else; the same measure written another way is no change."""
    for column in SURVEY.columns:
        a, b = (side["typed"].get(column.name, "") for side in (old, new))
        if a != b and column.name != "notes" and not _same(column.name, old["values"], new["values"]):
            yield Change("survey cell", f"{post}: {column.heading}", a, b)


def _same(name: str, old: Facts, new: Facts) -> bool:
    """Whether both could be read and mean the same."""
    if name not in old or name not in new:
        return False
    a, b = old[name], new[name]
    if isinstance(a, float | int) and isinstance(b, float | int):
        return abs(a - b) <= 1e-6
    return bool(a == b or (isinstance(a, list | tuple) and list(a) == list(b)))


def _items(was: Tables, now: Tables, used: set[str]) -> Iterator[Change]:
    """Items that were withdrawn, are new, cost something else or measure something else."""
    for table, code in _KINDS:
        old, new = (_active(tables.get(table.name, ()), code) for tables in (was, now))
        for key in sorted(used & (old.keys() | new.keys()), key=natural):
            if key not in new:
                yield Change("item withdrawn", old[key][code], "active", "withdrawn or no longer listed")
            elif key not in old:
                yield Change("item new and now better", new[key][code], "", "active")
            else:
                yield from _facts(table, new[key][code], old[key], new[key])


def _active(rows: Iterable[Facts], code: str) -> dict[str, Facts]:
    return {folded(row[code]): row for row in rows if row.get("status", "active") == "active"}


def _facts(table: Table, code: str, old: Facts, new: Facts) -> Iterator[Change]:
    if old["price"] != new["price"]:
        yield Change("price", code, str(old["price"]), str(new["price"]))
    if old.get("description") != new.get("description"):
        yield Change("description", code, _text(old.get("description")), _text(new.get("description")))
    for column in table.columns[1:]:
        a, b = _text(old.get(column.name)), _text(new.get(column.name))
        if a != b and column.name not in _NO_GEOMETRY:
            yield Change("item facts", f"{code}: {_heading(column)}", a, b)


def _heading(column: Column) -> str:
    """A column's heading with the unit that its values are kept in."""
    unit = SI_UNIT.get(column.kind, "")
    return f"{column.heading} [{unit}]" if unit else column.heading


def _breaks(was: Tables, now: Tables, used: set[str]) -> Iterator[Change]:
    """Price breaks of used items that came, went or changed."""
    old, new = (
        {
            f"{b['item']} from {b['from_quantity']}": str(b["price"])
            for b in tables.get("Price breaks", ())
            if folded(b["item"]) in used
        }
        for tables in (was, now)
    )
    for name in sorted(old.keys() | new.keys(), key=natural):
        if old.get(name) != new.get(name):
            yield Change("price break", name, old.get(name, ""), new.get(name, ""))


def _pairings(was: Tables, now: Tables, used: set[str]) -> Iterator[Change]:
    """Pairings of which mount and board are both used, before or now."""
    old, new = (
        {f"{p['mount']} + {p['board']}" for p in tables.get("Pairings", ()) if {folded(p["mount"]), folded(p["board"])} <= used}
        for tables in (was, now)
    )
    for pair in sorted(old ^ new, key=natural):
        yield Change("pairing", pair, "listed" if pair in old else "", "listed" if pair in new else "")


def _terms(customer: str, was: Tables, now: Tables) -> Iterator[Change]:
    """The customer's discount, exemption, choice and whether its sites are ordered together."""
    old, new = (terms(customer, list(tables.get("Customers", ()))) or {} for tables in (was, now))
    for name, what in _TERMS:
        a, b = _text(old.get(name)), _text(new.get(name))
        if a != b:
            yield Change("customer terms", f"{customer}: {what}", a, b)


def _order(was: Facts, now: Facts) -> Iterator[Change]:
    """What moved because other sites of the customer changed: the one board, prices of the order, the share of its freight."""
    old, new = was.get("decided", {}), now["decided"]
    moved = ", ".join(now["moved_by"][:_NAMED]) + (" and more" if len(now["moved_by"]) > _NAMED else "") or "the order"
    boards = [" + ".join(side.get("one_board", ())) for side in (old, new)]
    if boards[0] != boards[1]:
        yield Change("order", moved, f"one board: {boards[0] or 'none'}", f"one board: {boards[1] or 'none'}")
    a, b = (side.get("order", {"reached": {}, "freight": ""}) for side in (old, new))
    for item in sorted(a["reached"].keys() & b["reached"].keys(), key=natural):
        if a["reached"][item] != b["reached"][item]:
            yield Change("order", moved, *(f"{item}: price from {side['reached'][item]}" for side in (a, b)))
    if a["freight"] != b["freight"] and a["freight"] and b["freight"]:
        yield Change("order", moved, f"share of freight: {a['freight']}", f"share of freight: {b['freight']}")


def _policy(was: Kept, world: World) -> Iterator[Change]:
    """Settings that differ in value, those that can change what a quotation says."""
    now = {s.name: f"{s.value} {s.unit}".strip() for s in world.setting.policy}
    for s in SETTINGS:
        if s.name not in _SAY_NOTHING and _text(was.policy.get(s.name)) != _text(world.policy.get(s.name)):
            old = " ".join(was.typed.get(s.name, (s.default, s.unit))).strip()
            yield Change("policy", s.name, old, now[s.name])


def _freight(was: Facts, now: Facts, old: Tables, new: Tables) -> Iterator[Change]:
    """A freight charge that differs, where the table does too."""
    a, b = (sorted(str(sorted(row.items())) for row in tables.get("Freight", ())) for tables in (old, new))
    if a != b and was["money"][2] != now["money"][2]:
        yield Change("freight", "freight table", was["money"][2], now["money"][2])


def _kits(was: Facts, now: Facts) -> Iterator[Change]:
    """Where nothing behind it tells why: what differs in what is said of each post."""
    for post in sorted({*was["posts"], *now["posts"]}, key=natural):
        old, new = (side["posts"].get(post, {}) for side in (was, now))
        for name in ("kit", "outcome", "confirm", "load", "remedy"):
            a, b = (_text(side.get(name)) for side in (old, new))
            if a != b:
                yield Change(name, post, a, b)
    yield from _asked(was, now)


def _asked(was: Facts, now: Facts) -> Iterator[Change]:
    """Answers about items that were asked for."""
    old, new = ({(post, name): item for post, name, item in side["asked"]} for side in (was, now))
    for key in sorted(old.keys() | new.keys(), key=lambda k: (natural(k[0]), k[1])):
        if old.get(key) != new.get(key):
            yield Change("asked for", key[0], old.get(key, ""), new.get(key, ""))


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, list | tuple):
        return " + ".join(str(v) for v in value if v)
    return f"{value:.9g}" if isinstance(value, float) else str(value)
