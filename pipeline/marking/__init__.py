"""The sender's own workbook back: each cell in doubt filled and commented, a list in front of what to correct."""

from pipeline.marking.copy import marked_copy
from pipeline.marking.return_names import returned_name

__all__ = ["marked_copy", "returned_name"]
