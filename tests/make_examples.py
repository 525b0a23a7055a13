"""Writes input_examples from the scenario; with --outputs also what the README's first command makes of it.

    python tests/make_examples.py [--outputs]

Same bytes each time. Run it by hand after a change of the scenario or of what the command writes.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from scenario import catalogue, city, county, district, league, logo

ROOT = Path(__file__).resolve().parent.parent
INPUTS, OUTPUTS = ROOT / "input_examples", ROOT / "output_examples"
DATE = "2026-03-02"
KEPT = ("sites", "customers", "portfolio.xlsx", "returns", "data", "run.json")
"""What of an output folder is committed: not the ledger, which holds a time of day."""

FILES: dict[str, Callable[[], bytes]] = {
    "catalogue.xlsx": catalogue.workbook,
    "logo.png": logo.png,
    **district.FILES,
    **city.FILES,
    **league.FILES,
    **county.FILES,
}


def command(out: Path) -> list[str]:
    """The README's main command, run from the project's folder."""
    survey, items = "input_examples/surveys", "input_examples/catalogue.xlsx"
    return ["postquote", "quote", survey, "--catalogue", items, "--out", str(out), "--date", DATE]


def write_inputs(folder: Path) -> None:
    """Write every input file below `folder`."""
    for name, make in FILES.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(make())


def make_outputs(out: Path) -> subprocess.CompletedProcess[str]:
    """Run the command into `out`; some rows are wrong on purpose, so it ends with 1."""
    name, *arguments = command(out)
    program = Path(sys.executable).parent / name
    return subprocess.run([str(program), *arguments], cwd=ROOT, capture_output=True, text=True, check=False)


def refresh_outputs() -> None:
    """Put what the command makes now into output_examples; pictures stay."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "out"
        done = make_outputs(out)
        sys.stderr.write(done.stderr)
        if done.returncode != 1:
            raise SystemExit(f"postquote ended with {done.returncode}; output_examples is left as it was")
        for name in KEPT:
            new, old = out / name, OUTPUTS / name
            shutil.rmtree(old) if old.is_dir() else old.unlink(missing_ok=True)
            OUTPUTS.mkdir(exist_ok=True)
            (shutil.copytree if new.is_dir() else shutil.copyfile)(new, old)


if __name__ == "__main__":
    shutil.rmtree(INPUTS, ignore_errors=True)
    write_inputs(INPUTS)
    if "--outputs" in sys.argv[1:]:
        refresh_outputs()
