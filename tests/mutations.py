"""Single faults put into the core, and how many of them the tests notice.

    python tests/mutations.py [--number 60] [--seed 1] [--package rules|loads|money|measures|units.py|lengths.py]

A seeded sample of places in pipeline/rules, loads, money, intake/measures, units.py and schemas/lengths.py: a comparison
turned or made strict, `and` for `or`, plus for minus, a constant moved, a `not` taken away, a condition always or never true, a
minimum for a maximum, an argument left out, nothing returned. No file is changed: a forked child loads the one
module with the fault in it, and runs the tests of its package until the first that fails. Printed is each fault with what
became of it, and the score; survivors are to be judged by hand, since some faults change nothing that counts. Not part of
the test command: it takes minutes.
"""

from __future__ import annotations

import argparse
import ast
import contextlib
import importlib.machinery
import io
import os
import random
import signal
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
TESTS = {
    "pipeline/rules": (
        "test_rules_a*.py",
        "test_rules_[fkr]*.py",
        "test_sentences.py",
        "test_rules_*.py",
        "test_choice.py",
        "test_trade*.py",
    ),
    "pipeline/loads": ("test_loads_[ae]*.py", "test_outside_[ws]*.py", "test_loads_*.py", "test_outside_*.py"),
    "pipeline/money": ("test_mo*.py", "test_order*.py", "test_customer*.py"),
    "pipeline/intake/measures": ("test_measures_[ae]*.py", "test_measures.py", "test_measures*.py", "test_catalogue.py"),
    "pipeline/units.py": ("test_units*.py", "test_measures*.py"),
    "schemas/lengths.py": ("test_books_show.py", "test_sentences.py"),
}
"""Tests of each package, those that are quick and notice most first."""
MOST_SECONDS = 120.0
COMPARED = {ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq}
TURNED = {ast.Lt: ast.Gt, ast.LtE: ast.GtE, ast.Gt: ast.Lt, ast.GtE: ast.LtE, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
          ast.In: ast.NotIn, ast.NotIn: ast.In}  # fmt: skip
SWAPPED = {a: b for pair in (("min", "max"), ("minimum", "maximum"), ("fmin", "fmax"), ("nanmin", "nanmax"), ("any", "all"),
                             ("floor", "ceil")) for a, b in (pair, pair[::-1])}  # fmt: skip
WORKED = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd}


@dataclass(frozen=True)
class Fault:
    """One changed place: the file, the line, what it was and became, and the source with it."""

    path: str
    line: int
    was: str
    now: str
    source: str

    @property
    def package(self) -> str:
        return next(p for p in TESTS if self.path.startswith(p))


def places(tree: ast.Module) -> list[ast.AST]:
    """Nodes that may be changed: none in annotations, decorators, texts or what only the type checker reads."""
    passed: set[int] = set()
    for node in ast.walk(tree):
        idle = [*getattr(node, "decorator_list", [])]
        idle += [getattr(node, name) for name in ("annotation", "returns") if getattr(node, name, None) is not None]
        idle += [node] if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]).startswith("__") else []
        passed |= {id(part) for one in idle for part in ast.walk(one)}
    kinds = (ast.Compare, ast.BoolOp, ast.BinOp, ast.UnaryOp, ast.Constant, ast.If, ast.IfExp, ast.Call, ast.Return)
    return [n for n in ast.walk(tree) if isinstance(n, kinds) and id(n) not in passed]


def compared(node: ast.Compare, rng: random.Random) -> bool:
    """A comparison turned or made strict, or another text compared with."""
    texts = [c for c in (node.left, *node.comparators) if isinstance(c, ast.Constant) and isinstance(c.value, str)]
    table = rng.choice((COMPARED, TURNED, {}) if texts else (COMPARED, TURNED))
    if made := table.get(type(node.ops[0])):
        node.ops[0] = made()
    elif not table:
        texts[0].value = texts[0].value[1:] if isinstance(node.ops[0], ast.In | ast.NotIn) else texts[0].value + "?"
    return bool(made) or not table


def worked(node: ast.BinOp, rng: random.Random) -> bool:
    """Plus for minus and the like, but not of texts."""
    sides = [s for s in (node.left, node.right) if isinstance(s, ast.Constant | ast.JoinedStr)]
    if type(node.op) not in WORKED or any(not isinstance(getattr(s, "value", None), int | float) for s in sides):
        return False
    node.op = WORKED[type(node.op)]()
    return True


def moved(node: ast.Constant, rng: random.Random) -> bool:
    """A constant one up or down, or ten per cent up."""
    value = node.value
    if type(value) not in (int, float, bool):
        return False
    step = rng.choice((-1, 1))
    node.value = (not value) if isinstance(value, bool) else value + step if isinstance(value, int) else value * 1.1 + 1e-3
    return True


def called(node: ast.Call, rng: random.Random) -> bool:
    """A minimum for a maximum; else the last argument left out, named or not."""
    name = "id" if isinstance(node.func, ast.Name) else "attr"
    if (other := SWAPPED.get(getattr(node.func, name, ""))) and rng.random() < 0.5:
        setattr(node.func, name, other)
        return True
    arguments = node.keywords or node.args[1:]
    if arguments and not isinstance(arguments[-1], ast.Starred):
        del (node.keywords or node.args)[-1]
        return True
    return False


def change(node: ast.AST, rng: random.Random) -> bool:
    """Changes a node in place; False where there is nothing to change."""
    match node:
        case ast.Compare():
            return compared(node, rng)
        case ast.BoolOp():
            node.op = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        case ast.BinOp():
            return worked(node, rng)
        case ast.UnaryOp(op=ast.Not()):
            node.operand = ast.UnaryOp(ast.Not(), node.operand)
        case ast.UnaryOp():
            node.op = ast.UAdd()
        case ast.Constant():
            return moved(node, rng)
        case ast.If() | ast.IfExp():
            node.test = ast.Constant(rng.random() < 0.5)
        case ast.Call():
            return called(node, rng)
        case ast.Return(value=ast.expr()):
            node.value = ast.Constant(None)
        case _:
            return False
    return True


def modules(package: Path) -> list[Path]:
    """The modules of a package, or the one module that it is."""
    return [package] if package.suffix else sorted(package.rglob("*.py"))


def faults(packages: list[str], number: int, seed: int) -> Iterator[Fault]:
    """A seeded sample of faults, spread over all places alike."""
    rng = random.Random(seed)
    trees = {p: p.read_text() for package in packages for p in modules(ROOT / package)}
    every = [(path, i) for path, text in trees.items() for i in range(len(places(ast.parse(text))))]
    rng.shuffle(every)
    for path, i in every:
        if number <= 0:
            return
        tree = ast.parse(trees[path])
        node = places(tree)[i]
        was = ast.unparse(node)
        if not change(node, rng) or (now := ast.unparse(ast.fix_missing_locations(node))) == was:
            continue
        number -= 1
        yield Fault(str(path.relative_to(ROOT)), node.lineno, was, now, ast.unparse(ast.fix_missing_locations(tree)))


def load_with(fault: Fault) -> None:
    """From now on the module of the fault is loaded with it, whatever stands in its file or in a compiled one."""
    target, real = str(ROOT / fault.path), importlib.machinery.SourceFileLoader.get_code

    def get_code(self: importlib.machinery.SourceFileLoader, name: str) -> object:
        path = self.get_filename(name)
        return compile(fault.source, path, "exec") if path == target else real(self, name)

    importlib.machinery.SourceFileLoader.get_code = get_code  # type: ignore[method-assign, assignment]


def noticed(fault: Fault) -> bool:
    """Whether a test of its package fails, or the program no longer loads, or hangs."""
    child = os.fork()
    if child == 0:
        import pytest

        signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)  # of work, whatever else the machine does
        load_with(fault)
        files = dict.fromkeys(str(p) for pattern in TESTS[fault.package] for p in sorted((ROOT / "tests").glob(pattern)))
        with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
            code = pytest.main([*files, "-q", "-x", "-n", "0", "-p", "no:cacheprovider", "-m", "not slow", "--tb=no"])
        os._exit(0 if code == 0 else 1)
    _, status = os.waitpid(child, 0)
    return status != 0


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--number", type=int, default=60)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--package", choices=[p.rsplit("/", 1)[1] for p in TESTS])
    asked = parser.parse_args()
    sys.path[:0] = [str(ROOT), str(ROOT / "tests")]
    for heavy in ("hypothesis", "numpy", "scipy.optimize", "scipy.linalg", "Pynite", "sectionproperties.analysis", "openpyxl"):
        with contextlib.suppress(ImportError):
            __import__(heavy)
    packages = [p for p in TESTS if not asked.package or p.endswith("/" + asked.package)]
    tried: Counter[str] = Counter()
    killed: Counter[str] = Counter()
    for fault in faults(packages, asked.number, asked.seed):
        found = noticed(fault)
        tried[fault.package] += 1
        killed[fault.package] += found
        word = "noticed" if found else "SURVIVED"
        print(f"{word}: {fault.path}:{fault.line}: {fault.was}  ->  {fault.now}".replace("\n", " ")[:200], flush=True)
    for package, many in tried.items():
        print(f"{package}: {killed[package]} of {many} noticed")
    print(f"all: {sum(killed.values())} of {sum(tried.values())} noticed")


if __name__ == "__main__":
    main()
