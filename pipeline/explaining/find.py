"""Which site, post and mount are meant; what cannot be found is answered with what exists, nearest first."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from pipeline.errors import RefusedError
from pipeline.explaining.case import POST, Left
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.ledger.store import Ledger
from pipeline.rules.arrays import FAIL, Catalogue, Policy
from pipeline.site.compute import Answer
from schemas.order import folded, natural

SHOWN = 8
"""Names that are listed where one is unknown."""


class ExplainError(RefusedError):
    """What was asked for cannot be explained; the message says what can be."""


def left_of(ledger: Ledger, folder: Path, site: str) -> Left:
    """What the finished runs of `folder` left of a site."""
    last = ledger.last_finished()
    if last is None:
        raise ExplainError(f"No run has been finished in {folder}. Run `postquote quote` first.")
    key = folded(site)
    found = ledger.site_rows(key)
    if found is None:
        raise no_such_site(ledger, folder, site)
    rows, fingerprint = found
    kept, latest = ledger.catalogue(fingerprint), ledger.latest(last.run).get(key)
    if kept is None or latest is None:
        raise ExplainError(f"{folder} does not hold all of site {site}. Run `postquote quote` into it once more.")
    run = ledger.run_of(key)
    program = next((r.program for r in ledger.runs() if r.run == run), last.program)
    return Left(
        folder=str(folder),
        quoted=tuple(SurveyRow.from_dict(r) for r in rows["quoted"]),
        held=tuple(SurveyRow.from_dict(r) for r in rows["held"]),
        kept=kept,
        fingerprint=fingerprint,
        revision=latest.revision,
        date=latest.date,
        valid_until=latest.valid_until,
        workbook=latest.workbook,
        says=ledger.contents([(key, latest.revision)])[key].content["says"],
        run=run,
        program=program,
        newest_run=last.run,
        decided=ledger.site_result(key).get("decided", {}),
    )


def rows_of(left: Left, post: str) -> tuple[SurveyRow, ...]:
    """Rows of a post: the one that was quoted, else those that are held."""
    key = folded(post)
    for rows in (left.quoted, left.held):
        if found := tuple(r for r in rows if folded(r.post_code) == key):
            return found
    codes = {r.post_code for r in (*left.quoted, *left.held) if r.post_code}
    raise ExplainError(_unknown("post", post, codes, f"at site {left.says['site'][0]}"))


def mount_named(catalogue: Catalogue, tables: Mapping[str, Sequence[Mapping[str, object]]], mount: str) -> int:
    """Number of the active mount that was named."""
    key = folded(mount)
    for i, code in enumerate(catalogue.mounts.code):
        if folded(code) == key:
            return i
    known = {folded(str(r["mount"])) for r in tables.get("Mounts", ())}
    wrong = f"Mount {mount} has been withdrawn." if key in known else ""
    raise ExplainError(_unknown("mount", mount, catalogue.mounts.code, "in the catalogue that was used", wrong))


def nearest_mount(answer: Answer, catalogue: Catalogue, policy: Policy) -> int:
    """Number of the mount that comes nearest to a post that none fits; -1 where the catalogue has no active mount.

    The remedy's, where it names one; else the one with the fewest failed findings, then the least short, then the first.
    """
    from pipeline.rules.remedy import remedies  # loaded only where nothing fits

    has_kit = answer.start[1:] > answer.start[:-1]
    mount = remedies(answer.posts, catalogue, answer.fit, policy, has_kit)[POST].mount
    if mount in catalogue.mounts.code:
        return catalogue.mounts.code.index(mount)
    many = range(len(catalogue.mounts.code))
    failed = [sum(int(f.state[POST, m if f.state.shape[1] > 1 else 0]) == FAIL for f in answer.fit.findings) for m in many]
    return min(many, key=lambda m: (failed[m], float(answer.fit.shortfall[POST, m]), m), default=-1)


def queries_of(folder: Path, row: SurveyRow) -> list[dict[str, str]] | None:
    """Queries about one row, from data/queries.csv; None where that file cannot be read."""
    import csv

    try:
        with (folder / "data" / "queries.csv").open(encoding="utf-8", newline="") as f:
            return [q for q in csv.DictReader(f) if _about(q) == (row.file, row.sheet, row.label)]
    except (OSError, UnicodeDecodeError, csv.Error):
        return None


def _about(q: Mapping[str, str]) -> tuple[str | None, ...]:
    return q.get("file"), q.get("sheet"), q.get("record")


def no_such_site(ledger: Ledger, folder: Path, site: str) -> ExplainError:
    """The answer to a site that the folder does not know: those that it does, nearest first."""
    return ExplainError(_unknown("site", site, _site_codes(ledger, folded(site)), f"of {folder}"))


def _site_codes(ledger: Ledger, key: str) -> list[str]:
    """Codes of the nearest sites, as their surveys spell them."""
    near = nearest_first(key, ledger.site_codes())
    spelled = [_spelled(ledger, code) for code in near[:SHOWN]]
    return [*spelled, *near[SHOWN:]]


def _spelled(ledger: Ledger, code: str) -> str:
    found = ledger.site_rows(code)
    rows = (*found[0]["quoted"], *found[0]["held"]) if found else ()
    return next((c for r in rows if (c := SurveyRow.from_dict(r).site_code)), code)


def _unknown(kind: str, asked: str, codes: Iterable[str], where: str, wrong: str = "") -> str:
    near = nearest_first(folded(asked), codes)
    answer = wrong or f"There is no {kind} {asked} {where}."
    if not near:
        return f"{answer} There is none at all."
    more = f" and {len(near) - SHOWN} more" if len(near) > SHOWN else ""
    these = "There is" if len(near) == 1 else "There are, nearest first,"
    return f"{answer} {these} {', '.join(near[:SHOWN])}{more}."


def nearest_first(key: str, codes: Iterable[str]) -> list[str]:
    """Codes by likeness to what was asked for, then in natural order."""
    from difflib import SequenceMatcher

    likeness = SequenceMatcher(b=key, autojunk=False)

    def rank(code: str) -> tuple[float, object]:
        likeness.set_seq1(folded(code))
        return -likeness.ratio(), natural(code)

    return sorted(set(codes), key=rank)
