"""The catalogue: one workbook, read whole or refused with every fault in one go."""

from pipeline.intake.catalogue.faults import CatalogueFaults, Fault
from pipeline.intake.catalogue.policy import documented_policy
from pipeline.intake.catalogue.whole import CatalogueRead, catalogue_of, read_catalogue

__all__ = ["CatalogueFaults", "CatalogueRead", "Fault", "catalogue_of", "documented_policy", "read_catalogue"]
