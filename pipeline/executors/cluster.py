"""Batches through the workers of a Dask scheduler; what all batches share is sent to each worker once."""

from __future__ import annotations

import logging
import pickle
import socket
import time
from collections.abc import Sequence
from concurrent.futures import CancelledError, Future
from concurrent.futures import TimeoutError as NotYetError
from contextlib import suppress
from hashlib import sha256
from typing import Any
from weakref import WeakSet

from pipeline.executors.processes import TRIES, NoSchedulerError, Processes, Work, WorkerLostError
from pipeline.run.request import program_print

SECONDS = 10
"""How long a scheduler may take to answer."""
PATIENCE = 60.0
"""How long to wait for a worker where none is left [s]; after that the rest is done on this machine."""
_LOOK_EVERY = 2.0
_SCHEMES = ("tcp", "tls")


def _connected(address: str) -> Any:
    """A client of the scheduler at `address`; NoSchedulerError where that cannot be."""
    try:
        from distributed import Client
    except ImportError as error:
        raise NoSchedulerError("--cluster needs the extra `cluster`: pip install 'postquote[cluster]'.") from error
    for name in ("distributed", "distributed.client", "asyncio", "tornado"):
        logging.getLogger(name).setLevel(logging.CRITICAL)  # what counts is said in our words
    try:
        _knock(address)
        return Client(address, timeout=SECONDS, set_as_default=False)
    except Exception as error:  # whatever stands there may answer anything
        raise NoSchedulerError(
            f"No scheduler answers at {address}. Start one (dask scheduler), give its address "
            "(tcp://host:8786), or leave --cluster out."
        ) from error


def _knock(address: str) -> None:
    """Find out fast whether a scheduler is there, and raise anything where none is. The client would try for minutes."""
    import asyncio

    scheme, found, place = address.rpartition("://")
    if (scheme if found else "tcp") not in _SCHEMES:
        raise ValueError(f"{scheme} is no way to a scheduler")
    host, _, port = place.rpartition(":")
    socket.create_connection((host.strip("[]"), int(port)), timeout=SECONDS).close()
    asyncio.run(asyncio.wait_for(_identity(address), SECONDS))


async def _identity(address: str) -> None:
    """Ask who is there, in the scheduler's own words."""
    from distributed.core import connect

    comm = await connect(address, timeout=SECONDS / 2)
    try:
        await comm.write({"op": "identity", "reply": True})
        answer = await comm.read()
        if not isinstance(answer, dict) or answer.get("type") != "Scheduler":
            raise ValueError("what answers there is no scheduler")
    finally:
        comm.abort()


def require(address: str) -> None:
    """NoSchedulerError unless a scheduler answers at `address` and each of its workers has this very program."""
    with _connected(address) as client:
        if not client.nthreads():
            raise NoSchedulerError(f"The scheduler at {address} has no workers. Start some, then run again.")
        try:
            programs = client.run(program_print)
        except Exception as error:
            raise NoSchedulerError(f"A worker of {address} cannot run postquote; install it there, as it is here.") from error
        for worker, program in sorted(programs.items()):
            if program != program_print():
                raise NoSchedulerError(f"The worker {worker} has {program}, and here is {program_print()}. Install the same.")


class Cluster:
    """Workers of a scheduler; where none is left, processes of this machine take over."""

    def __init__(self, shared: Any, address: str) -> None:
        self.tries = 1  # the scheduler itself has tried a batch several times before it gives it up
        self._shared = shared
        self._client = _connected(address)
        self._content = pickle.dumps((program_print(), shared), pickle.HIGHEST_PROTOCOL)
        self._send()
        self._executor = self._client.get_executor(retries=TRIES, pure=False)
        self.width = 2 * max(1, sum(self._client.nthreads().values()))
        self._here: Processes | None = None
        self._ours: WeakSet[Future[list[Any]]] = WeakSet()  # batches that this machine does

    def _send(self) -> None:
        key = sha256(self._content).digest()
        self._sent = self._client.scatter((key, self._content), broadcast=True, hash=False)

    def submit(self, work: Work, batch: Sequence[Any]) -> Future[list[Any]]:
        """Hand a batch over."""
        if self._here is None:
            with suppress(Exception):
                future: Future[list[Any]] = self._executor.submit(_call, self._sent, work, batch)
                return future
            self._take_over()
        assert self._here is not None
        own = self._here.submit(work, batch)
        self._ours.add(own)
        return own

    def result(self, future: Future[list[Any]]) -> list[Any]:
        """Wait for a batch, and for a worker where there is none."""
        if self._here is not None and future in self._ours:
            return self._here.result(future)
        from distributed import KilledWorker

        try:
            return self._wait(future)
        except (KilledWorker, CancelledError) as error:  # or what it needed went with the workers that had it
            self._renew()
            raise WorkerLostError("its worker was lost each time it was tried") from error
        except Exception as error:  # the scheduler is gone, or a worker has another program
            self._take_over()
            raise WorkerLostError("its worker was lost") from error

    def _wait(self, future: Future[list[Any]]) -> list[Any]:
        last = time.monotonic()
        while True:
            try:
                return future.result(_LOOK_EVERY)
            except NotYetError:
                if self._has_workers():
                    last = time.monotonic()
                elif self._here is not None or time.monotonic() - last > PATIENCE:
                    future.cancel()
                    raise

    def _has_workers(self) -> bool:
        try:
            return bool(self._client.nthreads())
        except Exception:  # the scheduler is gone, or on its way back
            return False

    def _renew(self) -> None:
        """What is shared, sent again to the workers that there are now; without any, this machine takes over."""
        if self._here is None and self._has_workers():
            with suppress(Exception):
                self._send()
                return
        self._take_over()

    def _take_over(self) -> None:
        if self._here is None:
            self._here = Processes(self._shared, 1)

    def close(self) -> None:
        """Let the workers go."""
        if self._here is not None:
            self._here.close()
        with suppress(Exception):
            self._client.close()


_UNPACKED: dict[bytes, tuple[str, Any]] = {}


def _call(packed: tuple[bytes, bytes], work: Work, batch: Sequence[Any]) -> list[Any]:
    """On a worker: what is shared is unpacked once."""
    key, content = packed
    found = _UNPACKED.get(key)
    if found is None:
        found = pickle.loads(content)
        _UNPACKED.clear()
        _UNPACKED[key] = found
    program, shared = found
    if program != program_print():
        raise RuntimeError(f"this worker has {program_print()}, and the run {program}")
    return work(batch, shared)
