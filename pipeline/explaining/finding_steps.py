"""Each finding about the post with the mount, and the verdict that follows."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from pipeline.explaining.case import POST, Case
from pipeline.explaining.layout import filed, heading, item, listed, metres, number, paragraph
from pipeline.rules.arrays import FindingLine
from pipeline.rules.finding_lines import kit_findings, pair_findings
from pipeline.rules.verdict import codes
from schemas.findings import BY_CODE
from schemas.words import VERDICT_WORDS, VERDICTS

RULE = (
    "Any failed finding gives not_viable; else a needed extension gives viable_extended; "
    "else anything to confirm gives viable_confirm; else viable."
)


def findings(case: Case) -> Iterator[str]:
    """Findings of the pair: state, sentence, numbers, source."""
    lines = pair_findings(case.shown.posts, case.catalogue, case.shown.fit, POST, case.mount)
    yield from heading(f"Findings: post {case.row.post_code} with mount {case.mount_code}")
    yield from _finding_lines(lines)


def of_kit(case: Case) -> Iterator[str]:
    """Findings of the kit that is looked at."""
    yield from heading("Findings of the kit")
    yield from _finding_lines(kit_findings(case.shown.posts, case.shown.kits, case.kit))
    k, n = case.shown.kits, case.kit
    code = VERDICTS[int(k.verdict[n])]
    yield from item("Verdict of the kit", f"{code}: {VERDICT_WORDS[code]}; to confirm: {listed(codes(k.confirm[n]), 'nothing')}")
    yield from paragraph("It is the mount's, with STRENGTH and FOOTING to confirm added: viable then becomes viable_confirm.")


def _finding_lines(lines: Sequence[FindingLine]) -> Iterator[str]:
    for f in lines:
        yield from item(f"{f.code:<10}{f.state}", f.sentence, width=20)
        if numbers := _numbers(f):
            yield from item("", numbers, width=20)
        yield from item("", f"Source: {BY_CODE[f.code].source}.", width=20)


def _numbers(f: FindingLine) -> str:
    """Value, limits and margin, each with its unit; '' where the finding has none."""
    shown = [("value", f.value), ("at least", f.least), ("at most", f.most), ("margin", f.margin)]
    if all(math.isnan(v) for _, v in shown[:3]):
        return ""
    parts = [f"{name} {_figure(v, f.unit)}" for name, v in shown if not math.isnan(v) or name in ("value", "margin")]
    return "; ".join(parts)


def _figure(value: float, unit: str) -> str:
    if unit == "m":
        return metres(value)
    return number(value) + (f" {unit}" if unit else " of strength") if not math.isnan(value) else "not known"


def verdict(case: Case) -> Iterator[str]:
    """The pair's verdict, how it follows, and its line in data/mount_fit.csv."""
    fit, lines = case.shown.fit, pair_findings(case.shown.posts, case.catalogue, case.shown.fit, POST, case.mount)
    code = VERDICTS[int(fit.verdict[POST, case.mount])]
    failed, confirm = ([f.code for f in lines if f.state == state] for state in ("fail", "confirm"))
    yield from heading("Verdict")
    yield from item(f"Mount {case.mount_code}", f"{code}: {VERDICT_WORDS[code]}")
    yield from item("Failed", listed(failed, "nothing"))
    yield from item("Extension", case.extension_code or "none")
    yield from item("To confirm", listed(confirm, "nothing"))
    yield from paragraph(RULE)
    yield from _as_in_file(case, code, failed, confirm)


def _as_in_file(case: Case, code: str, failed: list[str], confirm: list[str]) -> Iterator[str]:
    fit, m = case.shown.fit, case.mount
    added = filed(case.pair(fit.added)) if case.extension_code else ""
    rows = (
        ("verdict", code),
        ("failed", ";".join(failed)),
        ("confirm", ";".join(confirm)),
        ("ring_height_max_m", filed(case.pair(fit.ring_height_max))),
        ("shortfall_m", filed(case.pair(fit.shortfall))),
        ("extension", case.extension_code),
        ("extension_added_m", added),
        ("ring_heights_covered", str(int(fit.covered[POST, m]))),
        ("ring_heights_wanted", str(int(fit.wanted[POST]))),
    )
    yield from paragraph("The same as it stands in data/mount_fit.csv (_m: metres; blank: none):")
    for name, text in rows:
        yield from item(name, text, indent=4)
