"""No module imports itself over others: not from inside a function, and not for the type checker alone."""

import ast
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import tabside
import tabside_exporters

TOPS = (Path(tabside.__file__).parent, Path(tabside_exporters.__file__).parent)
NAMES = {
    path: ".".join((top.name, *path.relative_to(top).with_suffix("").parts))
    for top in TOPS
    for path in top.rglob("*.py")
}
MODULES = {name.removesuffix(".__init__"): path for path, name in NAMES.items() if "loaded" not in path.parts}


def imported(node: ast.AST) -> Iterator[str]:
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.ImportFrom) and child.module and child.module.startswith("tabside"):
            for name in child.names:
                inner = f"{child.module}.{name.name}"
                yield inner if inner in MODULES else child.module
        yield from imported(child)


def test_no_circle_of_imports():
    graph = {name: set(imported(ast.parse(path.read_text("utf-8")))) - {name} for name, path in MODULES.items()}
    TopologicalSorter(graph).prepare()  # raises CycleError, which names the circle
