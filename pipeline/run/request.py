"""What a run is asked for, and fingerprints of what it reads."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from functools import cache
from pathlib import Path
from typing import Any, Protocol

from pipeline import PROGRAM
from pipeline.output.folder import file_digest
from pipeline.reading import LIMITS, Found
from schemas.catalogue import LOGO_MOST_BYTES, LOGO_SUFFIXES


@dataclass(frozen=True)
class Request:
    """What `postquote quote` is asked for. `now` comes from the command layer and goes nowhere but into the ledger."""

    surveys: tuple[str, ...]
    catalogue: str
    out: Path
    date: date
    jobs: int
    cluster: str
    renew: bool
    now: datetime


class Progress(Protocol):
    """How a run reports its progress; the command layer shows it."""

    def stage(self, what: str, total: int) -> None:
        """A stage begins."""

    def step(self, done: int) -> None:
        """So much of the stage is done."""

    def say(self, text: str) -> None:
        """Something worth knowing."""


@dataclass(frozen=True)
class Prints:
    """SHA-256 of each survey file by name, of the catalogue file, the program's own code and pictures beside the catalogue."""

    surveys: Mapping[str, str]
    catalogue: str
    program: str
    pictures: Mapping[str, str] = field(default_factory=dict)
    marks: str = ""  # of what became of the quotations, as the ledger has it

    @property
    def whole(self) -> str:
        """One fingerprint of everything that a run reads."""
        return sha({**vars(self), "surveys": sorted(self.surveys.items())})


def fingerprints(found: Sequence[Found], catalogue: str) -> Prints:
    """Fingerprints of a run's inputs; a file that must not be opened has its answer for one."""
    surveys = {f.name: f.reason or survey_print(f.path) for f in found}
    return Prints(surveys, file_digest(Path(catalogue)), program_print(), _pictures(Path(catalogue).parent))


def _pictures(folder: Path) -> dict[str, str]:
    """Fingerprint of every picture in the catalogue's folder that could be the seller's logo."""
    try:
        inside = sorted(folder.iterdir())
    except PermissionError:  # a folder that may be entered and not listed: a logo is still read by its name
        return {}
    found = [p for p in inside if p.suffix.casefold() in LOGO_SUFFIXES and p.is_file()]
    return {p.name: file_digest(p) for p in found if p.stat().st_size <= LOGO_MOST_BYTES}


def survey_print(path: str) -> str:
    """Fingerprint of a survey's bytes; of one that is larger than any survey only its size, since it is not read."""
    try:
        size = os.stat(path).st_size
    except OSError:
        size = 0
    return f"{size} bytes" if size > LIMITS.file_bytes else file_digest(path)


def sha(value: Any) -> str:
    """SHA-256 of plain values in a canonical form."""
    return hashlib.sha256(json.dumps(value, sort_keys=True, ensure_ascii=True).encode()).hexdigest()


@cache
def program_print() -> str:
    """Version and fingerprint of the program's code, so that a change of the code is seen without a change of version."""
    hash_ = hashlib.sha256()
    root = Path(__file__).resolve().parents[2]
    for package in ("pipeline", "schemas"):
        for path in sorted((root / package).rglob("*.py")):
            hash_.update(path.relative_to(root).as_posix().encode() + b"\0" + path.read_bytes())
    return f"{PROGRAM}+{hash_.hexdigest()[:12]}"
