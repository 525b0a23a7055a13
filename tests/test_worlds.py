"""The installed command on made-up worlds, held to the independent answer in tests/oracle.

Source: the oracle is written from the contract and the design alone; its readings stand in its docstring.
"""

from __future__ import annotations

import datetime
import json
import subprocess
import sys
from pathlib import Path

import pytest
from oracle.answer import answer
from oracle.compare import differences, read
from worlds.make import World, fit_world, money_world, write_world

DATE = datetime.date(2026, 3, 2)
COMMAND = Path(sys.executable).with_name("postquote")


def run(world: World, folder: Path, seed: int) -> Path:
    """Writes the world, quotes it, and says where the results are; no clean row may be held."""
    surveys, catalogue = write_world(world, folder, seed)
    out = folder / "out"
    words = [COMMAND, "quote", surveys, "--catalogue", catalogue, "--out", out, "--date", DATE.isoformat(), "--quiet"]
    done = subprocess.run([str(word) for word in words], capture_output=True, text=True, timeout=300, check=False)
    assert done.returncode == 0, done.stderr + "\n".join(json.dumps(q) for q in read(out, "queries") if q["holds_row"] == "true")
    return out


def hold_to_the_oracle(world: World, folder: Path, seed: int) -> None:
    out = run(world, folder, seed)
    found = differences(out, answer(world.made.catalogue, world.posts, DATE))
    assert not found, f"{len(found)} differences\n" + "\n".join(found[:40])


@pytest.mark.parametrize("seed", range(4))
def test_fit_worlds(seed: int, tmp_path: Path) -> None:
    """Four catalogues with 120 posts each, on the edges of every rule."""
    hold_to_the_oracle(fit_world(seed), tmp_path, seed)


@pytest.mark.parametrize("seed", range(1, 4))
def test_money_worlds(seed: int, tmp_path: Path) -> None:
    """Discounts, breaks, freight on its bound, wishes, least widths: the full ranking and every cent."""
    hold_to_the_oracle(money_world(seed), tmp_path, seed)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(4, 12))
def test_bigger_worlds(seed: int, tmp_path: Path) -> None:
    """The same with other seeds, and more of it."""
    make = fit_world if seed % 2 else money_world
    hold_to_the_oracle(make(seed, posts=240, sites=40), tmp_path, seed)


def test_a_world_is_the_same_each_time() -> None:
    """A seed fixes the world, so that a difference can be looked at again."""
    assert money_world(1) == money_world(1)
