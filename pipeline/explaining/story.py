"""The explanation from beginning to end: which parts it has, and in which order."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from pipeline import __version__
from pipeline.explaining import finding_steps as findings
from pipeline.explaining import height_steps as heights
from pipeline.explaining import input_steps as inputs
from pipeline.explaining import kit_steps as kits
from pipeline.explaining import load_steps as loads
from pipeline.explaining import price_steps as price
from pipeline.explaining.case import POST, Case, Left
from pipeline.explaining.extension_steps import extensions
from pipeline.explaining.layout import heading, item, paragraph
from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.loads.screen import figures
from pipeline.rules.advice import advice
from pipeline.rules.kits import Items, load_inputs
from pipeline.rules.rank import differing
from schemas.words import CAUTION, VERDICT_WORDS, VERDICTS


def head(left: Left, row: SurveyRow) -> Iterator[str]:
    """Which post, of which quotation, made when and from what; with the caution."""
    code, name, customer, _ = left.says["site"]
    yield "The working for one post, from what a run left"
    yield ""
    quantity = row.quantity or 1
    yield from item("Site", f"{code}, {name}", indent=0)
    yield from item("Customer", customer or "not stated", indent=0)
    yield from item("Post", row.post_code + (f", {quantity} posts alike" if quantity > 1 else ""), indent=0)
    yield from item("Quotation", f"revision {left.revision} of {left.date}, valid until {left.valid_until}", indent=0)
    yield from item("Workbook", f"{left.folder}/{left.workbook}", indent=0)
    yield from item("Run", f"{left.run}, by {left.program}", indent=0)
    yield from item("Catalogue", f"content {left.fingerprint[:16]}", indent=0)
    place = (row.file, row.sheet and f"sheet {row.sheet}", f"row {row.row}")
    yield from item("Survey", ", ".join(filter(None, place)), indent=0)
    if left.run != left.newest_run:
        yield from paragraph(f"The site is no longer in the surveys: run {left.newest_run}, the newest, did not quote it.", 0)
    if left.program.partition("+")[0] != f"postquote {__version__}":
        yield from paragraph(f"Worked out again by postquote {__version__}: figures may differ from the files.", 0)
    yield ""
    yield from paragraph(CAUTION, 0)


def story(case: Case) -> Iterator[str]:
    """The working of a quoted post."""
    yield from _outcome(case)
    yield from inputs.inputs(case.row, case.left.kept)
    yield from inputs.uncertainties(case)
    if case.mount < 0:
        yield from heading("Mounts")
        yield from paragraph("The catalogue has no active mount: there is nothing to work out.")
    else:
        yield from findings.findings(case)
        yield from heights.heights(case)
        yield from extensions(case)
        yield from findings.verdict(case)
        yield from kits.kits(case)
    if case.kit >= 0:
        yield from kits.figures(case)
        yield from findings.of_kit(case)
        yield from price.price(case)
        yield from loads.loads(case)
    yield from _worth_knowing(case)
    yield from _remedy(case)


def _outcome(case: Case) -> Iterator[str]:
    """The answer first."""
    k, best = case.answer.kits, case.recommended
    code = VERDICTS[int(k.verdict[best])] if best >= 0 else "no_kit"
    yield from heading("Outcome")
    yield from item("Recommended kit", f"{code}: {VERDICT_WORDS[code]}")
    if case.mount >= 0:
        why = "as asked" if case.named else "of the recommended kit" if best >= 0 else "the nearest, since nothing fits"
        yield from item("Mount looked at", f"{case.mount_code}, {why}")


def _worth_knowing(case: Case) -> Iterator[str]:
    """Advice with its sources, and items asked for that cannot be had."""
    a, c = case.answer, case.catalogue
    first = np.array([case.kit])
    notes = advice(a.posts, c, a.kits, first, np.array([_frequency(case)]))[POST]
    wishes = [t for name in ("mount_asked", "board_asked", "ring_asked") if (t := getattr(case.row, name))]
    if notes or wishes:
        yield from heading("Worth knowing (never a verdict)")
    if wishes:
        yield from _asked(case)
    for n in notes:
        yield from item(n.about, f"{n.sentence} Source: {n.source}.")


def _asked(case: Case) -> Iterator[str]:
    """What becomes of the items asked for."""
    from pipeline.rules.asked import apart, refusals  # loaded only where something is asked for

    a = case.answer
    refused = refusals([case.row], a.posts, case.catalogue, a.fit, a.kits, group=a.group)[POST]
    together = apart(a.posts, a.kits)[POST]
    for r in refused:
        yield from item("Asked for", f"{r.sentence} {r.suggestion}")
    for n in together:
        yield from item(n.about, f"{n.sentence} Source: {n.source}.")
    if case.recommended >= 0 and not refused and not together:
        k = a.kits
        other = int(differing(a.posts, k.post, k.mount, k.board, k.ring)[case.recommended])
        words = f"differs in {other} of the items that were asked for" if other else "has every item that was asked for"
        yield from item("Asked for", f"The recommended kit {words}.")


def _frequency(case: Case) -> float:
    """Natural frequency of the post with the kit [Hz], NaN where it is not known."""
    if case.kit < 0:
        return math.nan
    k, n = case.answer.kits, [case.kit]
    items = Items(k.post[n], k.mount[n], k.board[n], k.ring[n])
    return float(figures(load_inputs(case.answer.posts, case.catalogue, case.answer.fit, items), case.policy)["f"][0])


def _remedy(case: Case) -> Iterator[str]:
    """The least change that would give the post a kit, where it has none."""
    a = case.answer
    if case.recommended >= 0:
        return
    from pipeline.rules.remedy import remedies  # loaded only where nothing fits

    remedy = remedies(a.posts, case.catalogue, a.fit, case.policy, a.start[1:] > a.start[:-1])[POST]
    yield from heading("What would help")
    yield from paragraph(remedy.sentence)
    if remedy.serves:
        yield from item("The catalogue lacks", remedy.serves)
    yield from paragraph("Source: the least change of those that are known; the order of changes is a house rule.")
    yield ""
    yield from paragraph(CAUTION)
