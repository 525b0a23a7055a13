"""Whatever can be read can be marked: damaged workbooks come back as workbooks that can be read again."""

from __future__ import annotations

import io
import random
import zipfile

import pytest
from survey_checked import check_book
from test_marks import _sender

from pipeline.intake.catalogue import documented_policy
from pipeline.marking import marked_copy
from pipeline.reading import read_book
from pipeline.reading.book import UnreadableFileError


def _damaged(content: bytes, rng: random.Random) -> bytes:
    """One part with some bytes changed, doubled or lost; or the part itself lost."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(out, "w") as new:
        victim = rng.choice(old.namelist())
        for name in old.namelist():
            data = bytearray(old.read(name))
            if name == victim:
                if rng.random() < 0.15:
                    continue
                for _ in range(rng.randint(1, 4)):
                    at = rng.randrange(len(data))
                    length = rng.randint(1, 12)
                    data[at : at + length] = rng.choice(
                        (b"", data[at : at + length] * 2, bytes(rng.choices(b'0129ABts<>"=/', k=length)))
                    )
            new.writestr(name, bytes(data))
    return out.getvalue()


@pytest.mark.slow
def test_damaged_workbooks(tmp_path) -> None:
    rng = random.Random(7)
    with open(_sender(tmp_path), "rb") as f:
        content = f.read()
    marked = 0
    for n in range(300):
        path = tmp_path / "damaged.xlsx"
        path.write_bytes(_damaged(content, rng))
        try:
            book = read_book(str(path))
        except UnreadableFileError:
            continue
        queries = check_book(book, "damaged.xlsx", documented_policy()).queries
        (tmp_path / "back.xlsx").write_bytes(marked_copy(str(path), "damaged.xlsx", book, queries))
        again = read_book(str(tmp_path / "back.xlsx"))
        assert len(again.sheets) >= 1 + bool(book.sheets), n
        marked += 1
    assert marked > 50
