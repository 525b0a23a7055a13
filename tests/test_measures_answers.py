"""What the grammar answers, to the last word: the value, its unit and what was taken for granted, or the whole query.

Each row of data/answers.tsv was read through against contract section 2 when it was written down: what is read, what is
asked back, and whether each reading that the query names is one that the sender may have meant. Most stand on one side of
an edge of the grammar, with a neighbour on the other, so that a change of any rule or word of it is seen.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from pipeline.intake.measures import (
    Doubt,
    Measure,
    PipeSize,
    format_unit,
    heading_unit,
    read_decimal,
    read_lengths,
    read_measure,
    read_post_size,
    read_whole,
)

ROWS = [line.split("\t") for line in (Path(__file__).parent / "data" / "answers.tsv").read_text("utf-8").splitlines()[1:]]


def answer(reader: str, unit: str, basis: str, typed: str) -> object:
    """What the reader says of a text; `number 1.5` is 1.5 in a cell of numbers."""
    number = typed.removeprefix("number ")
    value = float(number) if number != typed else typed.replace("\\n", "\n")
    match reader:
        case "size":
            return read_post_size(value, unit, basis)
        case "lengths":
            return read_lengths(value, unit)
        case "whole":
            return read_whole(value)
        case "decimal":
            return read_decimal(value)
        case "heading":
            return heading_unit(str(value))
        case "format":
            return format_unit(str(value))
        case _:
            return read_measure(value, reader, unit)


def in_one_line(found: object) -> str:
    """An answer in one line."""
    match found:
        case Doubt():
            estimate = " (estimate)" if found.estimate else ""
            return f"{found.code}{estimate}: {found.message} -> {found.suggestion} [{'; '.join(found.readings)}]"
        case Measure():
            wall = "" if found.wall is None else f"wall {found.wall}"
            value = f"{found.value:.12g}" if isinstance(found.value, float) else str(found.value)
            return " ".join(filter(None, (value, f"({found.unit})", found.shape, found.basis, wall, *found.remarks)))
        case PipeSize():
            wall = "" if found.wall is None else f"wall {found.wall}"
            return " ".join(filter(None, (str(found.size), f"({found.unit})", found.designation, wall, *found.remarks)))
        case (Measure(), *_):
            return "; ".join(in_one_line(one) for one in found)
        case (str(bare), str(unit)):
            return f"{bare} | {unit}"
    return str(found)


@pytest.mark.parametrize(("reader", "unit", "basis", "typed", "expected"), ROWS, ids=range(len(ROWS)))
def test_the_whole_answer(reader: str, unit: str, basis: str, typed: str, expected: str) -> None:
    assert in_one_line(answer(reader, unit, basis, typed)) == expected
