"""Replies of a child that a file may have taken over: only the classes that they consist of, and numbers within bounds."""

from __future__ import annotations

import io
import pickle
from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any, get_args, get_type_hints

from pipeline.reading.answers import ANSWERS

MOST_BITS = 4096
"""Bits of a whole number; ten times as many as a cell's longest number has."""
MOST_EXPONENT = 1000

Admitted = Mapping[tuple[str, str], type]

_ALWAYS: dict[tuple[str, str], type] = {
    ("fractions", "Fraction"): Fraction,
    ("decimal", "Decimal"): Decimal,
    ("builtins", "frozenset"): frozenset,
    ("builtins", "set"): set,
}


def consists_of(*classes: Any) -> Admitted:
    """The data classes that values of some classes are made of: themselves, and those of their fields."""
    found: dict[tuple[str, str], type] = dict(_ALWAYS)
    waiting = list(classes)
    while waiting:
        kind = waiting.pop()
        waiting += get_args(kind)
        if isinstance(kind, type) and is_dataclass(kind) and (kind.__module__, kind.__qualname__) not in found:
            found[kind.__module__, kind.__qualname__] = kind
            waiting += get_type_hints(kind).values()
    return found


def opened(reply: bytes, admitted: Admitted) -> tuple[str, Any, bool]:
    """What a reply says: a state, its content, and whether the child ends with it."""
    try:
        state, content, last = _Plain(io.BytesIO(reply), admitted).load()
        _require_bounds([content], admitted)
    except Exception:  # nonsense from a child that a file has taken over
        return "unreadable", (*ANSWERS["crashed"], False), True
    return state, content, last


class _Plain(pickle.Unpickler):
    """Opens replies: nothing is imported for them, and nothing in them can act."""

    def __init__(self, reply: io.BytesIO, admitted: Admitted) -> None:
        super().__init__(reply)
        self._admitted = admitted

    def find_class(self, module: str, name: str) -> Any:
        """The class, where it is one of those admitted."""
        try:
            return self._admitted[module, name]
        except KeyError:
            raise pickle.UnpicklingError(f"{module}.{name} has no place in a reply") from None


def _require_bounds(waiting: list[Any], admitted: Admitted) -> None:
    """ValueError where a number is larger than any of ours, or something else than data is there."""
    classes = frozenset(admitted.values())
    names = {kind: tuple(f.name for f in fields(kind)) for kind in classes if is_dataclass(kind)}
    while waiting:
        value = waiting.pop()
        kind = type(value)
        if kind in names:
            waiting += [getattr(value, name) for name in names[kind]]
        elif kind is dict:
            waiting += [*value, *value.values()]
        elif kind in (tuple, list, set, frozenset):
            waiting += value
        elif kind not in (str, float, bool, bytes, type(None)):
            _require_number(value)


def _require_number(value: Any) -> None:
    parts: Iterable[int]
    if isinstance(value, Decimal):
        sign_digits = value.as_tuple()
        if not isinstance(sign_digits.exponent, int) or abs(sign_digits.exponent) > MOST_EXPONENT:
            raise ValueError("a decimal out of bounds")
        parts = (len(sign_digits.digits) << (MOST_BITS - 12),)
    else:
        parts = (value.numerator, value.denominator) if isinstance(value, Fraction) else (value,)
    if any(type(part) is not int or part.bit_length() > MOST_BITS for part in parts):
        raise ValueError("a number out of bounds")
