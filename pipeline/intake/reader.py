"""What a reader does with a file. Imported by the child alone, so that it has all it needs before the first file comes."""

from __future__ import annotations

import gc
from collections.abc import Mapping
from typing import Any

from pipeline.intake.survey.across import row_key
from pipeline.intake.survey.check import check_path
from pipeline.intake.take_in import Taken
from pipeline.ledger.pack import pack
from pipeline.reading.answers import ANSWERS, answer

gc.freeze()
gc.set_threshold(20_000, 20, 20)  # reading makes many cells and hardly a circle


def take_path(path: str, file: str, policy: Mapping[str, Any]) -> Taken:
    """Read and check the file at `path`; UnreadableFileError only where the memory does not suffice."""
    r = check_path(path, file, policy)
    if r.queries and r.queries[0].message == ANSWERS["memory"][0]:
        raise answer("memory")  # an error, so that the sandbox may try again with more memory
    keys = tuple(row_key(row, i) for i, row in enumerate(r.rows))
    return Taken(r.file, r.format, keys, tuple(pack(row.as_dict()) for row in r.rows), r.queries, r.notes)
