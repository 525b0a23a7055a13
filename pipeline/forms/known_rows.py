"""A row that was surveyed before, as somebody would type it into the form."""

from __future__ import annotations

from pipeline.forms.survey_columns import language_of, word
from pipeline.intake.survey.survey_row import SurveyRow, stated
from schemas.survey import SURVEY

_NOT_KEPT = ("surveyed_on",)
_AS_TYPED = ("length", "lengths", "pipe", "angle", "speed", "moment")


def as_typed(row: SurveyRow, code: str = "en") -> dict[str, str]:
    """What is known of a row, as text by column, words in the language of that code.

    Measures stand as they were typed, with their unit; what took a default, was inferred or could not be read stays blank,
    and so does the day of the survey, since the post is looked at again.
    """
    language, values = language_of(code), stated(row)
    left_out = {*row.not_stated, *row.unread, *_NOT_KEPT, *(("post_shape",) if row.shape_inferred else ())}
    texts = {}
    for column in SURVEY.columns:
        if column.name in left_out or column.name not in values:
            continue
        if column.kind in _AS_TYPED:
            texts[column.name] = row.typed.get(column.name, "")
        elif column.values:
            texts[column.name] = word(column, str(values[column.name]), language)
        else:
            texts[column.name] = str(values[column.name])
    return {name: text for name, text in texts.items() if text}
