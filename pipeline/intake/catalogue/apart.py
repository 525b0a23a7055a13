"""The catalogue read as surveys are: in a child process under limits."""

from __future__ import annotations

from pipeline.intake.catalogue.faults import CatalogueFaults, Fault
from pipeline.intake.catalogue.whole import CatalogueRead, read_catalogue
from pipeline.reading import Sandbox
from pipeline.reading.book import UnreadableFileError


def read_apart(path: str) -> CatalogueRead:
    """The catalogue. Errors: CatalogueFaults; also where the file is no workbook, or cannot be read within the limits."""
    with Sandbox("pipeline.intake.catalogue.apart:work") as box:
        try:
            found = box.run(path)
        except UnreadableFileError as error:
            raise CatalogueFaults([Fault("", "", error.reason, error.remedy)]) from error
    if not isinstance(found, CatalogueRead):
        raise CatalogueFaults(found)
    return found


def work(path: str) -> CatalogueRead | tuple[Fault, ...]:
    """What the child does: read, and hold the tables to their models; what passes the one and breaks the other is our fault."""
    from schemas.catalogue import CATALOGUE
    from schemas.frames import check, frame
    from schemas.policy import POLICY

    try:
        read = read_catalogue(path)
    except CatalogueFaults as error:
        return error.faults
    for table in CATALOGUE:
        if table.name != POLICY.name:
            check(frame(read.tables.get(table.name, ()), table), table)
    return read
