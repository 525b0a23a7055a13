"""A promised quotation: what it holds, what its customer's other sites need to know of it, whether it still stands."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.ledger.kept_catalogue import Kept
from pipeline.money.amounts import Counts, QuoteLine, Totals
from pipeline.money.order import Need
from pipeline.money.quotation import GOODS
from pipeline.site.content import stated_of
from pipeline.site.task import Figures, Promise

_POST = ("quantity", "kit", "covered")
"""What a quotation promises of a post; its ring heights and loads are what was measured, and may be confirmed."""

Says = Mapping[str, Any]


def lines_of(says: Says) -> tuple[QuoteLine, ...]:
    """The lines of a quotation, from what it says."""
    return tuple(QuoteLine(*line[:4], *(Decimal(amount) for amount in line[4:])) for line in says["lines"])


def same_rows(says: Says, rows: Sequence[SurveyRow], held: Sequence[SurveyRow]) -> bool:
    """Whether the survey says of the site what it said when the quotation was made."""
    now = {row.post_code: [row.quantity or 1, stated_of(row)] for row in rows}
    was = {code: [post["quantity"], post["stated"]] for code, post in says["posts"].items()}
    return now == was and sorted(h.post_code for h in held) == sorted(h[0] for h in says["held"])


def same_promise(was: Says, now: Says) -> bool:
    """Whether neither a kit nor a number differs."""
    posts = [{code: [post.get(n) for n in _POST] for code, post in says["posts"].items()} for says in (was, now)]
    return posts[0] == posts[1] and all(was[name] == now[name] for name in ("lines", "money"))


def promised_figures(promise: Promise, kept: Kept) -> Figures:
    """What a promised site's customer needs to know of it; `kept` is the catalogue that it was made with.

    Its posts are under no choice any more, so it has none of the figures that a choice goes by.
    """
    says = promise.content["says"]
    goods: Counter[str] = Counter()
    for line in lines_of(says):
        if line.kind == "goods":
            goods[line.item] += line.quantity
    each = {row[column]: Fraction(row["mass_kg"]) for table, column in GOODS for row in kept.tables.get(table, ())}
    mass = sum((each[code] * many for code, many in goods.items()), Fraction(0))
    kits = [post for post in says["posts"].values() if "kit" in post]
    posts: Counter[tuple[str, ...]] = Counter()
    price: defaultdict[tuple[str, ...], Decimal] = defaultdict(Decimal)
    for post in kits:
        pair = tuple(post["kit"][1:3])
        posts[pair] += post["quantity"]
        price[pair] += post["quantity"] * Decimal(post["unit_price"])
    return {
        **{name: [] for name in ("quantity", "stripped", "pair_post", "pair_kit", "offers")},
        "best": [[], [], []],
        "promised": {
            "goods": dict(sorted(goods.items())),
            "posts": sum(post["quantity"] for post in kits),
            "money": says["money"],
            "mass": [mass.numerator, mass.denominator],
            "pairs": [[*pair, many, str(price[pair])] for pair, many in sorted(posts.items())],
        },
    }


def promised_need(site: str, promised: Mapping[str, Any]) -> Need:
    """What a promised site takes of its customer's order. Source: design section 8, order together."""
    net, freight, tax, total = (Decimal(amount) for amount in promised["money"][1:])
    mass = Fraction(*promised["mass"])
    kept = Totals(net, freight, Decimal(0), tax, total, float(mass))
    return Need(site, promised["goods"], Counts(promised["posts"], 0, 0), kept, mass)
