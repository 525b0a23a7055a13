"""The examples made again with the oldest allowed versions, cell for cell: python tests/oldest_allowed.py

Makes an environment of its own with the least versions of numpy, pandas and XlsxWriter that pyproject.toml allows,
quotes input_examples there, and compares every cell and every line of data with output_examples. Other versions
pack a workbook otherwise, so bytes may differ; values may not.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
import tomllib
import venv
from collections.abc import Iterator
from pathlib import Path

import openpyxl
from make_examples import DATE, KEPT, OUTPUTS, ROOT

OLDEST = ("numpy", "pandas", "XlsxWriter")


def pins() -> list[str]:
    """The least allowed version of each, as pip takes it: `numpy==1.26.*`."""
    wanted = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["dependencies"]
    found = {m[1]: m[2] for d in wanted if (m := re.match(r"([\w.-]+)>=([\d.]+)", d))}
    return [f"{name}=={found[name]}{'.*' if found[name].count('.') < 2 else ''}" for name in OLDEST]


def quoted_with(home: Path) -> Path:
    """What the command makes of the examples in an environment with those versions."""
    venv.create(home / "env", with_pip=True)
    python = str(home / "env" / "bin" / "python")
    subprocess.run([python, "-m", "pip", "install", "-q", *pins(), str(ROOT)], check=True)
    words = ["quote", "input_examples/surveys", "--catalogue", "input_examples/catalogue.xlsx", "--date", DATE, "--quiet"]
    done = subprocess.run([python, "-m", "pipeline", *words, "--out", str(home / "out")], cwd=ROOT, check=False)
    if done.returncode != 1:
        raise SystemExit(f"the command ended with {done.returncode}")
    return home / "out"


def said(path: Path) -> Iterator[tuple[str, object]]:
    """Every value of a file with its place; formulas as formulas."""
    if path.suffix == ".xlsx":
        for sheet in openpyxl.load_workbook(path):
            for row in sheet.iter_rows():
                yield from ((f"{sheet.title}!{cell.coordinate}", cell.value) for cell in row if cell.value is not None)
    elif path.name != "run.json":  # which names the versions
        yield from ((f"line {n}", line) for n, line in enumerate(path.read_bytes().splitlines(), 1))


def differences(made: Path, kept: Path) -> Iterator[str]:
    """Places where two output folders do not say the same."""
    folders = [{str(p.relative_to(f)) for n in KEPT for p in (f / n, *(f / n).rglob("*")) if p.is_file()} for f in (made, kept)]
    yield from (f"{name}: stands on one side only" for name in sorted(folders[0] ^ folders[1]))
    for name in sorted(folders[0] & folders[1]):
        now, then = dict(said(made / name)), dict(said(kept / name))
        yield from (f"{name} {at}: {now.get(at)!r}, kept {then.get(at)!r}" for at in now | then if now.get(at) != then.get(at))


def main() -> None:
    """Prints each difference; exit status 1 where there is one."""
    with tempfile.TemporaryDirectory() as folder:
        found = list(differences(quoted_with(Path(folder)), OUTPUTS))
    print("\n".join(found[:40]))
    print(f"{', '.join(pins())}: {len(found)} differences")
    sys.exit(bool(found))


if __name__ == "__main__":
    main()
