"""Batches of tasks through worker processes of this machine, or of a cluster; results in the batches' order."""

from __future__ import annotations

import multiprocessing
import os
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Future, ProcessPoolExecutor, wait
from contextlib import contextmanager, suppress
from typing import Any, Protocol

from pipeline.errors import RefusedError

Work = Callable[[Sequence[Any], Any], list[Any]]
"""A batch of tasks and what all share -> one outcome a task."""

Lost = Callable[[Any, str], Any]
"""The outcome of a task that takes its worker down each time it is tried."""

TRIES = 3
"""A batch whose worker was lost is done again so often; then its tasks go one by one, and a killer fails alone."""

LOOK = 60.0
"""So long a batch is waited for before one looks whether its process is alive [s]."""

HOW = "forkserver" if "forkserver" in multiprocessing.get_all_start_methods() else "spawn"
"""How processes start: never as a copy of one that has threads."""
_LOADED = ["pipeline.site.batch"]


class NoSchedulerError(RefusedError):
    """No scheduler answers at the address, or the package for it is missing."""


class WorkerLostError(Exception):
    """A batch came back from no worker; whose fault it is, is not known."""


class Executor(Protocol):
    """Where batches go."""

    width: int
    """Batches to have under way: enough to keep every worker busy, few enough for the memory."""
    tries: int
    """How often a batch is worth handing over anew before its tasks go one by one."""

    def submit(self, work: Work, batch: Sequence[Any]) -> Future[list[Any]]:
        """Hand a batch over."""

    def result(self, future: Future[list[Any]]) -> list[Any]:
        """Wait for a batch; WorkerLostError where its worker was lost."""

    def close(self) -> None:
        """Let the workers go."""


@contextmanager
def executor(shared: Any, jobs: int, cluster: str = "", or_here: bool = False) -> Iterator[Executor]:
    """Workers that have what all batches share; this process itself where there is one job.

    NoSchedulerError where no scheduler answers; with `or_here`, in the middle of a run, this machine does the work then.
    """
    try:
        made = _made(shared, jobs, cluster)
    except NoSchedulerError:
        if not or_here:
            raise
        made = _made(shared, jobs, "")
    try:
        yield made
    finally:
        made.close()


def _made(shared: Any, jobs: int, cluster: str) -> Executor:
    if cluster:
        from pipeline.executors.cluster import Cluster

        with suppress(NoSchedulerError):  # it was there when the run began: lost on the way, it costs only time
            return Cluster(shared, cluster)
    return Processes(shared, jobs) if jobs > 1 else Here(shared)


def load_workers() -> None:
    """Let the process from which workers start load what they need, while this one does something else."""
    if HOW == "forkserver":
        from multiprocessing import forkserver

        multiprocessing.set_forkserver_preload(_LOADED)
        forkserver.ensure_running()


def in_order(through: Executor, work: Work, batches: Iterable[Sequence[Any]], lost: Lost) -> Iterator[list[Any]]:
    """Outcomes of each batch, in order; at most a few batches are under way at once, so that memory is bounded by them."""
    waiting: deque[tuple[Sequence[Any], Future[list[Any]]]] = deque()
    for batch in batches:
        waiting.append((batch, through.submit(work, batch)))
        if len(waiting) > through.width:
            yield _outcomes(through, work, waiting, lost)
    while waiting:
        yield _outcomes(through, work, waiting, lost)


def _outcomes(through: Executor, work: Work, waiting: deque[tuple[Sequence[Any], Future[list[Any]]]], lost: Lost) -> list[Any]:
    """The outcome of the batch that has waited longest; others that went down with it are handed over again."""
    batch, future = waiting.popleft()
    try:
        return through.result(future)
    except WorkerLostError:
        outcome = _again(through, work, batch, lost)
        for i, (other, pending) in enumerate(waiting):
            if pending.done() and (pending.cancelled() or pending.exception() is not None):
                waiting[i] = (other, through.submit(work, other))
        return outcome


def _again(through: Executor, work: Work, batch: Sequence[Any], lost: Lost) -> list[Any]:
    """The batch once more; at last task by task, so that a failing site fails alone."""
    for _ in range(through.tries - 1):
        try:
            return through.result(through.submit(work, batch))
        except WorkerLostError:
            continue
    outcomes: list[Any] = []
    for task in batch:
        try:
            outcomes.extend(through.result(through.submit(work, [task])))
        except WorkerLostError as error:
            outcomes.append(lost(task, str(error)))
    return outcomes


class Here:
    """This process: a batch is done when it is handed over."""

    def __init__(self, shared: Any) -> None:
        self.width, self.tries = 0, 1
        self._shared = shared

    def submit(self, work: Work, batch: Sequence[Any]) -> Future[list[Any]]:
        """Do a batch; what goes wrong in it is raised at once."""
        future: Future[list[Any]] = Future()
        future.set_result(work(batch, self._shared))
        return future

    def result(self, future: Future[list[Any]]) -> list[Any]:
        """What came out."""
        return future.result()

    def close(self) -> None:
        """Nothing to let go."""


class Processes:
    """Processes of this machine; what is shared goes over once, at a process's start.

    Each process is a pool of its own: a pool of several that is about to start one of them when another dies can wait
    for ever for the new one (CPython before 3.12, issues 109047 and 109917).
    """

    def __init__(self, shared: Any, jobs: int) -> None:
        self.width, self.tries = 2 * jobs, TRIES
        self._shared = shared
        self._pools = [self._make() for _ in range(jobs)]
        self._given: list[list[Future[list[Any]]]] = [[] for _ in range(jobs)]
        self._lost: list[Future[list[Any]]] = []  # handed over while a process died, and never heard of again

    def _make(self) -> ProcessPoolExecutor:
        how = multiprocessing.get_context(HOW)
        return ProcessPoolExecutor(1, how, initializer=_start, initargs=(self._shared,))

    def submit(self, work: Work, batch: Sequence[Any]) -> Future[list[Any]]:
        """Hand a batch over to the process that has least to do; to a new one where that is broken."""
        self._given = [[f for f in given if not f.done()] for given in self._given]
        i = min(range(len(self._pools)), key=lambda i: len(self._given[i]))
        try:
            future = self._pools[i].submit(_call, work, batch)
        except BrokenExecutor:
            self._pools[i].shutdown(wait=True, cancel_futures=True)
            self._lost += [f for f in self._given[i] if not f.done()]
            self._pools[i], self._given[i] = self._make(), []
            future = self._pools[i].submit(_call, work, batch)
        self._given[i].append(future)
        return future

    def result(self, future: Future[list[Any]]) -> list[Any]:
        """Wait for a batch."""
        while True:
            wait([future], timeout=LOOK)
            try:
                if future.done():
                    return future.result()
                self._look(future)
            except BrokenExecutor as error:
                raise WorkerLostError("its worker process was lost each time it was tried") from error

    def _look(self, future: Future[list[Any]]) -> None:
        """BrokenExecutor where the process is gone that has a batch."""
        if future in self._lost:
            raise BrokenExecutor
        for pool, given in zip(self._pools, self._given, strict=True):
            if future in given:
                pool.submit(_nothing)

    def close(self) -> None:
        """Let the processes go."""
        for pool in self._pools:
            pool.shutdown(wait=True, cancel_futures=True)


def _nothing() -> None:
    """Work by which one sees whether a process is alive."""


_SHARED: Any = None


def _start(shared: Any) -> None:
    global _SHARED
    _SHARED = shared
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    """A worker whose run was killed ends too."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def _call(work: Work, batch: Sequence[Any]) -> list[Any]:
    return work(batch, _SHARED)
