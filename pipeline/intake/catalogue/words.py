"""What must hold in the seller's own dictionary: the sheets `Headings` and `Words`."""

from __future__ import annotations

from pipeline.intake.catalogue.faults import Fault
from pipeline.intake.catalogue.links import Read
from pipeline.intake.dictionary import NOTHING, column_meant
from pipeline.intake.survey.folding import fold, fold_word
from pipeline.intake.survey.headings import OWN, claim
from pipeline.intake.survey.spellings import nearest
from schemas.survey import SURVEY

_HEADINGS = {c.name: c.heading for c in SURVEY.columns}
_LISTS = {c.name: c for c in SURVEY.columns if c.values}


def sellers_headings(read: Read, faults: list[Fault]) -> None:
    """A heading stands once, is none of the survey's own, and means a heading of the survey or nothing."""
    seen: dict[str, str] = {}
    for line in read["Headings"].rows:
        if not line.has("heading", "means"):
            continue
        heading, means, cell = line.values["heading"], line.values["means"], line.cells["heading"]
        first = seen.setdefault(fold(heading), cell)
        own = claim(heading)
        if first != cell:
            faults.append(Fault("Headings", cell, f"“{heading}” stands in {first} already.", "Keep one of the two rows."))
        elif not fold(heading):
            faults.append(Fault("Headings", cell, f"“{heading}” holds no letter.", "Type the heading as senders type it."))
        elif own and own.strength == OWN and column_meant(means) != own.name:
            message = f"“{heading}” is the survey's own heading, “{_HEADINGS[own.name]}”, and means that."
            faults.append(Fault("Headings", cell, message, "Delete the row."))
        if not column_meant(means) and fold_word(means) != NOTHING:
            message = f"“{means}” is no heading of the survey."
            faults.append(Fault("Headings", line.cells["means"], message, _near(means, (*_HEADINGS.values(), NOTHING))))


def sellers_words(read: Read, faults: list[Fault]) -> None:
    """A word stands once in its column, is none of the list's own, and means a word of that list."""
    seen: dict[tuple[str, str], str] = {}
    for line in read["Words"].rows:
        if not line.has("column", "word", "means"):
            continue
        name, word, means = column_meant(line.values["column"]), line.values["word"], line.values["means"]
        column = _LISTS.get(name)
        if column is None:
            message = f"“{line.values['column']}” is no column with a list."
            near = _near(line.values["column"], [c.heading for c in _LISTS.values()])
            faults.append(Fault("Words", line.cells["column"], message, near))
            continue
        cell = line.cells["word"]
        first = seen.setdefault((name, fold_word(word)), cell)
        listed = {fold_word(v): v for v in column.values}
        if first != cell:
            faults.append(Fault("Words", cell, f"“{word}” stands in {first} already.", "Keep one of the two rows."))
        elif fold_word(word) in listed and fold_word(means) != fold_word(word):
            faults.append(Fault("Words", cell, f"“{word}” is a word of the list itself, and means that.", "Delete the row."))
        if fold_word(means) not in listed:
            message = f"“{means}” is not in the list of “{column.heading}”."
            faults.append(Fault("Words", line.cells["means"], message, f"Type one of: {', '.join(column.values)}."))


def _near(text: str, choices: tuple[str, ...] | list[str]) -> str:
    """What to type instead: the nearest choice, else all of them."""
    near = nearest(text, choices, 1)
    return f"Type {near[0]}, if that is meant." if near else f"Type one of: {', '.join(choices)}."
