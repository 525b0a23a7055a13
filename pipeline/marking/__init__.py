"""The sender's own workbook back: each cell in doubt filled and commented, a list in front of what to correct."""

import os

# The library writes the same XML in other bytes where lxml is installed beside it; this is its switch.
os.environ.setdefault("OPENPYXL_LXML", "False")

from pipeline.marking.copy import marked_copy
from pipeline.marking.return_names import names_of_copies, returned_name

__all__ = ["marked_copy", "names_of_copies", "returned_name"]
