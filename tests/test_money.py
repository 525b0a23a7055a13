"""Quote lines and totals to the minor unit, both sides of each break and bound."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rules_case import board, extension, inches, mount, policy, pounds, ring, tables

from pipeline.money.amounts import Counts
from pipeline.money.prices import broken_price, freight_price, line_total, minor_unit, rounded
from pipeline.money.quotation import quote

D = Decimal


def services(*rows):
    return tuple({"service": s, "description": f"Service {s}", "charged": c, "price": D(p)} for s, c, p in rows)


def customers(*rows):
    return tuple({"customer": c, "discount_percent": D(d), "tax_exempt": e, "note": None} for c, d, e in rows)


NONE = Counts(0, 0, 0)


def test_the_order_of_lines_is_natural_whatever_the_order_of_rows():
    t = tables(
        Mounts=(mount("M-10"), mount("M-9")),
        Extensions=(extension("E-1"),),
        Services=services(
            ("S-10", "per site", "100"),
            ("S-9", "per post", "10"),
            ("S-8", "per stripped post", "7"),
            ("S-7", "per extension", "5"),
        ),
    )
    goods = {"R-1": 5, "M-10": 3, "B-1": 5, "E-1": 2, "M-9": 2}
    lines, _ = quote(goods, Counts(5, 2, 0), t, policy(), "")
    assert [(x.kind, x.item, x.quantity) for x in lines] == [
        ("goods", "M-9", 2), ("goods", "M-10", 3), ("goods", "B-1", 5), ("goods", "R-1", 5), ("goods", "E-1", 2),
        ("service", "S-7", 2), ("service", "S-9", 5), ("service", "S-10", 1), ("freight", "FREIGHT", 1),
    ]  # fmt: skip


@pytest.mark.parametrize(("quantity", "price"), [(1, "400.00"), (4, "400.00"), (5, "380"), (11, "380"), (12, "350"), (99, "350")])
def test_price_breaks(quantity, price):
    breaks = ({"item": " m-1", "from_quantity": 12, "price": D(350)}, {"item": "M-1", "from_quantity": 5, "price": D(380)})
    (line, *_), _ = quote({"M-1": quantity}, NONE, tables(Price_breaks=breaks), policy(), "")
    assert (line.list_price, line.unit_price, line.line_total) == (D(400), D(price), quantity * D(price))


@pytest.mark.parametrize(("mass", "price"), [(1.0, "10"), (50.0, "10"), (50.1, "20"), (100.0, "20"), (100.1, "90")])
def test_freight_goes_by_the_bounds_whatever_the_order_of_rows(mass, price):
    rows = [{"mass_most_kg": most, "price": D(p)} for most, p in ((None, "90"), (100.0, "20"), (50.0, "10"))]
    assert freight_price(mass, rows) == D(price)


def test_discount_is_on_goods_only_and_the_exempt_pay_no_tax():
    t = tables(
        Services=services(("S-1", "per post", "50")), Customers=customers(("Elm  District", "12.5", "no"), ("Ash", "0", "yes"))
    )
    given_ = ({"M-1": 2}, Counts(2, 0, 0), t, policy(tax_rate=D("0.0725")))
    lines, totals = quote(*given_, " elm district")
    assert [(x.discount_percent, x.line_total) for x in lines] == [
        (D("12.5"), D("700.00")),
        (D(0), D("100.00")),
        (D(0), D("95.00")),
    ]
    assert (totals.net, totals.freight, totals.tax_rate) == (D(800), D(95), D("0.0725"))
    assert (totals.tax, totals.total) == (D("64.89"), D("959.89"))  # 64.8875
    assert quote(*given_, "Ash")[1].tax == D(0)
    assert quote(*given_, "")[1].tax == quote(*given_, "not listed")[1].tax == D("72.14")  # 0.0725 x 995 = 72.1375


def test_half_up_line_by_line():
    t = tables(Mounts=(mount("M-1", price=D("0.125")),), Boards=(board("B-1", price=D("0.005")),), Freight=())
    lines, totals = quote({"M-1": 1, "B-1": 1}, NONE, t, policy(), "")
    assert [x.line_total for x in lines] == [D("0.13"), D("0.01")]
    assert totals.net == D("0.14")


@pytest.mark.parametrize(("currency", "text"), [("USD", "1235.57"), ("JPY", "1236"), ("KWD", "1235.568"), ("eur", "1235.57")])
def test_minor_units(currency, text):
    """ISO 4217: JPY has no minor unit, KWD has three decimals (memory)."""
    assert str(rounded(D("1235.5675"), minor_unit(currency))) == text


FREIGHT = (
    {"mass_most_kg": None, "price": D(300)},
    {"mass_most_kg": pounds(100), "price": D(50)},
    {"mass_most_kg": pounds(200), "price": D(90)},
)


@pytest.mark.parametrize(
    ("mass", "price"),
    [(1.0, 50), (pounds(100), 50), (pounds(100) + 0.9e-6, 50), (pounds(100) + 2e-6, 90), (pounds(200), 90), (pounds(201), 300)],
)
def test_freight_by_mass_inclusive(mass, price):
    assert freight_price(mass, FREIGHT) == price


def test_freight_goes_by_the_mass_of_the_goods():
    t = tables(Freight=FREIGHT, Mounts=(mount("M-1", mass_kg=pounds(70)),))
    assert [quote({"M-1": 1, "R-1": n}, NONE, t, policy(), "")[1].freight for n in (1, 2, 6, 7)] == [D(50), D(90), D(90), D(300)]


def test_no_goods_no_freight_no_services():
    t = tables(Services=services(("S-1", "per site", "100"), ("S-2", "per post", "1")))
    lines, totals = quote({"M-1": 0}, NONE, t, policy(tax_rate=D("0.1")), "")
    assert lines == ()
    assert (str(totals.net), str(totals.freight), str(totals.tax), str(totals.total)) == ("0.00",) * 4


def test_a_code_that_is_nowhere_is_no_silent_loss():
    with pytest.raises(KeyError, match="no table of the catalogue has M-7"):
        quote({"M-7": 1}, NONE, tables(), policy(), "")


def test_withdrawn_items_keep_their_price_out_of_the_way():
    t = tables(Rings=(ring("R-0", status="withdrawn"), ring("R-1")), Boards=(board("B-1", width_m=inches(44)),))
    lines, _ = quote({"R-1": 1}, NONE, t, policy(), "")
    assert [x.item for x in lines] == ["R-1", "FREIGHT"]


prices = st.decimals(min_value=0, max_value=100000, places=3)


@given(st.integers(1, 500), prices, st.decimals(min_value=0, max_value=100, places=2))
def test_a_line_is_within_half_a_cent_of_the_exact_product(quantity, price, discount):
    exact = quantity * price * (100 - discount) / 100
    total = line_total(quantity, price, discount, D("0.01"))
    assert -D("0.005") < total - exact <= D("0.005")


@given(st.lists(st.tuples(st.integers(1, 50), prices), unique_by=lambda b: b[0]), st.integers(1, 60), st.randoms())
def test_the_order_of_breaks_counts_for_nothing(breaks, quantity, random):
    mixed = list(breaks)
    random.shuffle(mixed)
    assert broken_price(D(1), quantity, breaks) == broken_price(D(1), quantity, mixed)
