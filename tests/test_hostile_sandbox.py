"""The child that reads files: whatever becomes of it takes only its file along, and nothing of it stays behind."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from files_made import xlsx

from pipeline.intake.readers import REFUSED_SECONDS, Readers
from pipeline.reading import Sandbox, read_book
from pipeline.reading.book import UnreadableFileError

GOOD = xlsx('<row r="1"><c r="A1"><v>7</v></c></row>')

# the work of the child


KEPT: list[bytearray] = []


def echo(path: str, *args: Any) -> Any:
    return path, args


def misbehave(path: str, how: str) -> Any:
    if how == "abort":
        os.abort()
    if how == "exit":
        raise SystemExit(3)
    if how == "fault":
        raise KeyError("x")
    if how == "hang":
        time.sleep(60)
    if how == "spin":
        while True:
            pass
    if how == "memory":
        return len(bytearray(8 << 30))
    if how == "much":
        return len(bytearray(900 << 20))
    if how == "leak":
        KEPT.append(bytearray(300 << 20))
    if how == "noise":
        print("noise", flush=True)
        os.write(1, b"more noise")
        os.write(2, b"more noise")
        return sys.stdin.read()
    if how == "object":
        return threading.Event
    return how


@pytest.fixture
def box(monkeypatch: pytest.MonkeyPatch) -> Any:
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parent))
    with Sandbox("test_hostile_sandbox:misbehave", wall_seconds=8, processor_seconds=1) as made:
        yield made


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ("abort", "stop working"),
        ("exit", "SystemExit in test_hostile_sandbox.py"),
        ("fault", "KeyError in test_hostile_sandbox.py, line"),
        ("hang", "too long"),
        ("spin", "too long"),
        ("memory", "more memory"),
        ("object", "stop working"),
    ],
)
def test_a_child_that_fails_takes_only_its_file_along(box: Sandbox, how: str, words: str) -> None:
    if how == "memory" and sys.platform == "darwin":
        pytest.skip("that system bounds no address space")
    assert box.run("good", "before") == "before"
    with pytest.raises(UnreadableFileError) as e:
        box.run("bad", how)
    assert words in e.value.reason
    assert box.run("good", "after") == "after"


def test_refused_files_have_their_time_in_common() -> None:
    """Once a run has spent so much on files that it refuses, the next ones get little."""
    with Readers(1) as readers:
        readers.refused_after(REFUSED_SECONDS)
        assert readers.hurry == 1
        readers.refused_after(1)
        assert readers.hurry < 1


@pytest.fixture
def patient(monkeypatch: pytest.MonkeyPatch) -> Iterator[Sandbox]:
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parent))
    with Sandbox("test_hostile_sandbox:misbehave", wall_seconds=60, processor_seconds=20) as made:
        yield made


@pytest.mark.slow
def test_what_needs_more_memory_than_most_is_done_again_with_room(tmp_path: Path, patient: Sandbox) -> None:
    sizes = (3_000_000, 6_000_000)
    for size in sizes:
        path = tmp_path / str(size)
        with path.open("wb") as f:
            f.truncate(size)
        assert patient.run(str(path), "much") == 900 << 20
    with pytest.raises(UnreadableFileError, match="more memory"):
        patient.run("a small file", "much")
    assert patient.run("x", "after") == "after"


def test_what_one_file_leaves_behind_is_not_the_next_ones_loss(box: Sandbox) -> None:
    assert box.run("x", "before") == "before"
    assert box._child is not None
    box.run("x", "leak")
    assert box._child is None  # the next file gets a new one
    assert box.run("x", "after") == "after"


def test_a_file_that_fills_the_memory_is_told_apart_for_the_sandbox(monkeypatch: pytest.MonkeyPatch) -> None:
    from pipeline.intake import reader
    from pipeline.reading import formats

    def full(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr(formats, "load", lambda *_: b"x")
    monkeypatch.setattr(formats, "_read", full)
    with pytest.raises(UnreadableFileError, match="more memory"):
        reader.take_path("x", "x", {}, {})


def test_what_a_library_prints_goes_nowhere(box: Sandbox, capfd: pytest.CaptureFixture[str]) -> None:
    assert box.run("x", "noise") == ""
    assert capfd.readouterr() == ("", "")


def test_files_read_in_the_sandbox(tmp_path: Path) -> None:
    good, bad = tmp_path / "good.xlsx", tmp_path / "bad.xlsx"
    good.write_bytes(GOOD)
    bad.write_bytes(b"")
    with Sandbox("pipeline.reading:read_book") as box:
        assert box.run(str(good)) == read_book(str(good))
        with pytest.raises(UnreadableFileError, match="empty"):
            box.run(str(bad))
        assert box.run(str(good)) == read_book(str(good))


def test_work_that_is_not_there_is_no_fault_of_the_file() -> None:
    with Sandbox("pipeline.reading:nothing") as box, pytest.raises(RuntimeError, match="cannot load"):
        box.run("x")


def test_threads_may_share_a_sandbox(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parent))
    answers: list[Any] = []
    with Sandbox("test_hostile_sandbox:echo") as box:
        threads = [threading.Thread(target=lambda i=i: answers.append(box.run(str(i), i))) for i in range(20)]  # type: ignore[misc]
        for t in threads:
            t.start()
        for t in threads:
            t.join()
    assert sorted(answers, key=lambda a: a[1]) == [(str(i), (i,)) for i in range(20)]


_PARENT = """
import os, sys, time
from pipeline.reading import Sandbox
box = Sandbox("test_hostile_sandbox:misbehave")
box.run("x", "ready")
print(box._child.pid, flush=True)
if sys.argv[1] == "busy":
    box.run("x", "hang")
time.sleep(60)
"""


@pytest.mark.skipif(os.name != "posix", reason="signals of one family of systems")
@pytest.mark.parametrize("state", ["idle", "busy"])
def test_the_child_dies_with_its_parent(state: str) -> None:
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parent)}
    parent = subprocess.Popen([sys.executable, "-c", _PARENT, state], stdout=subprocess.PIPE, env=environment)
    assert parent.stdout is not None
    child = int(parent.stdout.readline())
    time.sleep(0.1)
    parent.send_signal(signal.SIGKILL)
    parent.wait()
    parent.stdout.close()
    for _ in range(60):
        if not _lives(child):
            return
        time.sleep(0.05)
    os.kill(child, signal.SIGKILL)
    pytest.fail("the child outlived its parent")


def _lives(pid: int) -> bool:
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    status = Path(f"/proc/{pid}/status")
    return not (status.exists() and "\nState:\tZ" in status.read_text())


def test_no_child_is_left_behind() -> None:
    with Sandbox("pipeline.reading:read_book") as box:
        with pytest.raises(UnreadableFileError):
            box.run("/nowhere")
        child = box._child
    assert child is not None
    assert child.returncode is not None
