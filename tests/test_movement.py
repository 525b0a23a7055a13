"""What moves between two catalogues or two states of a quotation."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from pipeline.money.price_changes import price_changes
from pipeline.sheets.movement import kit_moves, movement, posts_with_kit


def tables(price: str, extra: str = "10") -> dict[str, list[dict[str, Any]]]:
    return {
        "Mounts": [{"mount": "M-1", "price": Decimal(price)}, {"mount": "M-2", "price": Decimal(extra)}],
        "Price breaks": [{"item": "M-1", "from_quantity": 20, "price": Decimal(extra)}],
        "Freight": [{"mass_most_kg": 100.0, "price": Decimal(extra)}, {"mass_most_kg": None, "price": Decimal(90)}],
    }


@pytest.mark.parametrize(
    ("was", "now", "slip", "power"),
    [
        ("545", "5.45", True, -2),
        ("545", "54.5", True, -1),
        ("545", "5460", True, 1),
        ("100", "150", False, 0),
        ("100", "150.01", True, 0),
        ("100", "50", False, 0),
        ("100", "49.99", True, 0),
        ("0", "1", True, 0),
        ("10", "0", True, 0),
        ("100", "1250", True, 1),
        ("100", "1260", True, 0),
        ("100", "8", True, -1),
        ("100", "7.99", True, 0),
        ("100", "120", False, 0),
        ("1", "9000000", True, 7),
    ],
)
def test_a_price_that_moves_too_far_may_be_a_slip(was: str, now: str, slip: bool, power: int) -> None:
    (change,) = price_changes(tables(was), tables(now), Decimal("0.5"))
    assert (change.item, change.slip, change.power) == ("M-1", slip, power)
    assert ("is that meant?" in change.sentence) is slip
    assert ("times" in change.sentence) is bool(power)


def test_every_kind_of_price_counts_and_new_items_do_not() -> None:
    before, after = tables("5"), tables("5", "12")
    after["Mounts"].append({"mount": "M-9", "price": Decimal(1)})
    found = [(c.item, str(c.was), str(c.now)) for c in price_changes(before, after, Decimal("0.5"))]
    assert found == [("freight up to 100 kg", "10", "12"), ("M-2", "10", "12"), ("M-1 from 20 pieces", "10", "12")]


def says(total: str, **kits: list[str] | None) -> dict[str, Any]:
    posts = {post: {"quantity": 2, **({"kit": kit} if kit else {})} for post, kit in kits.items()}
    return {"site": ["S-1"], "money": ["EUR", "0", "0", "0", total], "posts": posts}


def test_posts_gain_lose_and_change_their_kits() -> None:
    old = says("100.00", a=["M", "B", "R", ""], b=None, c=["M", "B", "R", ""], d=["M", "B", "R", ""])
    new = says("150.50", a=["M", "B", "R", ""], b=["M", "B", "R", ""], c=None, d=["M", "B2", "R", "X"])
    assert [(m.post_code, m.was, m.now) for m in kit_moves(old, new)] == [
        ("b", None, ("M", "B", "R", "")),
        ("c", ("M", "B", "R", ""), None),
        ("d", ("M", "B", "R", ""), ("M", "B2", "R", "X")),
    ]
    found = movement([(old, new), (old, old), (None, new)])
    assert (found.sites, found.sites_changed, found.gained, found.lost, found.kits_moved) == (3, 2, 8, 2, 2)
    assert (found.total_was, found.total) == (Decimal("200.00"), Decimal("401.00"))
    assert "(+201.00)" in found.sentences("EUR")[1]
    assert posts_with_kit(old) == 6
