"""Batches of sites through worker processes: on this machine, or on a Dask scheduler; results in the batches' order."""

from __future__ import annotations

import gc
import multiprocessing
import os
import pickle
import sys
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor
from contextlib import AbstractContextManager, contextmanager
from typing import Any

Work = Callable[[Sequence[Any], Any], list[Any]]
"""A batch of tasks and what all share -> one outcome a task."""

Submit = Callable[[Executor, Sequence[Any]], "Future[list[Any]]"]

TRIES = 3
"""A batch whose worker was lost is done again so often; then its tasks go one by one, and a killer fails alone."""


class NoSchedulerError(Exception):
    """No scheduler answers at the address, or the package for it is missing."""


def in_order(
    work: Work,
    shared: Any,
    batches: Iterable[Sequence[Any]],
    jobs: int,
    cluster: str,
    lost: Callable[[Any, str], Any],
) -> Iterator[list[Any]]:
    """Outcomes of each batch, in order; at most a few batches are under way at once, so that memory is bounded by them.

    `lost(task, why)` gives the outcome of a task that takes its worker down each time it is tried.
    """
    if jobs <= 1 and not cluster:
        for batch in batches:
            yield work(batch, shared)
        return
    with _crew(work, shared, jobs, cluster) as crew:
        yield from _flow(crew, batches, lost)


def _flow(crew: _Crew, batches: Iterable[Sequence[Any]], lost: Callable[[Any, str], Any]) -> Iterator[list[Any]]:
    waiting: deque[tuple[Sequence[Any], Future[list[Any]]]] = deque()
    for batch in batches:
        waiting.append((batch, crew.submit(batch)))
        if len(waiting) > crew.width:
            yield _taken(crew, waiting, lost)
    while waiting:
        yield _taken(crew, waiting, lost)


def _taken(crew: _Crew, waiting: deque[Any], lost: Callable[[Any, str], Any]) -> list[Any]:
    batch, future = waiting.popleft()
    try:
        return future.result()
    except crew.lost_errors:
        outcome = _again(crew, batch, lost)
        for i, (other, unsettled) in enumerate(waiting):
            if unsettled.done() and unsettled.exception() is not None:
                waiting[i] = (other, crew.submit(other))
        return outcome


def _again(crew: _Crew, batch: Sequence[Any], lost: Callable[[Any, str], Any]) -> list[Any]:
    """The batch once more; at last task by task, so that a failing site fails alone."""
    for _ in range(TRIES - 1):
        try:
            crew.renew()
            return crew.submit(batch).result()
        except crew.lost_errors:
            continue
    outcomes: list[Any] = []
    for task in batch:
        try:
            crew.renew()
            outcomes.extend(crew.submit([task]).result())
        except crew.lost_errors as error:
            outcomes.append(lost(task, f"its worker process was lost ({type(error).__name__})"))
    return outcomes


class _Crew:
    """Where batches go: an executor that can be made anew, and how a batch is handed to it."""

    def __init__(self, make: Callable[[], Executor], submit: Submit, width: int, lost_errors: tuple[type[BaseException], ...]):
        self.width = width
        self.lost_errors = lost_errors
        self._make, self._submit = make, submit
        self._executor = make()

    def submit(self, batch: Sequence[Any]) -> Future[list[Any]]:
        try:
            return self._submit(self._executor, batch)
        except BrokenExecutor:
            self.renew()
            return self._submit(self._executor, batch)

    def renew(self) -> None:
        """A new executor where the old one lost a process."""
        if getattr(self._executor, "_broken", False):
            self._executor.shutdown(wait=False, cancel_futures=True)
            self._executor = self._make()

    def close(self) -> None:
        self._executor.shutdown(wait=True, cancel_futures=True)


@contextmanager
def _crew(work: Work, shared: Any, jobs: int, cluster: str) -> Iterator[_Crew]:
    with _on_cluster(work, shared, cluster) if cluster else _here(work, shared, jobs) as crew:
        try:
            yield crew
        finally:
            crew.close()


# this machine

_HOW = "fork" if sys.platform == "linux" else "spawn"
_SHARED: Any = None
_WORK: Work | None = None


def _start(work: Work, shared: bytes | Any) -> None:
    global _SHARED, _WORK
    _WORK, _SHARED = work, shared
    gc.freeze()  # what the parent had made is never looked through here
    _watch()


def _watch() -> None:
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    """A worker whose run was killed ends too, and lets go of what it holds of the run's, the folder's lock among it."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


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


def _call_here(batch: Sequence[Any]) -> list[Any]:
    assert _WORK is not None
    return _WORK(batch, _SHARED)


@contextmanager
def _here(work: Work, shared: Any, jobs: int) -> Iterator[_Crew]:
    """Processes of this machine; what is shared goes over once, at a process's start."""

    def make() -> Executor:
        return ProcessPoolExecutor(jobs, multiprocessing.get_context(_HOW), initializer=_start, initargs=(work, shared))

    yield _Crew(make, lambda executor, batch: executor.submit(_call_here, batch), 2 * jobs, (BrokenExecutor,))


# a cluster

_UNPACKED: dict[bytes, tuple[Work, Any]] = {}


def _call_there(packed: tuple[bytes, bytes], batch: Sequence[Any]) -> list[Any]:
    key, content = packed
    if key not in _UNPACKED:
        _UNPACKED.clear()
        _UNPACKED[key] = pickle.loads(content)
    work, shared = _UNPACKED[key]
    return work(batch, shared)


@contextmanager
def _on_cluster(work: Work, shared: Any, address: str) -> Iterator[_Crew]:
    """Workers of a Dask scheduler; what is shared is sent to each of them once."""
    try:
        from distributed import Client, KilledWorker
        from distributed.comm.core import CommClosedError
    except ImportError as error:
        raise NoSchedulerError("--cluster needs the extra `cluster`: pip install 'postquote[cluster]'.") from error
    from hashlib import sha256

    content = pickle.dumps((work, shared))
    with _client(Client, address) as client:
        if not client.scheduler_info()["workers"]:
            raise NoSchedulerError(f"The scheduler at {address} has no workers. Start some, then run again.")
        sent = client.scatter((sha256(content).digest(), content), broadcast=True)
        width = 2 * max(1, sum(w["nthreads"] for w in client.scheduler_info()["workers"].values()))
        yield _Crew(
            lambda: client.get_executor(retries=TRIES, pure=False),
            lambda executor, batch: executor.submit(_call_there, sent, batch),
            width,
            (KilledWorker, CommClosedError),
        )


def _client(make: Callable[..., AbstractContextManager[Any]], address: str) -> AbstractContextManager[Any]:
    try:
        return make(address, timeout="10s", set_as_default=False)
    except (OSError, ValueError, TimeoutError) as error:
        raise NoSchedulerError(
            f"No scheduler answers at {address}. Start one (dask scheduler), give its address, or leave --cluster out."
        ) from error
