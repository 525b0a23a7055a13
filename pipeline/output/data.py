"""DIR/data/*.csv, put together site by site; the lines of a site that did not change are copied from the files before."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from types import TracebackType
from typing import Any, BinaryIO

from pipeline.output.folder import PART, NotWrittenError, in_words
from pipeline.output.writer import Writer
from schemas.column import Table
from schemas.results import EXTENSIONS_NEEDED, KITS, MOUNT_FIT, POSTS, QUOTE_LINES

BY_SITE: tuple[Table, ...] = (POSTS, MOUNT_FIT, KITS, EXTENSIONS_NEEDED, QUOTE_LINES)
"""Files whose lines are made with each site; the others (sites, queries, changes) are made at the end."""


def heading(table: Table) -> bytes:
    """The first line of a data file."""
    return (",".join(table.names) + "\n").encode()


def lines(table: Table, rows: Iterable[Mapping[str, Any]]) -> bytes:
    """Rows as lines of the table's file; None is blank, True and False are `true` and `false`."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    for row in rows:
        writer.writerow([_plain(row[name]) for name in table.names])
    return text.getvalue().encode("utf-8", "replace")


def _plain(value: Any) -> Any:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    return number(value) if isinstance(value, float) else value


def number(value: float) -> str:
    """A float for a data file: shortest form, `INF`, blank where not known; results come rounded already."""
    if value != value:
        return ""
    if value in (float("inf"), float("-inf")):
        return "INF" if value > 0 else "-INF"
    return repr(value + 0.0)


class DataFiles:
    """The per-site data files while they are being written; use as a context, then `finish`."""

    def __init__(self, folder: Path, before: Mapping[str, str]) -> None:
        """`before` maps a file's name to the hash of the file that now stands there, where it is known to be ours."""
        self._folder = folder
        self._before = before
        self._out: dict[str, BinaryIO] = {}
        self._in: dict[str, io.FileIO] = {}
        self._writer = Writer()
        self._at: dict[str, int] = {t.name: 0 for t in BY_SITE}
        self._run: dict[str, tuple[int, int]] = {}  # file -> (start, end) of lines before that are still to be copied
        self.pieces: dict[str, dict[str, tuple[int, int]]] = {}
        self.written = 0

    def __enter__(self) -> DataFiles:
        with self._in_words():
            self._folder.mkdir(exist_ok=True)
            for table in BY_SITE:
                self._out[table.name] = self._part(table.name).open("wb")
                self._write(table.name, heading(table))
                if table.name in self._before:
                    self._in[table.name] = self._path(table.name).open("rb", buffering=0)
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        with suppress(OSError):
            self._writer.end()
        for f in (*self._out.values(), *self._in.values()):
            with suppress(OSError):
                f.close()
        for table in BY_SITE:
            if self._folder.is_dir():
                self._part(table.name).unlink(missing_ok=True)

    @property
    def can_copy(self) -> bool:
        """Whether the files before are all there to copy from."""
        return len(self._in) == len(BY_SITE)

    def add(self, site: str, pieces: Mapping[str, bytes]) -> None:
        """The lines of a site that was worked out."""
        with self._in_words():
            self._writer.check()
        self.pieces[site] = {t.name: self._write(t.name, pieces[t.name]) for t in BY_SITE}

    def copy(self, site: str, pieces: Mapping[str, tuple[int, int]]) -> None:
        """The lines of a site as they stood."""
        kept: dict[str, tuple[int, int]] = {}
        for table in BY_SITE:
            start, length = pieces[table.name]
            first, end = self._run.get(table.name, (start, start))
            if end != start:
                self._flush(table.name)
                first = start
            self._run[table.name] = (first, start + length)
            kept[table.name] = (self._at[table.name], length)
            self._at[table.name] += length
        self.pieces[site] = kept

    def finish(self) -> dict[str, str]:
        """Put the files in place, those that differ; returns each file's hash."""
        for name in self._out:
            self._flush(name)
        with self._in_words():
            self._writer.end()
            for f in (*self._out.values(), *self._in.values()):
                f.close()
        done = {name: self._writer.hash(f) for name, f in self._out.items()}
        for name, hash_ in done.items():
            with self._in_words(f"{name}.csv"):
                if self._before.get(name) == hash_:
                    self._part(name).unlink()
                else:
                    self._part(name).replace(self._path(name))
                    self.written += 1
        return done

    @contextmanager
    def _in_words(self, name: str = "") -> Iterator[None]:
        try:
            yield
        except OSError as error:
            raise NotWrittenError(f"{self._folder / name} could not be written: {in_words(error)}.") from error

    def _write(self, name: str, data: bytes) -> tuple[int, int]:
        self._flush(name)
        self._writer.put(self._out[name], data)
        start = self._at[name]
        self._at[name] = start + len(data)
        return start, len(data)

    def _flush(self, name: str) -> None:
        """Copy the lines that stand side by side in the file before, in one go."""
        start, end = self._run.pop(name, (0, 0))
        if start < end:
            self._writer.put(self._out[name], (self._in[name], start, end))

    def _path(self, name: str) -> Path:
        return self._folder / f"{name}.csv"

    def _part(self, name: str) -> Path:
        return self._folder / f".{name}.csv{PART}"


def whole(table: Table, rows: Sequence[Mapping[str, Any]]) -> bytes:
    """A data file that is made in one go."""
    return heading(table) + lines(table, rows)
