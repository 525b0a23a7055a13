"""Child processes that take files in; they load while their parent still does something else."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from queue import LifoQueue
from types import TracebackType

from pipeline.intake.taken import Taken
from pipeline.reading import Sandbox

REFUSED_SECONDS = 300.0
"""Time that all refused files of a run may take together [s]."""
_IN_A_HURRY = 0.2  # a survey of ten thousand posts is read in it


class Readers:
    """At most `jobs` readers, each with one file at a time; use as a context."""

    def __init__(self, jobs: int) -> None:
        self._boxes = [Sandbox("pipeline.intake.reader:take_path", admits=(Taken,)) for _ in range(max(1, jobs))]
        self._spent = 0.0
        self._free: LifoQueue[Sandbox] = LifoQueue()  # the one that is loaded already comes first
        for box in reversed(self._boxes):
            self._free.put(box)

    def __enter__(self) -> Readers:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        """End them; a file that comes later starts one again."""
        for box in self._boxes:
            box.close()

    def __len__(self) -> int:
        return len(self._boxes)

    @property
    def hurry(self) -> float:
        """The share of its time that the next file may take: little, once refused files have used up what a run has for them."""
        return _IN_A_HURRY if self._spent > REFUSED_SECONDS else 1.0

    def refused_after(self, seconds: float) -> None:
        """Count the time that a refused file took."""
        self._spent += seconds

    def start(self, files: int) -> None:
        """Start as many as that many files can use; without this each starts with its first file."""
        for box in self._boxes[:files]:
            box.start()

    @contextmanager
    def one(self) -> Iterator[Sandbox]:
        """A reader that nobody uses."""
        box = self._free.get()
        try:
            yield box
        finally:
            self._free.put(box)
