"""One row a figure: symbol, words, unit, formula, function and what goes into it.

The screen walks the rows to compute; `working` reads the same rows and the same numbers to explain.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

Policy = Mapping[str, Any]
"""Settings of schemas.policy in SI."""

Values = dict[str, Any]
"""Figures by symbol: arrays (k,), or a scalar where the policy sets it."""


@dataclass(frozen=True)
class Formula:
    """One figure of the screen.

    `symbol` may end in a dot and the load case's name, which readers do not see twice. `formula` is as a reader
    writes it; of two, the second is for square posts. `inputs` are what the function takes, in its order; `shown`
    what the working prints of them (all where it says nothing), none of a figure that only others read (`what` is '').
    `sources` are further functions whose source counts. `when` names the condition under which it is worth showing.
    """

    symbol: str
    what: str
    unit: str
    formula: str | tuple[str, str]
    function: Callable[..., Any]
    inputs: tuple[str, ...]
    shown: tuple[str, ...] | None = None
    sources: tuple[Callable[..., Any], ...] = ()
    when: str = ""


@dataclass(frozen=True)
class Given:
    """One number that the screen is handed: symbol, field of LoadInputs or policy setting, SI unit."""

    symbol: str
    name: str
    unit: str


def row(symbol: str, what: str, unit: str, formula: str | tuple[str, str], function: Callable[..., Any], inputs: str,
        shown: str | None = None, sources: tuple[Callable[..., Any], ...] = (), when: str = "") -> Formula:  # fmt: skip
    """A row, with the symbols that go in (and those to show) written in one string.

    symbol, what, unit, formula, function, inputs, shown, sources, when: as of `Formula`. Range: any.
    Source: house style.
    """
    return Formula(symbol, what, unit, formula, function, tuple(inputs.split()),
                   None if shown is None else tuple(shown.split()), sources, when)  # fmt: skip


def evaluate(rows: Iterable[Formula], values: Values) -> Values:
    """`values` with the figure of each row added, in the order of the rows.

    rows: each needs only what stands before it; values: figures by symbol, arrays (k,) or scalars.
    Range: any; what is not known stays NaN.
    Source: the functions called.
    """
    for formula in rows:
        values[formula.symbol] = formula.function(*[values[name] for name in formula.inputs])
    return values


def source_of(functions: Sequence[Callable[..., Any]]) -> str:
    """Sources of the functions, from the `Source:` line of each docstring, `; ` between.

    functions: functions of this package. Range: any.
    Source: house style.
    """
    found: list[str] = []
    for f in functions:
        for line in (f.__doc__ or "").splitlines():
            head, mark, text = line.strip().partition("Source: ")
            if mark and not head:
                found.append(text.rstrip("."))
    return "; ".join(dict.fromkeys(found))
