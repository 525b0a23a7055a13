"""Marked returns keep what openpyxl alone would lose: pictures, shapes, charts."""

from __future__ import annotations

import io
import posixpath
import zipfile

import openpyxl
import pytest
from test_marks import BAD, GOOD, HEADS, _marked, _open

from pipeline.intake.layout.list_words import TITLE


def test_drawings_and_charts_of_the_senders_are_kept(tmp_path) -> None:
    """Our own form with its drawing, and a sheet with a picture and a chart, filled in and marked."""
    import xlsxwriter

    path = str(tmp_path / "drawn.xlsx")
    with xlsxwriter.Workbook(path) as made:
        ws = made.add_worksheet("Survey")
        for n, row in enumerate((HEADS, GOOD, BAD)):
            ws.write_row(n, 0, ["" if v is None else v for v in row])
        ws.insert_textbox("K2", "the gate is here")
        ws.insert_image("K9", "dot.png", {"image_data": io.BytesIO(DOT)})
        chart = made.add_chart({"type": "column"})
        chart.add_series({"values": "=Survey!$E$2:$E$3"})
        made.add_worksheet("Plan").insert_chart("A1", chart)
    result, content = _marked(path, "drawn.xlsx")
    assert result.queries
    package = zipfile.ZipFile(io.BytesIO(content))
    names = package.namelist()
    ours = {n.rpartition(".")[2]: n for n in names if n.startswith("xl/sender/") and "/_rels/" not in n}
    assert package.read(ours["png"]) == DOT
    drawings = [n for n in names if n.startswith("xl/sender/") and b"the gate is here" in package.read(n)]
    assert len(drawings) == 1
    for name in names:
        if name.endswith((".xml", ".rels", ".vml")):
            openpyxl.xml.functions.fromstring(package.read(name))
    types = package.read("[Content_Types].xml").decode()
    assert types.count(f'"/{drawings[0]}"') == types.count('Extension="png"') == 1
    wb = _open(content)
    assert wb.sheetnames == [TITLE, "Survey", "Plan"]
    assert len(wb["Plan"]._charts) == 1
    assert wb["Survey"]["E3"].comment


DOT = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c4890000000d49444154789c6360f8cfc000000301010018dd8db00000000049454e44ae426082"
)
"""A picture of one dot (PNG)."""


FOREIGN = (
    ("../../vbaProject.bin", "http://schemas.microsoft.com/office/2006/relationships/vbaProject"),
    ("../media/../../../evil.bin", "http://schemas.openxmlformats.org/officeDocument/2006/relationships/image"),
    ("../embeddings/book.xlsx", "http://schemas.openxmlformats.org/officeDocument/2006/relationships/package"),
)


@pytest.mark.parametrize(("target", "kind"), FOREIGN)
def test_no_part_of_an_unknown_kind_is_carried(tmp_path, target: str, kind: str) -> None:
    """A drawing whose relations lead to a program, out of the package, or to another file is left out, and it is said."""
    import xlsxwriter

    with xlsxwriter.Workbook(str(tmp_path / "plain.xlsx")) as made:
        ws = made.add_worksheet("Survey")
        for n, row in enumerate((HEADS, GOOD, BAD)):
            ws.write_row(n, 0, ["" if v is None else v for v in row])
        ws.insert_image("K9", "dot.png", {"image_data": io.BytesIO(DOT)})
    path = str(tmp_path / "drawn.xlsx")
    part = posixpath.normpath(posixpath.join("xl/drawings", target))
    with zipfile.ZipFile(tmp_path / "plain.xlsx") as old, zipfile.ZipFile(path, "w") as new:
        for name in old.namelist():
            data = old.read(name)
            if name == "xl/drawings/_rels/drawing1.xml.rels":
                one = f'<Relationship Id="rId9" Type="{kind}" Target="{target}"/></Relationships>'
                data = data.replace(b"</Relationships>", one.encode())
            new.writestr(name, data)
        new.writestr(part, b"MZ not a picture")
    _, content = _marked(path, "drawn.xlsx")
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        assert all(b"MZ not a picture" not in package.read(n) for n in package.namelist())
        assert not [n for n in package.namelist() if ".." in n or n.endswith(".bin")]
    assert "may be missing" in "".join(str(r[0].value) for r in _open(content)[TITLE].iter_rows(max_row=8))
