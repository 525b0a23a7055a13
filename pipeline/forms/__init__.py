"""Forms to send out: an empty survey, an empty catalogue."""

from pipeline.forms.forms import catalogue_form, survey_form

__all__ = ["catalogue_form", "survey_form"]
