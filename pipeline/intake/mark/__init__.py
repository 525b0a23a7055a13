"""The sender's own workbook back: each cell in doubt filled and commented, a list in front of what to correct."""

from pipeline.intake.mark.copy import marked_copy
from pipeline.intake.mark.names import returned_name

__all__ = ["marked_copy", "returned_name"]
