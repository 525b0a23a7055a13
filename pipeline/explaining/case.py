"""What an explanation is made from: what a run left of one post, worked out again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.ledger.kept_catalogue import Kept
from pipeline.rules.arrays import Catalogue, Policy
from pipeline.site.compute import Answer, rounded
from schemas.policy import BY_NAME

POST = 0
"""Number of the post in its answer: one row is worked out at a time."""


@dataclass(frozen=True)
class Left:
    """What a run left of one site."""

    folder: str
    quoted: tuple[SurveyRow, ...]
    held: tuple[SurveyRow, ...]
    kept: Kept  # the catalogue that was used
    fingerprint: str  # of its content
    revision: int
    date: str
    valid_until: str
    workbook: str
    says: Mapping[str, Any]  # quote.content, `says`: site, money, lines
    run: int
    program: str
    newest_run: int
    decided: Mapping[str, Any]  # what the customer's other sites decide: see site.decided

    @property
    def customer(self) -> str:
        """The customer as the survey states it."""
        return str(self.says["site"][2] or "")


@dataclass(frozen=True)
class Case:
    """One quoted post with the mount that is looked at."""

    left: Left
    row: SurveyRow
    catalogue: Catalogue
    answer: Answer
    mount: int  # among the active mounts
    kit: int  # the best kit with that mount, -1 where there is none
    named: bool  # the reader has named the mount

    @cached_property
    def shown(self) -> Answer:
        """The answer as the files have it, rounded."""
        return rounded(self.answer)

    @property
    def policy(self) -> Policy:
        """Settings in force, SI."""
        return self.left.kept.policy

    @property
    def recommended(self) -> int:
        """Number of the kit of rank 1, -1 where the post has none."""
        return 0 if len(self.answer.kits.rank) else -1

    @property
    def currency(self) -> str:
        """Currency of all prices."""
        return str(self.policy["currency"])

    @property
    def mount_code(self) -> str:
        """Code of the mount that is looked at."""
        return self.catalogue.mounts.code[self.mount]

    @property
    def extension_code(self) -> str:
        """Code of the extension of the pair, '' none."""
        at = int(self.answer.fit.extension[POST, self.mount])
        return self.catalogue.extensions.code[at] if at >= 0 else ""

    def pair(self, values: Any) -> float:
        """A figure of the fit, of this post with this mount."""
        return float(values[POST, self.mount])


def setting(kept: Kept, name: str) -> str:
    """A setting as it was typed, and where it comes from: `6 mm (ring_height_tolerance, documented default)`."""
    known = BY_NAME[name]
    value, unit = kept.typed.get(name, (known.default, known.unit))
    return f"{f'{value} {unit}'.strip()} ({name}, {origin(kept, name)})"


def origin(kept: Kept, name: str) -> str:
    """Where a setting comes from."""
    return "the catalogue's policy" if name in kept.stated else "documented default"
