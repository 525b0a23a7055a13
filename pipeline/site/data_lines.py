"""Lines of the data files, a batch of sites at a time; SI, rounded as results are."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from itertools import pairwise
from typing import Any

import numpy as np
import pyarrow as pa
import pyarrow.csv as pa_csv

from pipeline.intake.survey.survey_row import SurveyRow
from pipeline.output.data import encoded, guarded
from pipeline.rules.arrays import CONFIRM, FAIL, Catalogue, Ints
from pipeline.rules.verdict import bits, codes
from pipeline.site.compute import Answer
from schemas.words import LOAD_STATES, VERDICTS

_OPTIONS = pa_csv.WriteOptions(include_header=False)


def _numbers(values: np.ndarray) -> pa.Array:
    """Numbers as the array that pa.array makes of them, NaN as blank; pa.array loads pandas, which takes 0.2 s."""
    known = None if values.dtype.kind == "i" else pa.py_buffer(np.packbits(~np.isnan(values), bitorder="little"))
    kind = {"i": pa.int64, "f": pa.float64}[values.dtype.kind]()
    wide = np.ascontiguousarray(values, dtype=np.dtype(f"{values.dtype.kind}8"))
    return pa.Array.from_buffers(kind, len(wide), [known, pa.py_buffer(wide)])


def _texts(words: Sequence[str]) -> pa.Array:
    """Texts, '' as blank, without pa.array."""
    texts = [encoded(guarded(w)) for w in words]
    ends = np.cumsum([0, *(len(w) for w in texts)], dtype=np.int32)
    known = pa.py_buffer(np.packbits(np.array([bool(w) for w in texts], dtype=bool), bitorder="little"))
    return pa.Array.from_buffers(pa.string(), len(texts), [known, pa.py_buffer(ends), pa.py_buffer(b"".join(texts))])


def _words(words: Sequence[str], index: np.ndarray) -> pa.Array:
    """A word for each index; -1 and '' are blank."""
    return _texts([*words, ""]).take(_numbers(np.where(index < 0, len(words), index)))


def _csv(columns: Sequence[pa.Array], bounds: Sequence[int]) -> list[bytes]:
    """Lines of the table, cut at `bounds`."""
    table = pa.Table.from_arrays(list(columns), names=[str(i) for i in range(len(columns))])
    pieces = []
    for start, stop in pairwise(bounds):
        out = io.BytesIO()
        if stop > start:
            pa_csv.write_csv(table.slice(start, stop - start), out, _OPTIONS)
        pieces.append(_upper_inf(out.getvalue()))
    return pieces


def _upper_inf(lines: bytes) -> bytes:
    """An infinite figure as INF; words stand in quotation marks, so a bare inf is a figure."""
    while b",inf," in lines:
        lines = lines.replace(b",inf,", b",INF,")
    return lines


def fit_lines(
    rows: Sequence[SurveyRow], sites: Sequence[str], answer: Answer, catalogue: Catalogue, bounds: Sequence[int]
) -> list[bytes]:
    """Lines of data/mount_fit.csv for rows `bounds[i]` to `bounds[i + 1]`; `sites` are the rows' site codes."""
    fit, m = answer.fit, len(catalogue.mounts.code)
    g = answer.group
    failed, confirm = (bits(fit.findings, state, fit.verdict.shape) for state in (FAIL, CONFIRM))
    row = np.repeat(np.arange(len(rows)), m)
    flat = [
        _words(sites, row),
        _words([r.post_code for r in rows], row),
        _words(catalogue.mounts.code, np.tile(np.arange(m), len(rows))),
        _words(VERDICTS, fit.verdict[g].ravel()),
        _words(*_codes(failed[g].ravel())),
        _words(*_codes(confirm[g].ravel())),
        _numbers(fit.ring_height_max[g].ravel()),
        _numbers(fit.shortfall[g].ravel()),
        _words(catalogue.extensions.code, fit.extension[g].ravel()),
        _numbers(np.where(fit.extension >= 0, fit.added, np.nan)[g].ravel()),
        _numbers(fit.covered[g].ravel()),
        _numbers(np.repeat(fit.wanted[g], m)),
    ]
    return _csv(flat, [b * m for b in bounds])


def _codes(mask: Ints) -> tuple[list[str], Ints]:
    """Few different sets of codes among many: each as text, and an index into them."""
    masks, index = np.unique(mask, return_inverse=True)
    return [";".join(codes(int(m))) for m in masks], index.reshape(-1)


def kit_rows(answer: Answer) -> tuple[Ints, Ints]:
    """Row and number of each kit of each row, (k,) both."""
    many = (answer.start[1:] - answer.start[:-1])[answer.group]
    row = np.repeat(np.arange(len(answer.group)), many)
    first = np.cumsum(many) - many
    return row, np.arange(many.sum()) - np.repeat(first - answer.start[answer.group], many)


def kit_lines(
    rows: Sequence[SurveyRow], sites: Sequence[str], answer: Answer, catalogue: Catalogue, bounds: Sequence[int], digits: int
) -> list[bytes]:
    """Lines of data/kits.csv for rows `bounds[i]` to `bounds[i + 1]`."""
    row, kit = kit_rows(answer)
    k, load = answer.kits, answer.kits.load
    prices, price = np.unique(k.price[kit], return_inverse=True)
    flat = [
        _words(sites, row),
        _words([r.post_code for r in rows], row),
        _numbers(k.rank[kit]),
        _words(VERDICTS, k.verdict[kit]),
        _words(*_codes(k.confirm[kit])),
        _words(catalogue.mounts.code, k.mount[kit]),
        _words(catalogue.boards.code, k.board[kit]),
        _words(catalogue.rings.code, k.ring[kit]),
        _words(catalogue.extensions.code, k.extension[kit]),
        _numbers(k.covered[kit]),
        _words(LOAD_STATES, load["load_state"][kit].astype(np.int64)),
        *(_numbers(load[name][kit]) for name in ("utilisation_play", "utilisation_storm", "moment_play", "moment_storm")),
        *(_numbers(load[name][kit]) for name in ("wall_needed", "footing_depth_needed", "ring_sag")),
        _numbers(load["hung_mass"][kit]),
        _words([money_text(int(p), catalogue.price_unit, digits) for p in prices], price.reshape(-1)),
    ]
    return _csv(flat, [int(b) for b in np.searchsorted(row, bounds)])


def money_text(price: int, unit: Decimal, digits: int) -> str:
    """A price in whole units as text with the currency's digits."""
    return str((price * unit).quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP))


def known(value: Any) -> float | None:
    """A figure, None where it is not known."""
    number = float(value)
    return None if math.isnan(number) else number
