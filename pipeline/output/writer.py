"""Bytes on their way into files, in a thread of their own: the disk and the hashes do not keep the run waiting."""

from __future__ import annotations

import hashlib
import threading
from io import FileIO
from queue import Queue
from typing import BinaryIO

_AT_ONCE = 1 << 18
_WAITING = 64
"""So many pieces wait at most; then whoever adds one waits."""

Piece = bytes | tuple[FileIO, int, int]


class Writer:
    """Writes pieces to files in the order in which they are given, and takes each file's SHA-256 on the way.

    A piece is bytes, or a file and the range of it to be copied. An error is kept and raised by `check`
    and `end`; what comes after it is let go.
    """

    def __init__(self) -> None:
        self._room = memoryview(bytearray(_AT_ONCE))
        self._hashes: dict[BinaryIO, hashlib._Hash] = {}
        self._error: Exception | None = None
        self._queue: Queue[tuple[BinaryIO, Piece] | None] = Queue(_WAITING)
        self._thread = threading.Thread(target=self._work, daemon=True)
        self._thread.start()

    def put(self, file: BinaryIO, piece: Piece) -> None:
        """Give a piece to be written."""
        self._queue.put((file, piece))

    def check(self) -> None:
        """Raise what has gone wrong so far: OSError."""
        if self._error is not None:
            raise self._error

    def end(self) -> None:
        """Wait until all is written; raise what went wrong. May be called again."""
        if self._thread.is_alive():
            self._queue.put(None)
            self._thread.join()
        self.check()

    def hash(self, file: BinaryIO) -> str:
        """SHA-256 of what was written to a file; after `end`."""
        return self._hashes[file].hexdigest()

    def _work(self) -> None:
        for file, piece in iter(self._queue.get, None):
            if self._error is None:
                try:
                    self._piece(file, piece)
                except Exception as error:  # told by `check`
                    self._error = error

    def _piece(self, file: BinaryIO, piece: Piece) -> None:
        if isinstance(piece, bytes):
            self._bytes(file, piece)
            return
        source, start, end = piece
        source.seek(start)
        while start < end:
            data = self._room[: end - start]
            data = data[: source.readinto(data)]
            if not data:
                raise OSError("a file that is copied has become shorter")
            self._bytes(file, data)
            start += len(data)

    def _bytes(self, file: BinaryIO, data: bytes | memoryview) -> None:
        file.write(data)
        if file not in self._hashes:
            self._hashes[file] = hashlib.sha256()
        self._hashes[file].update(data)
