"""Who is whom, orders and price changes where something is missing, nought, or just on an edge."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from rules_case import mount, policy, tables

from pipeline.money.amounts import Counts, QuoteLine, Share, Totals
from pipeline.money.customers import choice_of, customer_key, nearest, ordered_together, other_names, terms
from pipeline.money.order import Need, amounts, order_shares, shared
from pipeline.money.price_changes import price_changes, slips
from pipeline.money.prices import broken_price, freight_price, line_total, minor_unit
from pipeline.money.quotation import discount, exempt, price_list, quote, tax_rate

D = Decimal
ELM = {"customer": "Elm District", "also_known_as": " ED ;; Elm Schools;", "order_together": "yes", "choice": "widest board"}
ASH = {"customer": "Ash Park", "also_known_as": None}
ROWS = [ELM, ASH]


def test_names_are_compared_without_case_and_spaces():
    assert customer_key(" Elm  DISTRICT ") == "elmdistrict"
    assert (other_names(ELM), other_names(ASH), other_names({})) == (("ED", "Elm Schools"), (), ())


@pytest.mark.parametrize(
    ("name", "row"),
    [("ELM district", ELM), ("e d", ELM), ("elmschools", ELM), ("Ash Park", ASH), ("", None), ("  ", None), ("Elm", None)],
)  # fmt: skip
def test_a_customer_goes_by_any_of_its_names(name, row):
    assert terms(name, ROWS) is row
    assert terms(name, [{"customer": ""}, *ROWS]) is row


@pytest.mark.parametrize(
    ("name", "near"),
    [("Elm Distrct", "Elm District"), ("elm school", "Elm Schools"), ("Ash Prk", "Ash Park"), ("Oakwood", ""), ("", ""),
     ("Elm Di", "Elm District"), ("Elm", "")],
)  # fmt: skip
def test_the_listed_name_that_is_nearest(name, near):
    """At least six tenths alike (difflib's ratio): `elmdi` has 5 of 5 and of 11 letters, 2 x 5/16 = 0.625; `elm` 6/14."""
    assert nearest(name, ROWS) == near


def test_what_a_customer_wants_where_nothing_is_listed():
    assert [ordered_together(row) for row in (ELM, ASH, None)] == [True, False, False]
    assert [choice_of(row) for row in (ELM, ASH, {"choice": ""}, None)] == [1, 0, 0, 0]
    assert [discount(row) for row in (None, {}, {"discount_percent": None}, {"discount_percent": D("12.5")})] == [
        0,
        0,
        0,
        D("12.5"),
    ]
    assert [exempt(row) for row in (None, {}, {"tax_exempt": "no"}, {"tax_exempt": "yes"})] == [False, False, False, True]
    assert tax_rate({"tax_rate": 0.0725}) == D("0.0725")


BARE = {"Mounts": (mount("M-1", description=None),)}
NEED = Need("a", {"M-1": 2}, Counts(2, 0, 0))


def test_a_catalogue_without_breaks_freight_services_and_customers():
    lines, totals = quote(NEED.goods, NEED.counts, BARE, policy(), "Elm")
    assert lines == (QuoteLine("goods", "M-1", "", 2, D("400.00"), D("400.00"), D(0), D("800.00")),)
    assert (totals.net, totals.freight, totals.tax, totals.total) == (D("800.00"), D("0.00"), D("0.00"), D("800.00"))
    assert order_shares([NEED], BARE, policy(), ELM)["a"].freight == D("0.00")
    assert order_shares([NEED], BARE, policy(), ELM)["a"].quantities == {"M-1": 1}
    assert amounts([NEED], BARE, policy(), "Elm", None).total == D("800.00")
    assert amounts([NEED], BARE, policy(), "Elm", None, price_list(BARE)).total == D("800.00")
    assert str(amounts([], BARE, policy(), "Elm", None).total) == "0.00"


def test_sites_without_goods_have_no_part_of_the_freight():
    t = tables(Freight=({"mass_most_kg": None, "price": D("95.00")},))
    none, zero = Need("b", {}, Counts(0, 0, 0)), Need("c", {"M-1": 0}, Counts(0, 0, 0))
    shares = order_shares([none, NEED, zero], t, policy(), ELM)
    assert {site: share.freight for site, share in shares.items()} == {"a": D("95.00"), "b": D(0), "c": D(0)}
    assert order_shares([none], t, policy(), ELM)["b"].freight == 0
    some = Need("d", {"M-1": 2, "B-1": 0}, Counts(2, 0, 0))
    assert [share.freight for share in order_shares([NEED, some], t, policy(), ELM).values()] == [D("47.50"), D("47.50")]


def test_lines_of_a_share_say_so_and_an_item_that_it_does_not_name_has_its_own_break():
    t = tables(
        Services=({"service": "S-1", "description": "Fitting", "charged": "per post", "price": D("20")},),
        Price_breaks=({"item": "M-1", "from_quantity": 2, "price": D("380")},),
        Freight=({"mass_most_kg": None, "price": D("95.00")},),
    )
    lines, _ = quote(NEED.goods, NEED.counts, t, policy(), "", Share({}, D("12.34")))
    assert lines == (
        QuoteLine("goods", "M-1", "Mount M-1", 2, D("400.00"), D("380"), D(0), D("760.00")),
        QuoteLine("service", "S-1", "Fitting", 2, D("20"), D("20"), D(0), D("40.00")),
        QuoteLine("freight", "FREIGHT", "Freight, share of the whole order", 1, D("12.34"), D("12.34"), D(0), D("12.34")),
    )
    assert quote(NEED.goods, NEED.counts, t, policy(), "")[0][-1].description == "Freight"


def test_a_promised_site_is_of_the_mass_that_it_was_promised_with():
    """By hand: 100 kg and 2 x 70 lb, 31.75 kg each, are 163.5 kg; the promised site keeps its 60, the other has 95 - 60."""
    t = tables(
        Freight=(
            {"mass_most_kg": 163.4, "price": D(10)},
            {"mass_most_kg": 163.6, "price": D(95)},
            {"mass_most_kg": None, "price": D(500)},
        )
    )
    kept = Totals(D(0), D("60.00"), D(0), D(0), D("60.00"), 100.0)
    shares = order_shares([Need("p", {"M-1": 1}, Counts(1, 0, 0), kept, Fraction(100)), NEED], t, policy(), ELM)
    assert {site: share.freight for site, share in shares.items()} == {"p": D("60.00"), "a": D("35.00")}
    dear = Totals(D(0), D("99.00"), D(0), D(0), D("99.00"), 100.0)
    shares = order_shares([Need("p", {"M-1": 1}, Counts(1, 0, 0), dear, Fraction(100)), NEED], t, policy(), ELM)
    assert {site: share.freight for site, share in shares.items()} == {"p": D("99.00"), "a": D("0.00")}


@pytest.mark.parametrize("masses", [{}, {"a": Fraction(0), "b": Fraction(0)}])
def test_nothing_is_shared_by_no_mass(masses):
    assert shared(D(100), masses, D("0.01")) == {}


def test_the_greatest_remainder_is_rounded_up_and_ties_go_by_site():
    thirds = {"s-10": Fraction(1), "s-9": Fraction(1), "s-2": Fraction(1) + Fraction(1, 10**8)}
    assert shared(D("0.01"), thirds, D("0.01")) == {"s-10": D(0), "s-9": D(0), "s-2": D("0.01")}
    assert shared(D("0.02"), thirds, D("0.01")) == {"s-10": D(0), "s-9": D("0.01"), "s-2": D("0.01")}


def test_breaks_bounds_and_small_units():
    assert [broken_price(D(9), n, [(5, D(8)), (12, D(7))]) for n in (4, 5, 11, 12)] == [9, 8, 8, 7]
    assert (freight_price(1.0, ()), freight_price(0.0, [{"mass_most_kg": 0.0, "price": D(3)}])) == (0, 3)
    assert [minor_unit(c) for c in (" jpy", "KWD", "CLF", "USD", "XYZ")] == [1, D("0.001"), D("0.0001"), D("0.01"), D("0.01")]
    assert line_total(3, D("33.335"), D("12.5"), D("0.01")) == D("87.50")  # 87.504375
    assert line_total(1, D("0.125"), D(0), D("0.01")) == D("0.13")


def moved(was, now, slip="0.5"):
    (change,) = price_changes(
        {"Mounts": ({"mount": "M-1", "price": D(was)},)}, {"Mounts": ({"mount": "m-1", "price": D(now)},)}, D(slip)
    )
    return change


@pytest.mark.parametrize(
    ("was", "now", "sentence"),
    [
        ("400", "600", "The price of m-1 goes from 400 to 600."),
        ("400", "600.01", "The price of m-1 goes from 400 to 600.01: is that meant?"),
        ("400", "200", "The price of m-1 goes from 400 to 200."),
        ("400", "199.99", "The price of m-1 goes from 400 to 199.99: is that meant?"),
        ("400", "4000", "The price of m-1 goes from 400 to 4000, about 10 times more: is that meant?"),
        ("400", "5000", "The price of m-1 goes from 400 to 5000, about 10 times more: is that meant?"),
        ("400", "5000.01", "The price of m-1 goes from 400 to 5000.01: is that meant?"),
        ("400", "3200", "The price of m-1 goes from 400 to 3200, about 10 times more: is that meant?"),
        ("400", "3199", "The price of m-1 goes from 400 to 3199: is that meant?"),
        ("400", "40", "The price of m-1 goes from 400 to 40, about 10 times less: is that meant?"),
        ("400", "4.1", "The price of m-1 goes from 400 to 4.1, about 100 times less: is that meant?"),
        ("400", "0", "The price of m-1 goes from 400 to 0: is that meant?"),
        ("0", "400", "The price of m-1 goes from 0 to 400: is that meant?"),
        ("400", "410", "The price of m-1 goes from 400 to 410."),
    ],
)
def test_a_price_that_moves_in_words(was, now, sentence):
    """A slip beyond half of the old price, about a power of ten within a quarter. Source: design section 14."""
    assert moved(was, now).sentence == sentence


def test_prices_of_every_table_are_held_against_each_other():
    def catalogue(price, bound):
        return {
            "Mounts": ({"mount": "M-10", "price": D(price)}, {"mount": "M-9", "price": D(price)}),
            "Services": ({"service": "S-1", "price": D(price)},),
            "Price breaks": ({"item": "M-9", "from_quantity": 5, "price": D(price)},),
            "Freight": ({"mass_most_kg": bound, "price": D(price)}, {"mass_most_kg": None, "price": D(price)}),
        }

    before, after = catalogue("10", 226.796), catalogue("11", 226.796) | {"Boards": ({"board": "B-1", "price": D(1)},)}
    items = [c.item for c in price_changes(before, after, D("0.5"))]
    assert items == ["freight above the last bound", "freight up to 226.796 kg", "M-9", "M-10", "M-9 from 5 pieces", "S-1"]
    assert [c.code for c in price_changes(before, after, D("0.5"))] == ["", "", "M-9", "M-10", "M-9", "S-1"]
    assert price_changes(before, before, D("0.5")) == () == slips(before, after, {"price_slip": 0.5})
    assert len(slips(before, after, {"price_slip": "0.09"})) == 6
    other_bound = price_changes(catalogue("10", 1), catalogue("11", 2), D(1))
    assert [c.item for c in other_bound][:2] == [
        "freight above the last bound",
        "M-9",
    ]
