"""Worker processes of this machine: results in order, bounded in memory, and whole whatever becomes of a worker."""

from __future__ import annotations

import os
import re
import signal
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest
from workers_made import results, runner, surveys_and_catalogue

from pipeline.executors import processes
from pipeline.executors.processes import executor, in_order

ROOT = Path(__file__).resolve().parent.parent


def batches(sizes: Sequence[int]) -> list[list[int]]:
    numbers = iter(range(sum(sizes)))
    return [[next(numbers) for _ in range(size)] for size in sizes]


def squares(batch: Sequence[int], shared: dict[str, Any]) -> list[Any]:
    """The work: some numbers kill their process, once or each time."""
    for n in batch:
        mark = shared.get("once", {}).get(n)
        if n in shared.get("killers", ()) or (mark and not os.path.exists(mark)):
            if mark:
                Path(mark).touch()
            os.kill(os.getpid(), signal.SIGKILL)
    return [n * n for n in batch]


def lost(task: int, why: str) -> str:
    return f"{task}: {why}"


def done(made: list[list[int]], shared: dict[str, Any], jobs: int = 2) -> list[list[Any]]:
    with executor(shared, jobs) as through:
        return list(in_order(through, squares, made, lost))


@pytest.mark.parametrize("jobs", [1, 2, 5])
def test_results_come_in_the_batches_order(jobs: int) -> None:
    made = batches([3, 1, 4, 1, 5, 9, 2, 6])
    assert done(made, {}, jobs) == [[n * n for n in batch] for batch in made]
    assert done([], {}, jobs) == []


def test_few_batches_are_under_way_at_once() -> None:
    """Batches are taken from a portfolio of any size as results are taken, not before."""
    taken = 0

    def many() -> Iterator[list[int]]:
        nonlocal taken
        for batch in batches([1] * 40):
            taken += 1
            yield batch

    with executor({}, 2) as through:
        for given, _ in enumerate(in_order(through, squares, many(), lost), 1):
            assert taken - given <= 4, "twice as many as there are workers"


def test_a_batch_whose_worker_was_killed_is_done_again(tmp_path: Path) -> None:
    made = batches([4] * 6)
    once = {n: str(tmp_path / str(n)) for n in (2, 9, 22)}
    assert done(made, {"once": once}) == [[n * n for n in batch] for batch in made]
    assert len(list(tmp_path.iterdir())) == 3


def test_a_task_that_kills_its_worker_each_time_fails_alone() -> None:
    made = batches([4] * 4)
    expected = [[n * n for n in batch] for batch in made]
    expected[0][1] = "1: its worker process was lost each time it was tried"
    expected[3][2] = "14: its worker process was lost each time it was tried"
    assert done(made, {"killers": (1, 14)}) == expected


def test_no_process_is_a_copy_of_one_that_has_threads() -> None:
    """What a fork copies of another thread's locks stays locked for ever; warnings of Python 3.12 say so too."""
    assert processes.HOW in ("forkserver", "spawn")
    calls = re.compile(r"\bos\.fork|[\"']fork[\"']|^import gc|\bgc\.", re.M)
    assert [p.name for p in sorted((ROOT / "pipeline").rglob("*.py")) if calls.search(p.read_text())] == []


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return surveys_and_catalogue(tmp_path_factory.mktemp("workers"), sites=24)


@pytest.fixture(scope="module")
def alone(home: Path) -> dict[str, bytes]:
    runner(home, "alone", "--jobs", "1")
    return results(home / "alone")


@pytest.mark.slow
def test_a_run_with_two_jobs_gives_the_same_bytes_though_a_worker_is_killed(
    home: Path, alone: dict[str, bytes], tmp_path: Path
) -> None:
    runner(home, "two", "--jobs", "2", script="batches_slow", KILL_ONCE=str(tmp_path / "once"))
    assert (tmp_path / "once").exists()
    assert results(home / "two") == alone


@pytest.mark.slow
def test_a_run_with_a_site_that_kills_its_worker(home: Path, alone: dict[str, bytes]) -> None:
    said = runner(home, "killer", "--jobs", "2", status=3, script="batches_slow", KILLER_SITE="G-0007")
    assert "G-0007" in said
    made = results(home / "killer")
    books = {n for n in alone if n.startswith("sites/")}
    assert books - made.keys() == {n for n in books if "G-0007" in n}
    assert {n: made[n] for n in books & made.keys()} == {n: alone[n] for n in books & made.keys()}
