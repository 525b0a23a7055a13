"""Orders: one freight shared to the cent, breaks over all sites, and the sum of sites that a customer is quoted."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rules_case import board, mount, policy, pounds, ring, tables

from pipeline.money.amounts import Counts, Totals
from pipeline.money.order import Need, amounts, order_shares, shared, together
from pipeline.money.prices import minor_unit
from pipeline.money.quotation import quote

D = Decimal
CENT = D("0.01")
CUSTOMER = {
    "customer": "Elm District",
    "discount_percent": D("12.5"),
    "tax_exempt": "no",
    "order_together": "yes",
    "choice": "least price",
}
TABLES = tables(
    Mounts=(mount("M-1", mass_kg=pounds(70)), mount("M-2", mass_kg=pounds(41), price=D("333.33"))),
    Boards=(board("B-1"), board("B-2", mass_kg=pounds("58.5"), price=D("199.95"))),
    Rings=(ring("R-1", mass_kg=pounds(12)),),
    Services=({"service": "S-1", "description": "", "charged": "per post", "price": D("99.99")},
              {"service": "S-2", "description": "", "charged": "per site", "price": D("100")}),
    Price_breaks=(
        {"item": "M-1", "from_quantity": 5, "price": D("380")},
        {"item": "m-1", "from_quantity": 12, "price": D("351.11")},
        {"item": "B-2", "from_quantity": 3, "price": D("180.01")},
    ),
    Freight=(
        {"mass_most_kg": pounds(500), "price": D("85")},
        {"mass_most_kg": pounds(2000), "price": D("190.07")},
        {"mass_most_kg": None, "price": D("410")},
    ),
    Customers=(CUSTOMER,),
)  # fmt: skip
POLICY = policy(tax_rate=D("0.0725"))

GOODS = st.dictionaries(st.sampled_from(["M-1", "M-2", "B-1", "B-2", "R-1"]), st.integers(1, 9), max_size=5)
NEEDS = st.lists(GOODS, min_size=1, max_size=6).map(
    lambda some: [Need(f"s-{n + 8}", g, Counts(sum(g.values()), 0, 0)) for n, g in enumerate(some)]
)
MASSES = st.dictionaries(
    st.sampled_from([f"s-{n}" for n in range(1, 30)]), st.fractions(0, 900, max_denominator=10**9), max_size=9
)


@pytest.mark.parametrize(
    ("amount", "masses", "expected"),
    [
        ("100.00", {"a": 1, "b": 1, "c": 1}, {"a": "33.34", "b": "33.33", "c": "33.33"}),  # tie: natural order
        ("0.01", {"s-10": 1, "s-9": 1}, {"s-9": "0.01", "s-10": "0"}),
        ("0.02", {"s-10": 2, "s-9": 1, "s-8": 1}, {"s-10": "0.01", "s-8": "0.01", "s-9": "0"}),
        ("190.07", {"a": 70, "b": 30}, {"a": "133.05", "b": "57.02"}),  # 133.049, 57.021
        ("10.00", {"b": Fraction(1, 3), "a": Fraction(1, 3) + Fraction(1, 10**15)}, {"a": "5.00", "b": "5.00"}),
        (
            "10.01",
            {"b": Fraction(1, 3) + Fraction(1, 10**15), "a": Fraction(1, 3)},
            {"a": "5.01", "b": "5.00"},
        ),  # a tie within 1e-9
        ("85", {}, {}),
    ],
)
def test_shares_by_hand(amount, masses, expected):
    """Source: design section 8, order together, by hand: largest remainder, ties in natural order of site code."""
    assert shared(D(amount), {s: Fraction(m) for s, m in masses.items()}, CENT) == {s: D(v) for s, v in expected.items()}


@given(st.decimals(0, 99999, places=2), MASSES)
def test_shares_add_up_and_are_within_a_cent_of_the_proportion(amount, masses):
    shares = shared(amount, masses, CENT)
    total = sum(masses.values())
    assert sum(shares.values(), D(0)) == (amount if total else 0)
    for site, m in masses.items():
        if total:
            assert abs(Fraction(shares[site]) - Fraction(amount) * m / total) < Fraction(1, 100) + Fraction(1, 10**9)


@given(st.decimals(0, 999, places=2), MASSES, st.randoms())
def test_the_order_of_sites_changes_no_share(amount, masses, random):
    mixed = list(masses)
    random.shuffle(mixed)
    assert shared(amount, {s: masses[s] for s in mixed}, CENT) == shared(amount, masses, CENT)


def test_breaks_count_over_all_sites_and_a_site_s_own_lines_use_them():
    needs = [Need("a", {"M-1": 4}, Counts(4, 0, 0)), Need("b", {"M-1": 1, "B-2": 2}, Counts(1, 0, 0))]
    shares = order_shares(needs, TABLES, POLICY, CUSTOMER)
    (first, *_), totals = quote(needs[0].goods, needs[0].counts, TABLES, POLICY, "elm district", shares["a"])
    assert (first.unit_price, first.line_total) == (D("380"), D("1330.00"))  # 4 x 380 less 12.5 %
    assert [x.unit_price for x in quote(needs[1].goods, needs[1].counts, TABLES, POLICY, "", shares["b"])[0][:2]] == [
        D("380"),
        D("199.95"),
    ]
    # 5 x 70 lb and 2 x 58.5 lb are 467 lb: one freight of 85, 280 to 187 lb
    assert (shares["a"].freight, shares["b"].freight) == (D("50.96"), D("34.04"))
    assert totals.freight == D("50.96")


def test_sites_that_are_not_ordered_together_have_no_share():
    needs = [Need("a", {"M-1": 4}, Counts(4, 0, 0))]
    assert (
        order_shares(needs, TABLES, POLICY, CUSTOMER | {"order_together": "no"})
        == {}
        == order_shares(needs, TABLES, POLICY, None)
    )


def test_a_promised_site_counts_and_keeps_its_freight():
    needs = [
        Need("a", {"M-1": 4}, Counts(4, 0, 0), Totals(D(0), D("85.00"), D(0), D(0), D("85.00"), 127.0)),
        Need("b", {"M-1": 8}, Counts(8, 0, 0)),
        Need("c", {"M-1": 2}, Counts(2, 0, 0)),
    ]
    shares = order_shares(needs, TABLES, POLICY, CUSTOMER)
    # 14 x 70 lb: 190.07, of which 85 are promised; 105.07 at 8 to 2
    assert [shares[s].freight for s in "abc"] == [D("85.00"), D("84.06"), D("21.01")]
    assert shares["b"].quantities == {"M-1": 12}


@settings(max_examples=60, deadline=None)
@given(NEEDS, st.booleans(), st.booleans(), st.sampled_from(["USD", "JPY", "KWD"]), st.randoms())
def test_a_customer_s_sums_are_those_of_its_sites_in_any_order(needs, joined, exempt, currency, random):
    known = CUSTOMER | {"order_together": "yes" if joined else "no", "tax_exempt": "yes" if exempt else "no"}
    t, p = {**TABLES, "Customers": (known,)}, policy(tax_rate=D("0.0725"), currency=currency)
    shares = order_shares(needs, t, p, known)
    made = [quote(n.goods, n.counts, t, p, "ELM DISTRICT", shares.get(n.site)) for n in needs]
    come_to = amounts(needs, t, p, "Elm District", known)
    assert come_to == together((totals for _, totals in made), minor_unit(currency))
    assert come_to.total == come_to.net + come_to.freight + come_to.tax
    assert sum((x.line_total for lines, _ in made for x in lines), D(0)) == come_to.net + come_to.freight
    if joined:
        whole: dict[str, int] = {}
        for n in needs:
            whole = {c: whole.get(c, 0) + n.goods.get(c, 0) for c in {*whole, *n.goods}}
        alone = quote(whole, Counts(0, 0, 0), t, p, "", None)[1] if whole else None
        assert come_to.freight == (alone.freight if alone else 0)
    mixed = list(needs)
    random.shuffle(mixed)
    assert order_shares(mixed, t, p, known) == shares
    assert amounts(mixed, t, p, "Elm District", known) == come_to


@pytest.mark.parametrize(("apart", "gets"), [("2e-9", "B"), ("1.01e-9", "B"), ("0.99e-9", "A"), ("0.5e-9", "A"), ("0", "A")])
def test_remainders_within_1e_9_are_ties_and_go_by_the_sites_order(apart, gets):
    """One cent for two sites of nearly the same mass: the greater remainder has it, unless they are a tie."""
    half = Fraction(apart) / 2
    found = shared(D("0.01"), {"A": Fraction(1, 2) - half, "B": Fraction(1, 2) + half}, D("0.01"))
    assert {site for site, amount in found.items() if amount} == {gets}
    assert sum(found.values()) == D("0.01")
