"""The made-up worlds themselves: clean, and on the edges that they are meant to probe."""

from __future__ import annotations

import collections
import datetime

import pytest
from oracle.answer import answer

from schemas.words import FIT_CODES

from .make import World, fit_world, money_world


def worlds() -> list[World]:
    return [*(fit_world(n) for n in range(4)), *(money_world(n) for n in range(1, 4))]


def test_every_post_is_plausible() -> None:
    """Source: the ranges of design section 3; a clean row must not be held."""
    for post in (post for world in worlds() for post in world.posts):
        assert 0.040 <= post.size <= 0.350
        assert 1.5 <= post.height <= 6
        assert post.clear is None or 0 < post.clear <= post.height
        assert post.wall is None or 0.001 <= post.wall <= min(0.025, post.size / 5)
        assert all(1.8 <= height <= 3.1 for height in post.wanted or ())
        assert len(set(post.wanted or ())) == len(post.wanted or ())


@pytest.mark.slow
def test_worlds_probe_every_rule() -> None:
    """Every fit code fails or confirms somewhere, and every verdict, load state and site state occurs."""
    rows: dict[str, list[dict[str, object]]] = collections.defaultdict(list)
    for world in worlds():
        for name, part in answer(world.made.catalogue, world.posts, datetime.date(2026, 3, 2)).items():
            rows[name] += part
    codes = {code for row in rows["mount_fit"] for name in ("failed", "confirm") for code in str(row[name]).split(";")}
    assert codes - {""} == set(FIT_CODES)
    assert {row["verdict"] for row in rows["mount_fit"]} == {"viable", "viable_confirm", "viable_extended", "not_viable"}
    assert {row["load_state"] for row in rows["kits"]} == {"within", "over", "unknown"}
    assert {row["state"] for row in rows["sites"]} == {"ready", "to_confirm", "incomplete"}
    assert {code for row in rows["kits"] for code in str(row["confirm"]).split(";")} >= {"STRENGTH", "FOOTING"}
    assert any(row["wall_needed_m"] is None for row in rows["kits"])


@pytest.mark.parametrize("seed", range(1, 4))
def test_money_sits_on_its_edges(seed: int) -> None:
    """Some site orders exactly a break's quantity, and some exactly a freight row's bound."""
    world = money_world(seed)
    out = answer(world.made.catalogue, world.posts, datetime.date(2026, 3, 2))
    ordered = {(row["item"], row["quantity"]) for row in out["quote_lines"] if row["kind"] == "goods"}
    assert sum((item, quantity) in ordered for item, quantity, _ in world.made.catalogue.breaks) >= 3
    assert len(world.made.catalogue.freight) >= 5
