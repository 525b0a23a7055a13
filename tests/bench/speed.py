"""The benchmark: python tests/bench/speed.py [--sites 200 2000] [--one-file 250 500 1000 2000] [--posts 100000].

Prints tables for the developers' handbook. Times drift with the machine; ratios to the floor of the same run hold.
Processor time counts all processes of a run; the clock tells what two cores make of it.
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from measure import POSTQUOTE, ROOT, best, quote
from portfolio_made import change_surveys, write_catalogue, write_surveys

HERE = Path(__file__).resolve().parent
Row = Sequence[str]


def script(name: str, *args: object) -> dict[str, Any]:
    """What a script beside this one prints."""
    command = [sys.executable, str(HERE / name), *map(str, args)]
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    made = subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True, env=env)
    found: dict[str, Any] = json.loads(made.stdout.splitlines()[-1])
    return found


def starts(out: Path, times: int) -> Iterator[Row]:
    """Start-up against importing click."""
    click = best([sys.executable, "-c", "import click"], times).wall
    yield "import click", f"{click:.3f}", "1.0"
    first = "G-0000", "P1"
    for name, words, status in (
        ("--help", ["--help"], 0),
        ("--version", ["--version"], 0),
        ("wrong use", ["quote"], 2),
        ("explain", ["explain", str(out), *first], 0),
    ):
        wall = best([*POSTQUOTE, *words], times, (status,)).wall
        yield name, f"{wall:.3f}", f"{wall / click:.1f}"


def portfolios(home: Path, sites: int, times: int) -> Iterator[Row]:
    """Cold, unchanged and nearly unchanged runs of `sites` sites in as many files."""
    surveys, catalogue = home / f"surveys-{sites}", home / "catalogue-30.xlsx"
    write_surveys(surveys, sites, 6)
    write_catalogue(catalogue, 30, 30, 4)
    pairs = []
    for n in range(times):  # in pairs, so that what disturbs one disturbs the other
        outs = home / f"one-{sites}-{n}", home / f"two-{sites}-{n}"
        pairs.append((quote(surveys, catalogue, outs[0], 1), quote(surveys, catalogue, outs[1], 2)))
        if n:
            shutil.rmtree(outs[0])
        shutil.rmtree(outs[1])
    one, two = (min((pair[i] for pair in pairs), key=lambda c: c.wall) for i in (0, 1))
    kept = home / f"one-{sites}-0"
    floor = script("floor.py", surveys, kept, max(1, sites // 200))
    again = quote(surveys, catalogue, kept)
    change_surveys(surveys, max(1, sites // 100), 6)
    changed = quote(surveys, catalogue, kept)
    bare, styled = floor["bare"], floor["styled"]

    def row(name: str, wall: float, cpu: float, peak: float | None = None) -> Row:
        memory = "" if peak is None else f"{peak:,.0f}"
        ratios = f"{wall / bare[0]:.2f}", f"{wall / styled[0]:.2f}", f"{cpu / bare[1]:.2f}"
        return f"{sites:,}: {name}", f"{wall:.2f}", f"{cpu:.2f}", *ratios, memory

    yield row(f"floor, bare ({floor['cells']:,.0f} cells)", *bare)
    yield row("floor, each cell with a format", *styled)
    yield row("cold, one job", one.wall, one.cpu, one.peak)
    yield row(f"cold, two jobs ({one.wall / two.wall:.2f} times faster)", two.wall, two.cpu, two.peak)
    yield row(f"unchanged ({again.wall / one.wall:.3f} of cold)", again.wall, again.cpu, again.peak)
    yield row(f"1 % changed ({changed.wall / one.wall:.3f} of cold)", changed.wall, changed.cpu, changed.peak)


def single_files(home: Path, sizes: Sequence[int]) -> Iterator[Row]:
    """One file with all sites, five posts each, catalogue of 40 mounts and 40 boards."""
    catalogue = home / "catalogue-40.xlsx"
    write_catalogue(catalogue, 40, 40, 4)
    for sites in sizes:
        surveys, out = home / f"file-{sites}", home / f"file-{sites}-out"
        write_surveys(surveys, sites, 5, one_file=True)
        cost = quote(surveys, catalogue, out)
        each = 1000 * cost.wall / sites
        yield f"{sites:,}", f"{5 * sites:,}", f"{cost.wall:.1f}", f"{each:.1f}", f"{cost.peak:,.0f}"
        shutil.rmtree(out)


def stages(home: Path, sites: int) -> Iterator[Row]:
    """Where the time goes."""
    surveys = home / f"surveys-{sites}"
    used = script("stages.py", surveys, home / "catalogue-30.xlsx", home / "stages")
    whole = sum(used.values())
    for name, seconds in used.items():
        yield name, f"{seconds:.2f}", f"{seconds / whole:.0%}"


def table(headings: Row, rows: Iterator[Row]) -> None:
    """Prints a table, row by row as they come."""
    print("\n| " + " | ".join(headings) + " |\n|" + " --- |" * len(headings), flush=True)
    for row in rows:
        print("| " + " | ".join(row) + " |", flush=True)


def main(words: Sequence[str] | None = None) -> None:
    """Measures and prints."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sites", type=int, nargs="*", default=[200, 2000])
    parser.add_argument("--one-file", type=int, nargs="*", default=[250, 500, 1000, 2000])
    parser.add_argument("--posts", type=int, default=100_000)
    parser.add_argument("--times", type=int, default=3)
    asked = parser.parse_args(words)
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        for sites in asked.sites:
            clock = "clock to the bare floor", "to the floor with formats", "processors to the bare floor"
            heads = "sites: run", "clock [s]", "processors [s]", *clock, "peak [MB]"
            table(heads, portfolios(home, sites, asked.times if sites <= 500 else 1))
        table(("start-up", "clock [s]", "imports of click"), starts(home / f"one-{asked.sites[0]}-0", 2 * asked.times))
        table((f"stage of a cold run of {asked.sites[0]} sites", "processor [s]", "share"), stages(home, asked.sites[0]))
        heads = "sites in one file", "posts", "clock [s]", "a site [ms]", "peak [MB]"
        table(heads, single_files(home, asked.one_file))
        kits = script("kit_memory.py", home / "catalogue-40.xlsx", asked.posts)
        heads = "kit stage", "kits", "processor [s]", "MB beside the imports"
        table(heads, iter([(f"{asked.posts:,} posts", f"{kits['kits']:,}", f"{kits['seconds']:.1f}", f"{kits['MB']:.0f}")]))


if __name__ == "__main__":
    main()
