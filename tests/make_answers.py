"""Writes the tables of whole answers again, after a change of words or of what is answered: read each changed line.

    python tests/make_answers.py

data/answers.tsv keeps its texts and gets the grammar's answers to them; data/rules.tsv and data/loads.tsv are written from
the posts and kits in test_rules_answers.py and test_loads_answers.py.
"""

from __future__ import annotations

from pathlib import Path

import test_loads_answers as loads
import test_measures_answers as measures
import test_rules_answers as rules

DATA = Path(__file__).parent / "data"


def write(name: str, heading: str, rows: list[tuple[str, ...]]) -> None:
    lines = [heading, *("\t".join(row) for row in rows)]
    (DATA / name).write_text("\n".join(lines) + "\n", "utf-8")
    print(f"{name}: {len(rows)} rows")


def main() -> None:
    asked = [tuple(row[:4]) for row in measures.ROWS]
    write(
        "answers.tsv",
        "reader\tunit\tbasis\ttyped\tanswer",
        [(*row, measures.in_one_line(measures.answer(*row))) for row in asked],
    )
    for module, name, heading in ((rules, "rules.tsv", "post\tabout\ttext"), (loads, "loads.tsv", "kit\tfigure\ttext")):
        write(name, heading, [(case, *line) for case, lines in module.all_lines().items() for line in lines])


if __name__ == "__main__":
    main()
