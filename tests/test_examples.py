"""The examples: the files are the script's, the command makes the outputs again, and each wrong row shows what it should."""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import make_examples
import pytest
from make_examples import FILES, INPUTS, KEPT, OUTPUTS, ROOT, make_outputs
from scenario.expected import FITS, KITS, QUERIES, SITES, rows

from pipeline.intake.catalogue import read_catalogue
from schemas.words import FINDING_CODES, FIT_CODES, LOAD_STATES, QUERY_CODES, SITE_STATES, VERDICTS

Record = dict[str, str]


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What the README's main command makes of the examples now."""
    folder = tmp_path_factory.mktemp("examples") / "out"
    done = make_outputs(folder)
    assert done.returncode == 1, done.stderr
    return folder


def records(out: Path, name: str) -> list[Record]:
    with (out / "data" / f"{name}.csv").open(encoding="utf-8", newline="") as f:
        return list(csv.DictReader(f))


def post(record: Record) -> str:
    return f"{record['site_code']} {record['post_code']}".strip()


def content(data: bytes) -> Any:
    """The bytes; of a zip its parts in order, since another build of zlib packs the same parts otherwise."""
    if not data.startswith(b"PK"):
        return data
    with zipfile.ZipFile(io.BytesIO(data)) as z:
        return [(name, z.read(name)) for name in z.namelist()]


def differing(now: dict[str, bytes], then: dict[str, bytes]) -> list[str]:
    """Names that stand on one side only, or whose content differs."""
    return sorted(n for n in {*now, *then} if n not in now or n not in then or content(now[n]) != content(then[n]))


def files(folder: Path, below: Iterable[str]) -> dict[str, bytes]:
    found = (p for name in below for p in [folder / name, *(folder / name).rglob("*")])
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in found if p.is_file()}


def test_inputs_are_what_the_script_writes() -> None:
    then = files(INPUTS, (p.name for p in INPUTS.iterdir()))
    assert differing({name: make() for name, make in FILES.items()}, then) == [], "run python tests/make_examples.py"


def test_inputs_have_the_same_bytes_each_time() -> None:
    assert [n for n, make in FILES.items() if make() != make()] == []


def test_outputs_are_what_the_command_makes(out: Path) -> None:
    if not (OUTPUTS / "run.json").exists():
        pytest.fail("output_examples has not been made yet: python tests/make_examples.py --outputs")
    assert differing(files(out, KEPT), files(OUTPUTS, KEPT)) == [], "run python tests/make_examples.py --outputs"


def test_every_query_is_one_that_was_meant(out: Path) -> None:
    """Both ways: each wrong row is asked about where it is wrong, and no other row is."""
    made = sorted(
        (q["file"], q["cell"], post(q), q["code"], "holds" if q["holds_row"] == "true" else "no") for q in records(out, "queries")
    )
    assert made == sorted(r[:5] for r in rows(QUERIES))


@pytest.mark.parametrize("row", rows(FITS), ids=lambda r: f"{r[0]} {r[1]}")
def test_posts_show_what_they_should(out: Path, row: tuple[str, ...]) -> None:
    who, mount, *want, _ = row
    found = [[f[k] for k in ("verdict", "failed", "confirm")] for f in records(out, "mount_fit") if post(f) == who]
    if not mount:
        assert found == []
        return
    at = [f["mount"] for f in records(out, "mount_fit") if post(f) == who].index(mount)
    assert found[at] == want


@pytest.mark.parametrize("row", rows(KITS), ids=lambda r: r[0])
def test_recommended_kits_show_what_they_should(out: Path, row: tuple[str, ...]) -> None:
    (best,) = (k for k in records(out, "kits") if post(k) == row[0] and k["rank"] == "1")
    assert (best["verdict"], best["confirm"], best["load_state"]) == row[1:4]


def test_sites_are_ready_to_confirm_and_incomplete(out: Path) -> None:
    assert sorted((s["site_code"], s["state"]) for s in records(out, "sites")) == sorted(rows(SITES))


def test_every_code_occurs(out: Path) -> None:
    fits, kits, queries = (records(out, n) for n in ("mount_fit", "kits", "queries"))
    asked = " ".join(q["message"] for q in queries if q["code"] == "ASKED")
    failed = {c for f in fits for c in f["failed"].split(";")}
    confirm = {c for f in (*fits, *kits) for c in f["confirm"].split(";")}
    assert failed == {"", *FIT_CODES} - {"JOINT"}  # JOINT never fails: such an extension is not offered
    assert confirm == {"", "SIZE", "LINE", "LEAN", "FITTINGS", "CONDITION", "BASE", "HEIGHT", "JOINT", "STRENGTH", "FOOTING"}
    assert {c for c in FINDING_CODES if c in failed | confirm or c in asked} == set(FINDING_CODES)  # BOARD rules out wishes
    assert {q["code"] for q in queries} == set(QUERY_CODES)
    assert {f["verdict"] for f in fits} == set(VERDICTS)
    assert {p["outcome"] for p in records(out, "posts")} == {*VERDICTS[:3], "no_kit"}
    assert {k["load_state"] for k in kits} == set(LOAD_STATES)
    assert {s["state"] for s in records(out, "sites")} == set(SITE_STATES)
    assert {r["kind"] for r in records(out, "quote_lines")} == {"goods", "service", "freight"}


def test_scenario_is_large_and_mixed_enough(out: Path) -> None:
    sites = records(out, "sites")
    surveys = [Path(n) for n in FILES if n.startswith("surveys/")]
    assert len(sites) >= 14
    assert sum(int(s["posts"]) for s in sites) >= 90
    assert len(surveys) >= 12
    assert {p.suffix for p in surveys} == {".xlsx", ".xlsm", ".xlsb", ".xls", ".ods", ".csv", ".tsv"}
    assert {s["site_kind"] for s in sites} >= {"school", "park", "other"}
    assert {p["post_shape"] for p in records(out, "posts")} == {"round", "square", "other"}


def test_catalogue_is_large_and_mixed_enough() -> None:
    tables = read_catalogue(str(INPUTS / "catalogue.xlsx")).tables
    least = {
        "Mounts": 12,
        "Boards": 14,
        "Rings": 6,
        "Extensions": 8,
        "Services": 4,
        "Price breaks": 1,
        "Freight": 2,
        "Customers": 2,
    }
    assert {n: len(tables[n]) >= count for n, count in least.items()} == dict.fromkeys(least, True)
    mounts = tables["Mounts"]
    assert {m["adjustment"] for m in mounts} == {"fixed", "stepped", "continuous"}
    assert {m["post_shape"] for m in mounts} == {"round", "square"}
    assert len({m["size_least_m"] for m in mounts}) >= 5
    assert "withdrawn" in {m["status"] for m in mounts}
    assert {e["joint"] for e in tables["Extensions"]} == {"sleeve", "spigot"}
    assert len({s["charged"] for s in tables["Services"]}) == 4


def test_readme_has_the_command_that_made_the_outputs() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert " ".join(make_examples.command(Path("out"))) in readme
