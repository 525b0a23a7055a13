"""Records whose cells were answered in the list: said of each value, and asked where cell and answer differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from pipeline.intake.layout.answers import Answers
from pipeline.intake.layout.record import Record, Wrong
from pipeline.intake.query import Query


def with_what_differs(records: Sequence[Record], answers: Answers, file: str) -> tuple[list[Record], list[Query]]:
    """`records` with `answered` on the values that an answer gave; where cell and answer differ, neither counts.

    Queries are about answered cells that are no record's own, a heading's for one.
    """
    if not answers.taken and not answers.differ:
        return list(records), []
    made = [_differing(_answered(r, answers), answers) for r in records]
    of_records = {(r.sheet, at) for r in records for at in r.places.values()}
    others = [(place, contradiction) for place, contradiction in answers.differ.items() if place not in of_records]
    queries = [Query(file, sheet, at, "CONFLICT", *_contradict(*contradiction), False) for (sheet, at), contradiction in others]
    return made, queries


def _answered(record: Record, answers: Answers) -> Record:
    values = {
        n: replace(s, how="answered") if not s.how and (record.sheet, s.cell.address) in answers.taken else s
        for n, s in record.values.items()
    }
    return replace(record, values=values)


def _differing(record: Record, answers: Answers) -> Record:
    wrong, values = list(record.wrong), dict(record.values)
    for name, at in record.places.items():
        if contradiction := answers.differ.get((record.sheet, at)):
            wrong.append(Wrong(name, at, "CONFLICT", *_contradict(*contradiction)))
            values.pop(name, None)
    return replace(record, values=values, wrong=tuple(wrong))


def _contradict(stands: str, answered: str) -> tuple[str, str]:
    """The sentence and what to type instead."""
    message = f"the cell says “{stands}”, and “{answered}” was typed beside it in the list: the two contradict each other."
    return message, "Type the right one in the cell."
