"""The catalogue of a run: from the ledger where the file is the last finished run's, so that it is read once, not each night."""

from __future__ import annotations

from pipeline.intake.catalogue import CatalogueRead
from pipeline.ledger.kept_catalogue import as_plain, from_plain
from pipeline.ledger.pack import pack, unpack
from pipeline.ledger.store import Ledger
from pipeline.run.request import Prints, sha


def kept_catalogue(ledger: Ledger, prints: Prints) -> CatalogueRead | None:
    """The catalogue as this program read it from the same file; None where that is not known."""
    blob = ledger.catalogue_file(_key(prints))
    if blob is None:
        return None
    plain = unpack(blob)
    kept = from_plain(plain["content"])
    tables = {name: tuple(dict(row) for row in rows) for name, rows in kept.tables.items()}
    notes = tuple(plain["notes"])
    return CatalogueRead(tables, dict(kept.policy), kept.stated, dict(kept.typed), plain["fingerprint"], notes)


def keep_catalogue(ledger: Ledger, prints: Prints, read: CatalogueRead) -> None:
    """Remember it in place of the one before; call within `together`."""
    content = as_plain(read.tables, read.policy, read.stated, read.typed)
    plain = {"content": content, "notes": read.notes, "fingerprint": read.fingerprint}
    ledger.keep_catalogue_file(_key(prints), pack(plain))


def _key(prints: Prints) -> str:
    return sha([prints.catalogue, prints.pictures, prints.program])
