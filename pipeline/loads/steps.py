"""How one line of working is made: numbers as a reader copies them, the source from the function itself."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from pipeline.loads.load_arrays import Step


def figure(x: Any) -> str:
    """A number with six significant digits; x: scalar or array of one. NaN is `not known`.

    Range: any.
    Source: house style.
    """
    value = float(x if not hasattr(x, "item") else x.item())
    return "not known" if value != value else f"{value:.6g}"


def source_of(*functions: Callable[..., Any]) -> str:
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


def step(what: str, formula: str, result: Any, unit: str, source: str, **numbers: Any) -> Step:
    """One line of working.

    what: in plain words; formula: with the names of `numbers`; result: array of one; unit: of the result;
    source: where the formula comes from; numbers: what is put in, by name.
    Range: one kit.
    Source: house style.
    """
    put_in = ", ".join(f"{name} = {x if isinstance(x, str) else figure(x)}" for name, x in numbers.items())
    return Step(what, formula, put_in, float(result.item() if hasattr(result, "item") else result), unit, source)
