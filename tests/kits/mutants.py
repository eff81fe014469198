"""How many small changes of the code the tests notice.

    python tests/kits/mutants.py --room rules --sample 20 --seed 1

Each mutant changes one place of one module (a comparison, `and` for `or`, a `not` dropped, a number, True for False) in
a copy of the package; then the tests of its room run on the copy until the first one fails.  Prints the mutants that
survive and the share that was killed.  Rooms: analysis, rules, make, prove.
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
from collections.abc import Iterator
from pathlib import Path

TOP = Path(__file__).parents[2]
PACKAGE = TOP / "plugin" / "tabside"
# What the room's own tests do not say, the rooms above it may.
TESTS = {
    "analysis": ("analysis", "rules"),
    "rules": ("rules",),
    "make": ("make",),
    "prove": ("prove",),
}
SECONDS = 900
_COMPARED = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip


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
    """All nodes that can be changed."""
    return [node for node in ast.walk(tree) if changed(node) is not None]


class _Change(ast.NodeTransformer):
    def __init__(self, at: ast.AST) -> None:
        self._at = at

    def visit(self, node: ast.AST) -> ast.AST:
        return changed(node) or node if node is self._at else self.generic_visit(node)


def mutants(room: str, sample: int, seed: int) -> Iterator[tuple[Path, int, str]]:
    """Module, line and new text of so many mutants, drawn over all places of the room."""
    found = []
    for path in sorted((PACKAGE / room).rglob("*.py")):
        count = len(places(ast.parse(path.read_text("utf-8"))))
        found += [(path, n) for n in range(count)]
    for path, n in random.Random(seed).sample(found, min(sample, len(found))):
        tree = ast.parse(path.read_text("utf-8"))
        at = places(tree)[n]
        yield path, at.lineno, ast.unparse(ast.fix_missing_locations(_Change(at).visit(tree)))


def is_killed(path: Path, text: str, room: str, copied: Path) -> bool:
    """Whether a test of the room fails, or does not end, on a copy with this text."""
    victim = copied / path.relative_to(PACKAGE.parent)
    before = victim.read_text("utf-8")
    victim.write_text(text, "utf-8")
    folders = [str(TOP / "tests" / name) for name in TESTS[room]]
    within = path.relative_to(PACKAGE)
    own = TOP / "tests" / within.parent / f"test_{within.name}"  # first: it is likeliest to notice
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider"]
    command += [*([str(own)] if own.is_file() else []), *folders]
    environment = os.environ | {"PYTHONPATH": str(copied), "PYTHONDONTWRITEBYTECODE": "1"}
    try:
        ran = subprocess.run(command, cwd=TOP, env=environment, capture_output=True, timeout=SECONDS, check=False)
    except subprocess.TimeoutExpired:
        return True
    finally:
        victim.write_text(before, "utf-8")
    return ran.returncode != 0


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--room", choices=TESTS, nargs="+", default=list(TESTS))
    arguments.add_argument("--sample", type=int, default=20)
    arguments.add_argument("--seed", type=int, default=1)
    chosen = arguments.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        copied = Path(folder)
        shutil.copytree(PACKAGE, copied / PACKAGE.name, ignore=shutil.ignore_patterns("__pycache__"))
        for room in chosen.room:
            killed = tried = 0
            for path, line, text in mutants(room, chosen.sample, chosen.seed):
                tried += 1
                if is_killed(path, text, room, copied):
                    killed += 1
                else:
                    print(f"survives: {path.relative_to(TOP)}:{line}", flush=True)
            print(f"{room}: {killed} of {tried} killed", flush=True)


if __name__ == "__main__":
    main()
