"""No module imports itself over others, and no room its neighbour that imports it; for the type checker neither."""

import ast
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

import tabside
import tabside_exporters

TOPS = (Path(tabside.__file__).parent, Path(tabside_exporters.__file__).parent)
NAMES = {
    path: ".".join((top.name, *path.relative_to(top).with_suffix("").parts))
    for top in TOPS
    for path in top.rglob("*.py")
}
MODULES = {name.removesuffix(".__init__"): path for path, name in NAMES.items() if "loaded" not in path.parts}
ROOMS = sorted(name for name, path in MODULES.items() if path.name == "__init__.py")


def imported(node: ast.AST) -> Iterator[str]:
    for child in ast.walk(node):
        if isinstance(child, ast.ImportFrom) and child.module and child.module.startswith("tabside"):
            for name in child.names:
                inner = f"{child.module}.{name.name}"
                yield inner if inner in MODULES else child.module


GRAPH = {name: set(imported(ast.parse(path.read_text("utf-8")))) - {name} for name, path in MODULES.items()}


def test_no_circle_of_imports():
    TopologicalSorter(GRAPH).prepare()  # raises CycleError, which names the circle


@pytest.mark.parametrize("room", ROOMS)
def test_no_circle_of_what_stands_in_one_room(room):
    """Folders and modules side by side: whoever reads a room can read what is in it from the top to the bottom."""

    def in_room(module: str) -> str:
        """What of the room a module is, or is in; "" when it is not in there, or the room's own face."""
        return ".".join(module.split(".")[: room.count(".") + 2]) if module.startswith(f"{room}.") else ""

    graph: dict[str, set[str]] = {}
    for module, others in GRAPH.items():
        if here := in_room(module):
            graph.setdefault(here, set()).update({in_room(other) for other in others} - {here, ""})
    TopologicalSorter(graph).prepare()
