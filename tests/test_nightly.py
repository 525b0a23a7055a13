"""The same folder night after night: what counts as a change, which reason is told, and what is left as it stands."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from nightly_made import DATE, PROGRAM, Nights, changed, results, site, stamps, texts, write_survey


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with one run behind it; tests work on copies."""
    nights = Nights(tmp_path_factory.mktemp("first"))
    nights.run()
    return nights.home


@pytest.fixture
def nights(first: Path, tmp_path: Path) -> Nights:
    shutil.copytree(first, tmp_path / "n")
    return Nights(tmp_path / "n")


def test_elsewhere_in_another_order_with_another_seed_and_two_jobs(first: Path, tmp_path: Path) -> None:
    other = Nights(tmp_path / "elsewhere" / "deep")
    other.made = {name: rows if name == "Freight" else rows[::-1] for name, rows in other.made.items()}
    other.sites = {n: rows[::-1] for n, rows in sorted(other.sites.items(), reverse=True)}
    other.run("--jobs", "2", PYTHONHASHSEED="77")
    assert _same_but_for_inputs(results(first / "out"), results(other.out))


def test_all_rows_in_one_file_or_one_a_site(first: Path, tmp_path: Path) -> None:
    other = Nights(tmp_path / "one")
    other.write()
    for path in (other.home / "surveys").glob("*.csv"):
        path.unlink()
    rows = [r for n in (3, 6, 1, 2, 5, 4) for r in other.sites[n][::-1]]
    write_survey(other.home / "surveys" / "z.csv", rows[:7])
    write_survey(other.home / "surveys" / "a.csv", rows[7:])
    subprocess.run(other.command(), check=True, capture_output=True)
    a, b = results(first / "out"), results(other.out)
    assert {n: v for n, v in a.items() if n.startswith(("sites/", "data/"))} == {
        n: v for n, v in b.items() if n.startswith(("sites/", "data/"))
    }


def _same_but_for_inputs(a: dict[str, bytes], b: dict[str, bytes]) -> bool:
    """Equal but for run.json, which holds the fingerprints of the input files."""
    assert a.keys() == b.keys()
    assert [name for name in a if a[name] != b[name] and name != "run.json"] == []
    return True


def test_a_rerun_rewrites_nothing(nights: Nights) -> None:
    before = stamps(nights.out)
    assert "no file was touched" in nights.run("--jobs", "2")
    assert stamps(nights.out) == before


def test_the_date_alone_rewrites_nothing(nights: Nights) -> None:
    before = stamps(nights.out)
    nights.night(date="2026-03-20")
    assert stamps(nights.out) == before


def test_a_known_survey_is_not_read_again(nights: Nights) -> None:
    nights.sites[2][0]["quantity"] = 2
    said = nights.night()
    assert "Reading surveys\n" in said
    assert nights.risen() == {2}


def test_what_is_asked_of_a_known_survey_is_asked_again(nights: Nights) -> None:
    """A file with cells that cannot be read comes out of the ledger as it went in, while another file changes."""
    nights.sites[3][0] |= {"wall": "thin", "condition": "so-so"}
    nights.night()
    asked = nights.table("queries")
    assert {r["name"] for r in asked} >= {"wall"}
    nights.sites[2][0]["quantity"] = 2
    nights.night()
    assert nights.table("queries") == asked
    assert nights.risen() == {2, 3}


def test_one_price_changed(nights: Nights) -> None:
    """Exactly the sites whose lines change; the reason stands in the data, in the workbook and in compare."""
    was = {r["site_code"]: r["total"] for r in nights.table("sites")}
    lines = nights.table("quote_lines")
    others = {n: v for n, v in results(nights.out).items() if n.startswith("sites/")}
    nights.made = changed(nights.made, "Mounts", "SQ-1", price=333.5)
    nights.run()
    now = {r["site_code"]: r["total"] for r in nights.table("sites")}
    assert (
        {c for c in now if now[c] != was[c]} == {r["site_code"] for r in lines if r["item"] == "SQ-1"} == {"K-02", "K-04", "K-06"}
    )
    assert nights.risen() == {2, 4, 6}
    assert nights.reasons() == {(code, "price", "SQ-1", "320", "333.5") for code in ("K-02", "K-04", "K-06")}
    row = nights.table("changes")[0]
    assert (row["revision_was"], row["revision"], row["total_was"], row["total"]) == ("1", "2", was["K-02"], now["K-02"])
    assert {"What changed since r1", "SQ-1", "price: was 320, is now 333.5"} <= set(texts(nights.workbook("K-02", 2), "Quote"))
    kept = results(nights.out)
    assert {n: kept[n] for n in others} == others
    told = subprocess.run([PROGRAM, "compare", nights.out, "--sites"], capture_output=True, text=True, check=True).stdout
    assert "K-02  r1 -> r2" in told
    assert "price: SQ-1" in told
    assert "320 -> 333.5" in told
    assert was["K-02"] in told
    assert now["K-02"] in told
    assert "K-01" not in told
    assert max(len(line) for line in told.splitlines()) <= 80


@pytest.mark.parametrize(
    ("table", "row"),
    [
        ("Mounts", ("RM-8", "New", "round", 8.0, 8.2, "band", "fixed", 8.5, 10, 0, None, 14, 36, 72, 190, 60, 1, "active")),
        ("Boards", ("BD-8", "New", "rectangular", 54, 36, 60, "steel", "steel", "A", 1, "active")),
        ("Rings", ("RG-8", "Dearer", "fixed", "A", 14, 500, "active")),
        ("Customers", ("West District", 20, "yes", "")),
        ("Services", ("SV-9", "Stripping", "per stripped post", 45)),
        ("Price breaks", ("RM-9", 2, 1)),
    ],
)
def test_an_item_that_nobody_uses(nights: Nights, table: str, row: tuple[object, ...]) -> None:
    nights.made[table] = [row, *nights.made[table]]
    nights.night()
    assert nights.risen() == set()
    assert nights.reasons() == set()


def test_only_sites_whose_inputs_changed_are_worked_out(nights: Nights) -> None:
    """A row of one, or the catalogue of all; after each the data files say what a folder begun that night would say."""
    fresh = Nights(nights.home / "fresh", nights.sites)
    nights.sites[2][0]["quantity"] = 2
    for price, quoted in ((None, "Quoting sites\n"), (333, "Quoting sites: 6\n"), (20, "Quoting sites: 6\n")):
        if price:
            nights.made = fresh.made = changed(nights.made, "Rings", "RG-2", price=price)
        assert quoted in nights.night()
        shutil.rmtree(fresh.out, ignore_errors=True)
        fresh.night()
        for name in ("posts", "mount_fit", "kits", "extensions", "quote_lines"):
            assert nights.table(name) == fresh.table(name), (price, name)


def test_an_unused_price_or_an_option_s_price_is_no_change(nights: Nights) -> None:
    nights.made = changed(nights.made, "Mounts", "RM-9", price=1)
    nights.made = changed(nights.made, "Rings", "RG-2", price=99)
    nights.made = changed(nights.made, "Mounts", "RM-2", price=350)
    nights.made["Policy"] = [*nights.made["Policy"], ("options_per_post", 3, "", ""), ("quote_valid_days", 60, "", "")]
    nights.night()
    assert nights.risen() == set()
    assert "99.00" in {r["unit_price"] for r in nights.table("kits")} or nights.table("kits")


def test_another_way_to_write_it_and_notes_are_no_change(nights: Nights) -> None:
    nights.sites[1][0] |= {"post_height": "8' 8.4\"", "notes": "gate at the north side"}
    nights.night()
    assert nights.risen() == set()


def test_a_withdrawn_mount_is_never_quoted(nights: Nights) -> None:
    nights.made = changed(nights.made, "Mounts", "RM-1", status="withdrawn")
    nights.night()
    assert nights.risen() == {1, 3, 5}
    assert ("K-01", "item withdrawn", "RM-1", "active", "withdrawn or no longer listed") in nights.reasons()
    assert {r["mount"] for r in nights.table("posts")} == {"RM-2", "SQ-1"}
    assert "RM-1" not in {r["item"] for r in nights.table("quote_lines")} | {r["mount"] for r in nights.table("kits")}


def test_a_new_better_item_is_named(nights: Nights) -> None:
    nights.made["Rings"] = [*nights.made["Rings"], ("RG-3", "Cheap", "fixed", "A", 14, 70, "active")]
    nights.night()
    assert nights.risen() == {1, 2, 3, 4, 5, 6}
    assert ("K-01", "item new and now better", "RG-3", "", "active") in nights.reasons()


def _with_policy(nights: Nights, name: str, value: object) -> None:
    nights.made["Policy"] = [*(r for r in nights.made["Policy"] if r[0] != name), (name, value, "", "")]


def test_geometry_pairing_policy_and_terms(nights: Nights) -> None:
    """Four nights, four reasons, each on the sites that it touches."""
    nights.made = changed(nights.made, "Mounts", "RM-1", overhang_m=40)
    nights.night()
    assert nights.risen() == {1, 3, 5}
    assert {(kind, item) for _, kind, item, _, _ in nights.reasons()} == {("item facts", "RM-1: Overhang [m]")}

    nights.made["Pairings"] = [p for p in nights.made["Pairings"] if p != ("RM-1", "BD-1")]
    nights.night()
    assert ("K-01", "pairing", "RM-1 + BD-1", "listed", "") in nights.reasons()
    assert {code for code, *_ in nights.reasons()} == {"K-01", "K-03", "K-05"}

    _with_policy(nights, "tax_rate", 0.2)
    nights.night()
    assert nights.reasons() == {
        (r["site_code"], "policy", "tax_rate", "0.1", "0.2") for r in nights.table("sites") if r["customer"] != "South District"
    }

    nights.made["Customers"] = [("North District", 15, "no", ""), *nights.made["Customers"][1:]]
    nights.night()
    assert nights.reasons() == {
        (f"K-{n:02}", "customer terms", "North District: discount [%]", "10", "15") for n in nights.sites if n % 3 == 0
    }


def test_rows_added_removed_and_changed(nights: Nights) -> None:
    nights.sites[1].append(site(1, 4)[3])
    del nights.sites[2][1]
    nights.sites[3][0]["post_height"] = 9.1
    nights.sites[4][2] |= {"post_size": "about 4"}
    nights.night(status=1)
    assert nights.reasons() >= {
        ("K-01", "survey row added", "P4", "", "added"),
        ("K-02", "survey row removed", "P2", "there", ""),
        ("K-03", "survey cell", "P1: Height above ground", "8.7 ft", "9.1 ft"),
        ("K-04", "survey cell", "P3: Post size", "4.0 in", "about 4"),
    }
    assert {code for code, *_ in nights.reasons()} == {"K-01", "K-02", "K-03", "K-04"}
    assert nights.risen() == {1, 2, 3, 4}


@pytest.mark.slow
def test_a_new_program_that_says_something_else(nights: Nights, tmp_path: Path) -> None:
    """The program's own code is part of what a quotation is made from."""
    root = Path(__file__).resolve().parent.parent
    copy = tmp_path / "program"
    for package in ("pipeline", "schemas"):
        shutil.copytree(root / package, copy / package, ignore=shutil.ignore_patterns("__pycache__"))
    (copy / "pipeline" / "__init__.py").open("a").write("\n# another build\n")
    before = stamps(nights.out)
    nights.run(PYTHONPATH=str(copy))
    same = {n for n, s in stamps(nights.out).items() if before[n] == s}
    assert {n for n in before if n.startswith(("sites/", "data/"))} <= same
    constants = copy / "schemas" / "ring.py"
    text = constants.read_text()
    assert "0.151" in text
    constants.write_text(text.replace("0.151", "0.251"))
    nights.made = changed(nights.made, "Mounts", "RM-9", price=2)
    nights.run(PYTHONPATH=str(copy))
    assert {(kind, item) for _, kind, item, *_ in nights.reasons()} == {("program", "postquote")}
    assert len(nights.reasons()) == 6


def test_an_edited_workbook_stays_and_a_missing_one_is_made_again(nights: Nights) -> None:
    edited, missing = nights.workbook("K-02", 1), nights.workbook("K-01", 1)
    made = missing.read_bytes()
    edited.write_bytes(edited.read_bytes() + b"a person's note")
    missing.unlink()
    kept = edited.read_bytes()
    said = nights.night()
    assert missing.read_bytes() == made
    assert "K-02-r1.xlsx was edited by hand" in " ".join(said.split())
    nights.made = changed(nights.made, "Mounts", "SQ-1", price=333)
    nights.night()
    assert edited.read_bytes() == kept
    assert nights.workbook("K-02", 2).is_file()
    assert ("K-02", "workbook kept", "K-02-r1.xlsx", "edited by hand", "the new revision stands beside it") in nights.reasons()
    before = stamps(nights.out)
    nights.night()
    nights.night()
    assert {n: s for n, s in stamps(nights.out).items() if n.startswith("sites/")} == {
        n: s for n, s in before.items() if n.startswith("sites/")
    }


def test_an_edited_portfolio_is_put_aside(nights: Nights) -> None:
    path = nights.out / "portfolio.xlsx"
    mine = path.read_bytes() + b"a person's note"
    path.write_bytes(mine)
    nights.made = changed(nights.made, "Mounts", "SQ-1", price=333)
    assert "kept as portfolio-kept-1.xlsx" in " ".join(nights.night().split())
    assert (nights.out / "portfolio-kept-1.xlsx").read_bytes() == mine
    assert path.read_bytes() != mine


def test_expired_quotations_are_listed_and_renewed(nights: Nights) -> None:
    late = "2026-05-04"
    said = nights.night(date=late)
    assert "Expired" in said
    assert "K-01-r1, valid until 2026-04-01" in said
    assert nights.risen() == set()
    assert "K-01" in texts(nights.out / "portfolio.xlsx", "Expired")
    before = stamps(nights.out)
    nights.night(date=late)
    assert stamps(nights.out) == before
    nights.night("--renew", date=late)
    assert nights.risen() == {1, 2, 3, 4, 5, 6}
    assert ("K-01", "renewed", "valid until", "2026-04-01", "2026-06-03") in nights.reasons()
    assert {r["valid_until"] for r in nights.table("sites")} == {"2026-06-03"}
    assert late in texts(nights.workbook("K-01", 2), "Quote")
    nights.night("--renew", date=late)
    assert set(nights.revisions().values()) == {2}


def test_a_site_that_vanished_is_kept_and_comes_back(nights: Nights) -> None:
    was = nights.sites.pop(3)
    nights.night()
    assert nights.workbook("K-03", 1).is_file()
    assert "K-03" not in nights.revisions()
    assert {(code, kind) for code, kind, *_ in nights.reasons()} == {("K-03", "no longer asked for")}
    nights.night()
    assert nights.reasons() == set()
    assert "K-03" in texts(nights.out / "portfolio.xlsx", "Changes")
    nights.made = changed(nights.made, "Boards", "BD-1", price=210)
    nights.night()
    nights.sites[3] = was
    nights.night()
    assert nights.revisions()["K-03"] == 2
    assert {r for r in nights.reasons() if r[0] == "K-03"} == {
        ("K-03", "asked for again", "K-03", "not in the surveys", "quoted again"),
        ("K-03", "price", "BD-1", "200", "210"),
    }
    assert {code for code, *_ in nights.reasons()} == {"K-03"}


def test_compare_over_several_runs(nights: Nights) -> None:
    nights.made = changed(nights.made, "Mounts", "SQ-1", price=333)
    nights.night()
    nights.made = changed(nights.made, "Rings", "RG-1", price=81)
    nights.night()
    nights.night()

    def compare(*more: str, status: int = 0) -> str:
        done = subprocess.run([PROGRAM, "compare", nights.out, "--sites", *more], capture_output=True, text=True)
        assert done.returncode == status
        return done.stdout + done.stderr

    assert "Nothing changed" in compare()
    since = compare("--since", "1")
    assert "K-02  r1 -> r3" in since
    assert since.index("K-02") < since.index("price: SQ-1") < since.index("price: RG-1", since.index("K-02"))
    assert "SQ-1" not in compare("--since", "2")
    assert "There is no run 9" in compare("--since", "9", status=2)
    assert str(DATE) in since


def test_the_command_is_the_installed_one() -> None:
    assert subprocess.run([PROGRAM, "--version"], capture_output=True, text=True, check=True).stdout.startswith("postquote")
    assert sys.prefix in str(PROGRAM)
