"""How many small changes of the code the tests notice.

    python tests/kits/mutants.py --room rules --sample 20 --seed 1
    python tests/kits/mutants.py --at rules/pack_low.py:62

Each mutant changes one place of one module (a comparison, `and` for `or`, a `not` dropped, a number, True for False) in
a copy of the package; then the tests of its room run on the copy until the first one fails.  Prints the mutants that
survive and the share that was killed.  Rooms: those of `TESTS`; or all mutants of one line.
"""

from __future__ import annotations

import argparse
import ast
import copy
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

TOP = Path(__file__).parents[2]
PACKAGE = TOP / "plugin" / "tabside"
# What the room's own tests do not say, those of the pages and commands made of it may.
TESTS = {
    "analysis": ("analysis", "rules"),
    "rules": ("rules",),
    "make": ("make", "exporters/tables", "exporters/test_plan_on_paper.py"),
    "compare": ("compare", "exporters/comparisons"),
    "read": ("read", "rules/test_wire_loose.py"),
    "prove": ("prove", "make/test_rows_in_steps.py", "exporters/pages/test_bench_page.py", "cli/test_diagnose.py"),
}
SECONDS = 900
_EQUAL = ("frozen", "strict")  # keywords: nothing of ours is put into what is frozen, nor zipped with more than it has
_COMPARED = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
}


class Mutant(NamedTuple):
    path: Path
    line: int
    change: str  # "a < b -> a <= b"
    text: str  # of the whole module


def changed(node: ast.AST) -> ast.AST | None:
    """The node with one thing otherwise; None when there is nothing to change."""
    new = copy.deepcopy(node)
    match new:
        case ast.Compare() if type(new.ops[0]) in _COMPARED:
            new.ops[0] = _COMPARED[type(new.ops[0])]()
        case ast.BoolOp():
            new.op = ast.Or() if isinstance(new.op, ast.And) else ast.And()
        case ast.UnaryOp(op=ast.Not()):
            return new.operand
        case ast.Constant(value=bool()):
            new.value = not new.value
        case ast.Constant(value=int() | float()):
            new.value = new.value * 2 + 1
        case _:
            return None
    return new


def places(tree: ast.Module) -> list[ast.AST]:
    """All nodes that can be changed, without those that no test of ours can notice."""
    equal = {id(word.value) for word in ast.walk(tree) if isinstance(word, ast.keyword) and word.arg in _EQUAL}
    return [node for node in ast.walk(tree) if id(node) not in equal and changed(node) is not None]


class _Change(ast.NodeTransformer):
    def __init__(self, at: ast.AST) -> None:
        self._at = at

    def visit(self, node: ast.AST) -> ast.AST:
        return changed(node) or node if node is self._at else self.generic_visit(node)


def mutant(path: Path, n: int) -> Mutant:
    """The one that changes the n-th place of a module."""
    tree = ast.parse(path.read_text("utf-8"))
    at = places(tree)[n]
    change = f"{ast.unparse(at)} -> {ast.unparse(changed(at) or at)}"
    return Mutant(path, at.lineno, change, ast.unparse(ast.fix_missing_locations(_Change(at).visit(tree))))


def drawn(room: str, sample: int, seed: int) -> Iterator[Mutant]:
    """So many, drawn over all places of the room."""
    found = []
    for path in sorted((PACKAGE / room).rglob("*.py")):
        found += [(path, n) for n in range(len(places(ast.parse(path.read_text("utf-8")))))]
    for path, n in random.Random(seed).sample(found, min(sample, len(found))):
        yield mutant(path, n)


def of_line(path: Path, line: int) -> Iterator[Mutant]:
    for n, at in enumerate(places(ast.parse(path.read_text("utf-8")))):
        if at.lineno == line:
            yield mutant(path, n)


def is_killed(made: Mutant, copied: Path) -> bool:
    """Whether a test of its room fails, or does not end, on a copy with this text."""
    victim = copied / made.path.relative_to(PACKAGE.parent)
    before = victim.read_text("utf-8")
    victim.write_text(made.text, "utf-8")
    within = made.path.relative_to(PACKAGE)
    own = TOP / "tests" / within.parent / f"test_{within.name}"  # first: it is likeliest to notice
    try:
        return not _pass(within.parts[0], copied, [str(own)] if own.is_file() else [])
    finally:
        victim.write_text(before, "utf-8")


def _pass(room: str, copied: Path, first: Sequence[str] = ()) -> bool:
    """Whether a room's tests pass on the copy, and end."""
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", *first]
    command += [str(TOP / "tests" / name) for name in TESTS[room]]
    path = os.pathsep.join([str(copied), str(TOP / "exporters")])
    environment = os.environ | {"PYTHONPATH": path, "PYTHONDONTWRITEBYTECODE": "1"}
    try:
        ran = subprocess.run(command, cwd=TOP, env=environment, capture_output=True, timeout=SECONDS, check=False)
    except subprocess.TimeoutExpired:
        return False
    return ran.returncode == 0


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--room", choices=TESTS, nargs="+", default=list(TESTS))
    arguments.add_argument("--sample", type=int, default=20)
    arguments.add_argument("--seed", type=int, default=1)
    arguments.add_argument("--at", nargs="+", default=(), help="modules and lines, as rules/pack_low.py:62")
    chosen = arguments.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        copied = Path(folder)
        shutil.copytree(PACKAGE, copied / PACKAGE.name, ignore=shutil.ignore_patterns("__pycache__"))
        if chosen.at:
            lines = (where.rpartition(":") for where in chosen.at)
            _run("these", [made for name, _, line in lines for made in of_line(PACKAGE / name, int(line))], copied)
            return
        for room in chosen.room:
            if not _pass(room, copied):
                sys.exit(f"the tests of {room} fail as it is: what they kill would say nothing")
            _run(room, list(drawn(room, chosen.sample, chosen.seed)), copied)


def _run(name: str, made: list[Mutant], copied: Path) -> None:
    killed = 0
    for each in made:
        if is_killed(each, copied):
            killed += 1
        else:
            print(f"survives: {each.path.relative_to(TOP)}:{each.line}: {each.change}", flush=True)
    print(f"{name}: {killed} of {len(made)} killed", flush=True)


if __name__ == "__main__":
    main()
