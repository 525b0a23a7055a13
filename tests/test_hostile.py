"""Hostile, broken and misnamed files: each gets one plain answer, and takes nothing down with it."""

# ruff: noqa: E501 - crafted files, one a line
from __future__ import annotations

import os
import signal
import struct
import subprocess
import sys
import threading
import time
import zipfile
from pathlib import Path
from typing import Any

import pytest
from files_made import ods_parts, sheet, xlsb, xlsb_cell, xlsx, xlsx_parts, zipped

from pipeline.intake.model import UnreadableFileError
from pipeline.intake.read import Limits, Sandbox, read_book

ROW = '<row r="1"><c r="A1"><v>7</v></c></row>'
GOOD = xlsx(ROW)
SMALL = Limits(members=50, part_bytes=300_000, all_bytes=500_000, cells=100, elements=1000, sheets=5, strings=50, text=1000)
OLE2 = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600
TABLE = '<table:table table:name="S"><table:table-row {}><table:table-cell {} office:value-type="float" office:value="1"/></table:table-row></table:table>'
DTD = '<!DOCTYPE a [<!ENTITY a "lol"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">]>'


def with_part(name: str, content: str | bytes) -> bytes:
    return zipped({**xlsx_parts({"S": sheet(ROW)}), name: content})


def entity_sheet(declared: str, used: str) -> bytes:
    return with_part("xl/worksheets/sheet1.xml", sheet(ROW).replace('<?xml version="1.0"?>', declared).replace("7", used))


def encrypted_zip() -> bytes:
    data = bytearray(GOOD)
    at = data.index(b"PK\x03\x04")
    data[at + 6] |= 1
    at = -1
    while (at := data.find(b"PK\x01\x02", at + 1)) >= 0:
        data[at + 8] |= 1
    return bytes(data)


def lying_sizes() -> bytes:
    """A member that says that it holds ten bytes, and holds a million."""
    data = bytearray(with_part("xl/worksheets/sheet1.xml", sheet(" " * 1_000_000)))
    at = data.index(b"xl/worksheets/sheet1.xml", data.index(b"PK\x01\x02")) - 46
    data[at + 24 : at + 28] = struct.pack("<I", 10)
    return bytes(data)


def cells(count: int) -> str:
    return "".join(f'<row r="{r}"><c r="A{r}"><v>1</v></c></row>' for r in range(1, count + 1))


ANSWERS: dict[str, tuple[bytes, str]] = {
    "nothing at all": (b"", "empty"),
    "zip cut off": (GOOD[: len(GOOD) // 2], "damaged"),
    "zip without its end": (GOOD[:-30], "damaged"),
    "zip of nothing": (b"PK\x05\x06" + b"\0" * 18, "packed folder"),
    "wrong checksum": (zipped(xlsx_parts({"S": sheet(ROW)}), zipfile.ZIP_STORED).replace(b"<v>7</v>", b"<v>8</v>"), "damaged"),
    "encrypted zip": (encrypted_zip(), "password"),
    "encrypted package": (OLE2 + "EncryptedPackage".encode("utf-16-le"), "password"),
    "sizes that lie": (lying_sizes(), "damaged"),
    "unusual packing": (zipped(xlsx_parts({"S": sheet(ROW)}), zipfile.ZIP_LZMA), "unusual way"),
    "entity bomb": (entity_sheet(DTD, "&b;"), "entities"),
    "external entity": (entity_sheet('<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/passwd">]>', "&x;"), "entities"),
    "entity bomb in an open document": (
        zipped({**ods_parts(""), "content.xml": DTD + '<office:document-content xmlns:office="x">&b;</office:document-content>'}), "entities",
    ),
    "XML cut off": (with_part("xl/worksheets/sheet1.xml", sheet(ROW)[:-30]), "damaged"),
    "no workbook": (zipped({"[Content_Types].xml": "<Types/>"}), "no workbook was found"),
    "no sheets": (zipped(xlsx_parts({})), "No sheet"),
    "a text that is not there": (xlsx('<row r="1"><c r="A1" t="s"><v>5</v></c></row>'), "text of a cell in row 1"),
    "a negative text number": (xlsx('<row r="1"><c r="A1" t="s"><v>-1</v></c></row>', strings="<si><t>x</t></si>"), "text of a cell"),
    "an address beyond the last": (xlsx('<row r="1"><c r="XFE1"><v>1</v></c></row>'), "column 16,385"),
    "an address that is none": (xlsx('<row r="1"><c r="1A"><v>1</v></c></row>'), "“1A”"),
    "row zero": (xlsx('<row r="0"><c r="A0"><v>1</v></c></row>'), "row 0"),
    "two parts of one name": (zipped({**xlsx_parts({"S": sheet(ROW)}), "/xl/workbook.xml": "x"}), "two parts"),
    "a word document": (zipped({"[Content_Types].xml": "<Types/>", "word/document.xml": "x"}), "text document"),
    "a packed folder": (zipped({"a.csv": "x"}), "packed folder"),
    "an open text document": (zipped({"mimetype": "application/vnd.oasis.opendocument.text", "content.xml": "x"}), "text document"),
    "encrypted open document": (zipped({**ods_parts(""), "META-INF/manifest.xml": "<m><encryption-data/></m>"}), "password"),
    "old word document": (OLE2 + "WordDocument".encode("utf-16-le"), "text document"),
    "old workbook, broken": (OLE2 + "Workbook".encode("utf-16-le"), "damaged"),
    "binary workbook, broken": (xlsb([(0, False, xlsb_cell(7, 0, b"\x09\0\0\0"))]), "text of a cell"),
    "a PDF": (b"%PDF-1.7\n", "PDF"),
    "a picture": (b"\x89PNG\r\n\x1a\n", "picture"),
    "gzip": (b"\x1f\x8b\x08\x00", "archive"),
    "a web page": (b"<html><body><table><tr><td>Site code</td></tr></table></body></html>", "web page"),
    "a web page with an encoding": ("<!DOCTYPE html><table></table>".encode("utf-16"), "web page"),
    "XML": (b'<?xml version="1.0"?><a/>', "XML file"),
    "workbook in XML of 2003": (b'<?xml version="1.0"?><?mso-application progid="Excel.Sheet"?><Workbook/>', "XML format of 2003"),
    "JSON": (b'{"url": "x", "doc_id": "y"}', "JSON"),
    "RTF": (b"{\\rtf1 x}", "RTF"),
    "random bytes": (bytes(range(256)) * 9, "no spreadsheet and no text table"),
    "prose": (b"# Read me\n\nSome words, with commas, and more.\nAnother line.\n", "no table"),
    "UTF-16 that lost a byte": ("Site code\tPost\nS1\tP1\n".encode("utf-16")[:5] + "Site code\tPost\nS1\tP1\n".encode("utf-16")[6:], "a byte of it is missing"),
    "zeros": (b"\0" * 5000, "no spreadsheet"),
}  # fmt: skip


@pytest.mark.parametrize("name", ANSWERS)
def test_each_gets_its_answer(tmp_path: Path, name: str) -> None:
    data, words = ANSWERS[name]
    path = tmp_path / "survey.xlsx"
    path.write_bytes(data)
    with pytest.raises(UnreadableFileError) as e:
        read_book(str(path))
    assert words in e.value.reason
    assert e.value.reason.endswith(".")
    assert e.value.remedy.endswith(".")


LIMITED: dict[str, tuple[bytes, str]] = {
    "parts": (zipped({f"p{i}": "" for i in range(60)}), "more than 50 parts"),
    "declared size": (with_part("xl/media/big.bin", b"\0" * 600_000), "once it is unpacked"),
    "one part": (with_part("xl/worksheets/sheet1.xml", sheet(" " * 400_000)), "a part of"),
    "filled cells": (xlsx(cells(101)), "100 filled cells"),
    "blank cells": (xlsx('<row r="1">' + "<c/>" * 1001 + "</row>"), "1,000 cells"),
    "sheets": (zipped(xlsx_parts({f"S{i}": sheet("") for i in range(6)})), "5 sheets"),
    "shared texts": (xlsx(ROW, strings="<si><t>x</t></si>" * 51), "50 different texts"),
    "a shared text": (xlsx(ROW, strings=f"<si><t>{'x' * 1001}</t></si>"), "1,000 characters"),
    "a cell's text": (xlsx(f'<row r="1"><c r="A1" t="inlineStr"><is><t>{"x" * 1001}</t></is></c></row>'), "1,000 characters"),
    "repeated columns": (zipped(ods_parts(TABLE.format("", 'table:number-columns-repeated="999999999"'))), "column 999,999,999"),
    "repeated rows": (zipped(ods_parts(TABLE.format('table:number-rows-repeated="500"', ""))), "100 filled cells"),
    "text cells": (("a,b,c\n" * 50).encode(), "100 filled cells"),
    "blank text cells": (("," * 30 + "\n").encode() * 50, "1,000 cells"),
}


@pytest.mark.parametrize("name", LIMITED)
def test_limits(tmp_path: Path, name: str) -> None:
    data, words = LIMITED[name]
    (tmp_path / "a.csv").write_bytes(data)
    with pytest.raises(UnreadableFileError, match=words):
        read_book(str(tmp_path / "a.csv"), limits=SMALL)


def test_large_but_honest(tmp_path: Path) -> None:
    """Far cells, merges over a whole sheet and a million formatted rows cost nothing."""
    far = '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>2</v></c></row>'
    merged = '<mergeCells><mergeCell ref="A10:XFD1048576"/></mergeCells>'
    path = tmp_path / "a.xlsx"
    path.write_bytes(zipped(xlsx_parts({"S": sheet(far, after=merged)})))
    started = time.perf_counter()
    assert [c.address for c in read_book(str(path)).sheets[0].cells] == ["A1"]
    assert time.perf_counter() - started < 0.5
    path.write_bytes(
        xlsx(
            "".join(f'<row r="{r}" s="1" customFormat="1"/>' for r in range(1, 200_000))
            + far.replace("A1", "A1000000", 1).replace('r="1"', 'r="1000000"')
        )
    )
    assert len(read_book(str(path)).sheets[0].cells) == 2
    assert time.perf_counter() - started < 5


BOMBS: dict[str, tuple[bytes, int, str]] = {
    "blanks": (b" " * 1_000_000, 240, "packed so tightly|damaged"),
    "blank cells": (b"<row><c/><c/><c/></row>" * 40_000, 240, "packed so tightly|cells"),
    "filled cells": (b"<row><c><v>1</v></c></row>" * 40_000, 230, "packed so tightly|a cell in row"),
    "nested tags": (b"<a>" * 300_000, 250, "nested too deeply"),
    "two gigabytes": (b" " * 1_000_000, 2000, "once it is unpacked"),
}


@pytest.mark.slow
@pytest.mark.parametrize("name", BOMBS)
def test_real_bombs(tmp_path: Path, name: str) -> None:
    """Source: our own, of the kinds that kill other readers."""
    content, times, words = BOMBS[name]
    path = tmp_path / "a.xlsx"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as z:
        for part_name, part_content in xlsx_parts({"S": sheet(ROW)}).items():
            if not part_name.endswith("sheet1.xml"):
                z.writestr(part_name, part_content)
        with z.open("xl/worksheets/sheet1.xml", "w", force_zip64=True) as part:
            part.write(b'<worksheet xmlns="x"><sheetData>')
            for _ in range(times):
                part.write(content)
    started = time.perf_counter()
    with Sandbox("pipeline.intake.read:read_book") as box, pytest.raises(UnreadableFileError, match=words):
        box.run(str(path))
    assert time.perf_counter() - started < 30


# the sandbox; the functions below are its work, called in the child


def echo(path: str, *args: Any) -> Any:
    return path, args


def misbehave(path: str, how: str) -> Any:
    if how == "abort":
        os.abort()
    if how == "exit":
        raise SystemExit(3)
    if how == "fault":
        raise KeyError("x")
    if how == "hang":
        time.sleep(60)
    if how == "spin":
        while True:
            pass
    if how == "memory":
        return len(bytearray(8 << 30))
    if how == "much":
        return len(bytearray(900 << 20))
    if how == "noise":
        print("noise", flush=True)
        os.write(1, b"more noise")
        os.write(2, b"more noise")
        return sys.stdin.read()
    if how == "object":
        return threading.Event
    return how


@pytest.fixture
def box(monkeypatch: pytest.MonkeyPatch) -> Any:
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parent))
    with Sandbox("test_hostile:misbehave", wall_seconds=3, processor_seconds=1) as made:
        yield made


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ("abort", "stop working"),
        ("exit", "SystemExit in test_hostile.py"),
        ("fault", "KeyError in test_hostile.py, line"),
        ("hang", "too long"),
        ("spin", "too long"),
        ("memory", "more memory"),
        ("object", "stop working"),
    ],
)
def test_a_child_that_fails_takes_only_its_file_along(box: Sandbox, how: str, words: str) -> None:
    if how == "memory" and sys.platform == "darwin":
        pytest.skip("that system bounds no address space")
    assert box.run("good", "before") == "before"
    with pytest.raises(UnreadableFileError) as e:
        box.run("bad", how)
    assert words in e.value.reason
    assert box.run("good", "after") == "after"


def test_what_needs_more_memory_than_most_is_done_again_with_room(tmp_path: Path, box: Sandbox) -> None:
    sizes = (3_000_000, 6_000_000)
    for size in sizes:
        path = tmp_path / str(size)
        with path.open("wb") as f:
            f.truncate(size)
        assert box.run(str(path), "much") == 900 << 20
    with pytest.raises(UnreadableFileError, match="more memory"):
        box.run("a small file", "much")
    assert box.run("x", "after") == "after"


def test_what_a_library_prints_goes_nowhere(box: Sandbox, capfd: pytest.CaptureFixture[str]) -> None:
    assert box.run("x", "noise") == ""
    assert capfd.readouterr() == ("", "")


def test_files_read_in_the_sandbox(tmp_path: Path) -> None:
    good, bad = tmp_path / "good.xlsx", tmp_path / "bad.xlsx"
    good.write_bytes(GOOD)
    bad.write_bytes(b"")
    with Sandbox("pipeline.intake.read:read_book") as box:
        assert box.run(str(good)) == read_book(str(good))
        with pytest.raises(UnreadableFileError, match="empty"):
            box.run(str(bad))
        assert box.run(str(good)) == read_book(str(good))


def test_work_that_is_not_there_is_no_fault_of_the_file() -> None:
    with Sandbox("pipeline.intake.read:nothing") as box, pytest.raises(RuntimeError, match="cannot load"):
        box.run("x")


def test_threads_may_share_a_sandbox(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parent))
    answers: list[Any] = []
    with Sandbox("test_hostile:echo") as box:
        threads = [threading.Thread(target=lambda i=i: answers.append(box.run(str(i), i))) for i in range(20)]  # type: ignore[misc]
        for t in threads:
            t.start()
        for t in threads:
            t.join()
    assert sorted(answers, key=lambda a: a[1]) == [(str(i), (i,)) for i in range(20)]


_PARENT = """
import os, sys, time
from pipeline.intake.read import Sandbox
box = Sandbox("test_hostile:misbehave")
box.run("x", "ready")
print(box._child.pid, flush=True)
if sys.argv[1] == "busy":
    box.run("x", "hang")
time.sleep(60)
"""


@pytest.mark.skipif(os.name != "posix", reason="signals of one family of systems")
@pytest.mark.parametrize("state", ["idle", "busy"])
def test_the_child_dies_with_its_parent(state: str) -> None:
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parent)}
    parent = subprocess.Popen([sys.executable, "-c", _PARENT, state], stdout=subprocess.PIPE, env=environment)
    assert parent.stdout is not None
    child = int(parent.stdout.readline())
    time.sleep(0.1)
    parent.send_signal(signal.SIGKILL)
    parent.wait()
    parent.stdout.close()
    for _ in range(60):
        if not _lives(child):
            return
        time.sleep(0.05)
    os.kill(child, signal.SIGKILL)
    pytest.fail("the child outlived its parent")


def _lives(pid: int) -> bool:
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    status = Path(f"/proc/{pid}/status")
    return not (status.exists() and "\nState:\tZ" in status.read_text())


def test_no_child_is_left_behind() -> None:
    with Sandbox("pipeline.intake.read:read_book") as box:
        with pytest.raises(UnreadableFileError):
            box.run("/nowhere")
        child = box._child
    assert child is not None
    assert child.returncode is not None
