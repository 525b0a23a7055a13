"""Legends on a sheet: what the sender's own letters stand for, `N = none, B = bolted, W = welded`."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping

from pipeline.intake.survey.folding import fold_word
from pipeline.intake.survey.list_words import read_word
from pipeline.reading.book import Cell, Sheet

_PAIR = re.compile(r"(?<![\w.])(?P<code>[^\W_]{1,3})\s*(?:=|:| [-–—])\s*(?P<words>[^\W\d_][^,;=:|()\n]{2,40})")
_LONGEST = 300
_LEAST = 2  # pairs in one cell, before it is a legend

Legend = Mapping[str, tuple[str, ...]]
"""The words of each folded code."""


def legend_of(sheet: Sheet) -> Legend:
    """Every code of the sheet's legends with the words that stand for it."""
    found: dict[str, list[str]] = defaultdict(list)
    for cell in sheet.cells:
        text = str(cell.value) if cell.kind == "text" else ""
        pairs = list(_PAIR.finditer(text)) if "=" in text or ":" in text or " - " in text else []
        if len(text) <= _LONGEST and len(pairs) >= _LEAST:
            for m in pairs:
                found[fold_word(m["code"])].append(m["words"].strip(" ."))
    return {code: tuple(dict.fromkeys(words)) for code, words in found.items()}


def spelled_out(legend: Legend, name: str, cell: Cell) -> str:
    """The words that a code in a cell of column `name` stands for; '' where it is none, or several could be meant."""
    words = legend.get(fold_word(str(cell.value)), ()) if cell.kind in ("text", "number") else ()
    meant = {word.value: w for w in words if (word := read_word(name, w))}
    return next(iter(meant.values())) if len(meant) == 1 else ""
