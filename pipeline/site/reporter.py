"""What the workbook says of each post, as plain values."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Any

import numpy as np

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.loads.load_arrays import UNREAD_EXPOSURE
from pipeline.loads.sensitivities import measure_next
from pipeline.rules.arrays import CONFIRM, FAIL, FindingLine, Ints
from pipeline.rules.finding_lines import kit_findings, pair_findings
from pipeline.rules.rank import different
from pipeline.rules.ring_height import setting_range
from pipeline.rules.verdict import bits, codes
from pipeline.sheets.report import (
    Advice,
    FindingReport,
    KitReport,
    MountReport,
    PostReport,
)
from pipeline.site.compute import Answer
from pipeline.site.data_lines import known, money_text
from pipeline.site.recommended_loads import RecommendedLoads
from pipeline.site.task import World
from schemas.survey import EXPOSURES
from schemas.words import LOAD_STATES, VERDICTS

_FIGURES = ("utilisation_play", "utilisation_storm", "wall_needed", "footing_depth_needed", "ring_sag")


class Reporter:
    """Makes the reports of a batch's posts; what alike posts share is made once."""

    def __init__(self, rows: Sequence[SurveyRow], answer: Answer, loads: RecommendedLoads, world: World, digits: int) -> None:
        """`answer` as it is shown, rounded."""
        self._rows, self._answer, self._world, self._digits = rows, answer, world, digits
        self._failed = bits(answer.fit.findings, FAIL, answer.fit.verdict.shape)
        self._confirm = bits(answer.fit.findings, CONFIRM, answer.fit.verdict.shape)
        self._range = setting_range(world.catalogue.mounts)
        self._loads = loads
        self._look = self._looks()
        self._made: dict[int, dict[str, Any]] = {}

    def _looks(self) -> Ints:
        """What each kit is to whoever buys it, (kits, 3): width and face of its board, range of its ring heights."""
        c, kits = self._world.catalogue, self._answer.kits
        items = self._world.setting.items["Boards"]
        faces = np.array([str(items[code]["face"] or "") for code in c.boards.code], dtype=str)
        ways = (c.boards.width, kits.board), (faces, kits.board), (self._range, kits.mount)
        return np.column_stack([np.unique(of, return_inverse=True)[1][at] for of, at in ways])

    def post(self, i: int, remedy: str, advice: Sequence[tuple[str, str, str]], taken: Sequence[str]) -> PostReport:
        """The report of row number `i` of the batch."""
        g = int(self._answer.group[i])
        if g not in self._made:
            self._made[g] = self._shared(g)
        row = self._rows[i]
        advised = tuple(Advice(*a) for a in advice)
        quantity = row.quantity or 1
        made = self._made[g]
        return PostReport(
            row=row,
            quantity=quantity,
            remedy=remedy,
            advice=advised,
            taken=tuple(taken),
            measure_next=_measure_next(row, made["kits"]),
            **made,
        )

    def _shared(self, g: int) -> dict[str, Any]:
        """Everything about post number `g` that does not depend on the row."""
        a, p = self._answer, self._answer.posts
        numbers = range(int(a.start[g]), int(a.start[g + 1]))
        shown = different(self._look[numbers.start : numbers.stop], int(self._world.policy["options_per_post"]))
        kits = tuple(self._kit(numbers.start + int(k)) for k in shown)
        wanted = p.wanted[g]
        return {
            "size": float(p.size[g]),
            "size_uncertainty": math.nan if p.unread("measured_with")[g] else float(p.size_uncertainty[g]),
            "height": float(p.height[g]),
            "height_uncertainty": math.nan if p.unread("height_measured_with")[g] else float(p.height_uncertainty[g]),
            "court_rise": float(p.court_rise[g]),
            "lean": float(p.lean[g]),
            "wall": known(p.wall[g]),
            "wind_speed": float(p.wind_speed[g]),
            "exposure": "" if p.exposure[g] == UNREAD_EXPOSURE else EXPOSURES[p.exposure[g]],
            "wanted": tuple(float(w) for w in wanted[~np.isnan(wanted)]),
            "target": float(p.target[g]),
            "footing_diameter": float(p.footing_diameter[g]),
            "soil_class": int(p.soil_class[g]),
            "outcome": kits[0].verdict if kits else "no_kit",
            "kits": kits,
            "kits_in_all": len(numbers),
            "mounts": tuple(self._mounts(g)),
            "findings": self._findings(g, numbers[0]) if numbers else (),
        }

    def _findings(self, g: int, kit: int) -> tuple[FindingReport, ...]:
        """Findings of the recommended pair and kit."""
        a = self._answer
        pair = pair_findings(a.posts, self._world.catalogue, a.fit, g, int(a.kits.mount[kit]))
        return tuple(_finding(line) for line in (*pair, *kit_findings(a.posts, a.kits, kit)))

    def _mounts(self, g: int) -> Iterator[MountReport]:
        """Every active mount on post number `g`."""
        fit, c = self._answer.fit, self._world.catalogue
        figures = (fit.ring_height_max, fit.shortfall, fit.added, fit.top)
        whole = (fit.verdict, self._failed, self._confirm, fit.extension, fit.covered)
        columns = [values[g].tolist() for values in (*figures, *whole)]
        for mount, high, short, added, top, verdict, failed, confirm, extension, covered in zip(
            c.mounts.code, *columns, strict=True
        ):
            yield MountReport(
                mount,
                VERDICTS[verdict],
                _codes(failed),
                _codes(confirm),
                high,
                short,
                _code(c.extensions.code, extension),
                added,
                top,
                covered,
            )

    def _kit(self, n: int) -> KitReport:
        fit, k, c = self._answer.fit, self._answer.kits, self._world.catalogue
        pair = int(k.post[n]), int(k.mount[n])
        return KitReport(
            rank=int(k.rank[n]),
            verdict=VERDICTS[k.verdict[n]],
            confirm=_codes(int(k.confirm[n])),
            mount=c.mounts.code[k.mount[n]],
            board=c.boards.code[k.board[n]],
            ring=c.rings.code[k.ring[n]],
            extension=_code(c.extensions.code, int(k.extension[n])),
            covered=int(k.covered[n]),
            top=float(fit.top[pair]),
            lowest=float(fit.top[pair] - self._range[pair[1]]),
            lowered=float(fit.lowered[pair]),
            added=float(fit.added[pair]),
            cleared=bool(k.cleared[n]),
            load_state=LOAD_STATES[int(k.load["load_state"][n])],
            moment_play=float(k.load["moment_play"][n]),
            moment_storm=float(k.load["moment_storm"][n]),
            hung_mass=float(k.load["hung_mass"][n]),
            unit_price=_decimal(money_text(int(k.price[n]), c.price_unit, self._digits)),
            shares=self._loads.shares(n) if k.rank[n] == 1 else (),
            margins=self._loads.margins_of(n) if k.rank[n] == 1 else None,
            **{name: known(k.load[name][n]) for name in _FIGURES},
        )


def _measure_next(row: SurveyRow, kits: tuple[KitReport, ...]) -> str:
    """The input whose measurement would settle most of the recommended kit's load, '' none."""
    if not kits or kits[0].margins is None:
        return ""
    stated = {name: name not in row.not_stated for name in ("wind_speed", "exposure", "lean")}
    return measure_next(np.array(kits[0].margins.swings), stated)


def _finding(line: FindingLine) -> FindingReport:
    return FindingReport(**{n: _known(v) for n, v in vars(line).items()})


def _known(value: Any) -> Any:
    return None if isinstance(value, float) and math.isnan(value) else value


@lru_cache(maxsize=4096)
def _codes(mask: int) -> tuple[str, ...]:
    return codes(mask)


def _code(listed: Sequence[str], index: int) -> str:
    return listed[index] if index >= 0 else ""


def _decimal(text: str) -> Any:
    from decimal import Decimal

    return Decimal(text)
