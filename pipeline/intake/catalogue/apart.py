"""The catalogue read as surveys are: in a child process under limits."""

from __future__ import annotations

from pipeline.intake.catalogue.faults import CatalogueFaults, Fault
from pipeline.intake.catalogue.whole import CatalogueRead, read_catalogue
from pipeline.reading import Sandbox
from pipeline.reading.book import UnreadableFileError


def read_apart(path: str) -> CatalogueRead:
    """The catalogue. Errors: CatalogueFaults; also where the file is no workbook, or cannot be read within the limits."""
    with Sandbox("pipeline.intake.catalogue.apart:work", admits=(CatalogueRead, Fault)) as box:
        try:
            found = box.run(path)
        except UnreadableFileError as error:
            raise CatalogueFaults([Fault("", "", error.reason, error.remedy)]) from error
    if not isinstance(found, CatalogueRead):
        raise CatalogueFaults(found)
    return found


def work(path: str) -> CatalogueRead | tuple[Fault, ...]:
    """What the child does."""
    try:
        return read_catalogue(path)
    except CatalogueFaults as error:
        return error.faults
