"""What can be wrong with a catalogue: one fault a cell, all of them in one go."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pipeline.errors import RefusedError
from pipeline.reading.book import place
from schemas.catalogue import CATALOGUE

_ORDER = {table.name: i for i, table in enumerate(CATALOGUE)}


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault: where it stands, what is wrong, what to type instead.

    `sheet` and `cell` are '' where the fault is the file's as a whole.
    """

    sheet: str
    cell: str
    message: str
    suggestion: str

    def __str__(self) -> str:
        place = " ".join(p for p in (self.sheet, self.cell) if p)
        return f"{place}: {self.message} {self.suggestion}".strip(": ").strip()


class CatalogueFaults(RefusedError):  # noqa: N818 - it carries many
    """A catalogue that cannot be used; `faults` lists every fault by sheet and cell."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(set(faults), key=_place))
        super().__init__("\n".join(str(f) for f in self.faults))

    @property
    def lines(self) -> list[str]:
        """One line a fault: where, what, what to type instead."""
        return [f"{', '.join(filter(None, (f.sheet, f.cell)))}: {f.message} {f.suggestion}".lstrip(": ") for f in self.faults]

    def __reduce__(self) -> tuple[type[CatalogueFaults], tuple[tuple[Fault, ...]]]:
        """Pickled by its faults, so that a child process can hand it on."""
        return CatalogueFaults, (self.faults,)


def _place(fault: Fault) -> tuple[object, ...]:
    """Order of the sheets in the glossary, then by row and column."""
    return (_ORDER.get(fault.sheet, -1), fault.sheet, place(fault.cell), fault.cell, fault.message)
