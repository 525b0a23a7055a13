"""Whole answers compared: words as they are, figures to what is shown of them, for another machine may round the last."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

import pytest

_FIGURE = re.compile(r"(?<![\w.])-?\d+(?:\.\d+)?(?:e[-+]?\d+)?(?![\w.]*\w)")


def apart(text: str) -> tuple[str, list[float]]:
    """A text with its figures taken out, and they."""
    return _FIGURE.sub("#", text), [float(f) for f in _FIGURE.findall(text)]


def first_said(lines: Iterable[tuple[str, list[tuple[str, str]]]]) -> dict[str, list[tuple[str, str]]]:
    """The lines about each case, and how many; one that was said of a case before it is left out."""
    new: dict[tuple[str, str], str] = {}
    names = []
    for name, about in lines:
        names.append(name)
        for line in (*about, ("lines", f"{len(about)} of {name}")):
            new.setdefault(line, name)
    return {name: [line for line, where in new.items() if where == name] for name in names}


def assert_same(found: Sequence[tuple[str, ...]], expected: Sequence[tuple[str, ...]]) -> None:
    """Every line, in order; five digits of a figure are shown, so the fifth may differ by one."""
    assert [apart("|".join(line))[0] for line in found] == [apart("|".join(line))[0] for line in expected]
    for line, other in zip(found, expected, strict=True):
        assert apart("|".join(line))[1] == pytest.approx(apart("|".join(other))[1], rel=1.1e-4, abs=1e-12), (line, other)
