"""Batches of sites through worker processes of this machine, or of a cluster; results in the batches' order."""

from __future__ import annotations

import gc
import multiprocessing
import os
import sys
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Future, ProcessPoolExecutor
from contextlib import contextmanager
from typing import Any, Protocol

Work = Callable[[Sequence[Any], Any], list[Any]]
"""A batch of tasks and what all share -> one outcome a task."""

Lost = Callable[[Any, str], Any]
"""The outcome of a task that takes its worker down each time it is tried."""

TRIES = 3
"""A batch whose worker was lost is done again so often; then its tasks go one by one, and a killer fails alone."""

_HOW = "fork" if sys.platform == "linux" else "spawn"


class NoSchedulerError(Exception):
    """No scheduler answers at the address, or the package for it is missing."""


class WorkerLostError(Exception):
    """A batch came back from no worker; whose fault it is, is not known."""


class Crew(Protocol):
    """Where batches go."""

    width: int
    """Batches to have under way: enough to keep every worker busy, few enough for the memory."""
    tries: int
    """How often a batch is worth handing over anew before its tasks go one by one."""

    def submit(self, batch: Sequence[Any]) -> Future[list[Any]]:
        """Hand a batch over."""

    def result(self, future: Future[list[Any]]) -> list[Any]:
        """Wait for a batch; WorkerLostError where its worker was lost."""

    def close(self) -> None:
        """Let the workers go."""


def in_order(
    work: Work, shared: Any, batches: Iterable[Sequence[Any]], jobs: int, cluster: str, lost: Lost
) -> Iterator[list[Any]]:
    """Outcomes of each batch, in order; at most a few batches are under way at once, so that memory is bounded by them."""
    gc.freeze()  # what has been made so far lives as long as the run: neither here nor in a worker is it looked through
    try:
        if jobs <= 1 and not cluster:
            yield from (work(batch, shared) for batch in batches)
            return
        crew = _crew(work, shared, jobs, cluster)
        try:
            yield from _flow(crew, batches, lost)
        finally:
            crew.close()
    finally:
        gc.unfreeze()


def _crew(work: Work, shared: Any, jobs: int, cluster: str) -> Crew:
    if not cluster:
        return Processes(work, shared, jobs)
    from pipeline.executors.cluster import Cluster

    return Cluster(work, shared, cluster)


def _flow(crew: Crew, batches: Iterable[Sequence[Any]], lost: Lost) -> Iterator[list[Any]]:
    waiting: deque[tuple[Sequence[Any], Future[list[Any]]]] = deque()
    for batch in batches:
        waiting.append((batch, crew.submit(batch)))
        if len(waiting) > crew.width:
            yield _taken(crew, waiting, lost)
    while waiting:
        yield _taken(crew, waiting, lost)


def _taken(crew: Crew, waiting: deque[tuple[Sequence[Any], Future[list[Any]]]], lost: Lost) -> list[Any]:
    """The outcome of the batch that has waited longest; others that went down with it are handed over again."""
    batch, future = waiting.popleft()
    try:
        return crew.result(future)
    except WorkerLostError:
        outcome = _again(crew, batch, lost)
        for i, (other, unsettled) in enumerate(waiting):
            if unsettled.done() and (unsettled.cancelled() or unsettled.exception() is not None):
                waiting[i] = (other, crew.submit(other))
        return outcome


def _again(crew: Crew, batch: Sequence[Any], lost: Lost) -> list[Any]:
    """The batch once more; at last task by task, so that a failing site fails alone."""
    for _ in range(crew.tries - 1):
        try:
            return crew.result(crew.submit(batch))
        except WorkerLostError:
            continue
    outcomes: list[Any] = []
    for task in batch:
        try:
            outcomes.extend(crew.result(crew.submit([task])))
        except WorkerLostError as error:
            outcomes.append(lost(task, str(error)))
    return outcomes


class Processes:
    """Processes of this machine; what is shared goes over once, at a process's start."""

    def __init__(self, work: Work, shared: Any, jobs: int) -> None:
        self.width, self.tries = 2 * jobs, TRIES
        self._jobs, self._start = jobs, (work, shared)
        self._pool = self._make()

    def _make(self) -> ProcessPoolExecutor:
        how = multiprocessing.get_context(_HOW)
        return ProcessPoolExecutor(self._jobs, how, initializer=_start, initargs=self._start)

    def submit(self, batch: Sequence[Any]) -> Future[list[Any]]:
        """Hand a batch over; to new processes where the old ones are broken."""
        try:
            return self._pool.submit(_call, batch)
        except BrokenExecutor:
            self.close()
            self._pool = self._make()
            return self._pool.submit(_call, batch)

    def result(self, future: Future[list[Any]]) -> list[Any]:
        """Wait for a batch."""
        try:
            return future.result()
        except BrokenExecutor as error:
            raise WorkerLostError("its worker process was lost each time it was tried") from error

    def close(self) -> None:
        """Let the processes go."""
        self._pool.shutdown(wait=True, cancel_futures=True)


@contextmanager
def beside(work: Callable[..., Any], *args: Any) -> Iterator[Callable[[], Any]]:
    """`work(*args)` in a process of its own; what is yielded waits for its result or raises what it raised.

    A process that is lost costs nothing but time: the work is then done here.
    """
    with ProcessPoolExecutor(1, multiprocessing.get_context(_HOW), initializer=_watch) as pool:
        future = pool.submit(work, *args)

        def result() -> Any:
            try:
                return future.result()
            except BrokenExecutor:
                return work(*args)

        yield result


_SHARED: Any = None
_WORK: Work | None = None


def _start(work: Work, shared: Any) -> None:
    global _SHARED, _WORK
    _WORK, _SHARED = work, shared
    _watch()


def _watch() -> None:
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    """A worker whose run was killed ends too, and lets go of what it holds of the run's, the folder's lock among it."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def _call(batch: Sequence[Any]) -> list[Any]:
    assert _WORK is not None
    return _WORK(batch, _SHARED)
