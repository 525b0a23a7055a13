"""How much a file may hold before it is refused, and the count that is kept while it is read."""

from __future__ import annotations

from dataclasses import dataclass

from pipeline.reading.answers import COPY, damaged
from pipeline.reading.book import UnreadableFileError


@dataclass(frozen=True, slots=True)
class Limits:
    """Most that one file may hold.

    Bytes are counted as they are inflated, whatever a file declares; `ratio` is inflated over packed
    size of parts beyond `ratio_from` bytes; `cells` counts filled cells, `elements` blank ones too.
    Source: common practice; the largest of 2,700 public test files inflates to 103 MB.
    """

    file_bytes: int = 100_000_000
    members: int = 10_000
    part_bytes: int = 250_000_000
    all_bytes: int = 400_000_000
    ratio: int = 300
    ratio_from: int = 20_000_000
    rows: int = 1_048_576
    columns: int = 16_384
    cells: int = 4_000_000
    elements: int = 10_000_000
    sheets: int = 500
    strings: int = 4_000_000
    text: int = 131_072


LIMITS = Limits()


def refuse(what: str) -> UnreadableFileError:
    """Answer for a file that holds more than a survey ever does; `what` follows 'It holds'."""
    return UnreadableFileError(
        f"The file holds {what}, which is more than any survey or catalogue needs, so it was not read further.",
        COPY,
    )


@dataclass(slots=True)
class Budget:
    """What has been read of one file so far, held against its limits."""

    limits: Limits
    cells: int = 0
    elements: int = 0
    bytes: int = 0

    def take_cell(self, row: int, column: int) -> None:
        """Count one filled cell at a 1-based place; raises UnreadableFileError beyond a limit."""
        self.cells += 1
        limits = self.limits
        if self.cells > limits.cells:
            raise refuse(f"more than {limits.cells:,} filled cells")
        if row > limits.rows or column > limits.columns:
            raise refuse(f"a cell in row {row:,}, column {column:,}")
        if row < 1 or column < 1:
            raise damaged(f"a cell claims to stand in row {row:,}, column {column:,}")

    def allow_repeat(self, row: int, column: int, cells: int) -> None:
        """Refuse so many filled cells, the last of them at a place, before they are written out."""
        limits = self.limits
        if row > limits.rows or column > limits.columns:
            raise refuse(f"a cell in row {row:,}, column {column:,}")
        if self.cells + cells > limits.cells:
            raise refuse(f"more than {limits.cells:,} filled cells")

    def take_elements(self, count: int) -> None:
        """Count cells that may be blank."""
        self.elements += count
        if self.elements > self.limits.elements:
            raise refuse(f"more than {self.limits.elements:,} cells")

    def take_bytes(self, count: int) -> None:
        """Count inflated bytes of all parts."""
        self.bytes += count
        if self.bytes > self.limits.all_bytes:
            raise refuse(f"more than {self.limits.all_bytes // 1_000_000:,} MB once it is unpacked")
