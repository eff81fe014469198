"""KiCad's own netlist of a drawing, to hold ours against.

kicad-cli 9.0.8 is right on files that the editor saved.  On files made by hand it differs from the editor in two
ways: a junction or bus entry inside an unbroken line makes it lose one half of that line, and lines lying on each
other are not joined.  `kicad_netlist` therefore hands it a copy in which lines are merged and broken as the editor
does when it loads a file (checked against the editor).  It also drops unreadable sub-sheets without a word, and exits
with 0 when it wrote nothing.
"""

from __future__ import annotations

import csv
import json
import os
import re
import shutil
import subprocess
import tempfile
import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import gcd
from os.path import commonpath
from pathlib import Path

from programs.kicad_installation import kicad_10_cli_path, kicad_cli_path

NetPin = tuple[str, str]  # reference, pin number
Net = tuple[str, list[NetPin]]  # name, pins
Spot = tuple[int, int]  # KiCad's internal units, 100 nm
Segment = tuple[Spot, Spot]

# Taken once: pytest changes the environment at each test, and a program that another thread starts at that moment would
# be handed one that is being moved.
ENVIRONMENT = dict(os.environ)
NO_XML = re.compile(rb"[\x00-\x08\x0b\x0c\x0e-\x1f]")  # KiCad writes control characters of names as they are
SCAN = re.compile(r'"(?:[^"\\]|\\.)*"|[()]', re.S)
TAG = re.compile(r"\(\s*([^\s()]+)")
PAIR = {name: re.compile(rf"\({name}\s+([-\d.e]+)\s+([-\d.e]+)") for name in ("xy", "at", "size")}
SHEET_FILE = re.compile(r'\(property\s+"Sheet ?file"\s+"((?:[^"\\]|\\.)*)"')


class OracleError(Exception):
    """KiCad gave no netlist."""


@dataclass(frozen=True)
class Netlist:
    """What KiCad says.  Power symbols and flags are left out, as KiCad does."""

    nets: list[Net]
    parts: dict[str, dict[str, str]]  # reference -> value, footprint, and its own fields
    said: str  # KiCad's words on its outputs


def kicad_netlist(root: Path, *, mend: bool = True) -> Netlist:
    """KiCad's netlist of the drawing with this root file.

    Raises:
        OracleError: KiCad is missing, refuses the file, or writes nothing.
    """
    with tempfile.TemporaryDirectory() as scratch:
        source = mended_copy(root, Path(scratch) / "copy") if mend else root
        return _netlist(str(kicad_cli_path()), source, Path(scratch) / "netlist.xml")


def kicad_10_netlist(root: Path, *, upgrade: bool = False, mend: bool = True) -> Netlist:
    """KiCad 10's netlist of the drawing; `upgrade` has KiCad 10 save a copy in its own format first.

    Without `mend` the drawing must lie under /tmp, which KiCad 10's own system sees.

    Raises:
        OracleError: KiCad is missing, refuses a file, or writes nothing.
    """
    with tempfile.TemporaryDirectory(dir="/tmp") as scratch:
        source = mended_copy(root, Path(scratch) / "copy") if mend or upgrade else root
        if upgrade:
            upgrade_to_10(source)
        return _netlist(str(kicad_10_cli_path()), source, Path(scratch) / "netlist.xml")


def upgrade_to_10(root: Path) -> None:
    """Have KiCad 10 save all schematic files in this folder, which lies below /tmp, in its own format.

    Raises:
        OracleError: it did not save one.
    """
    for file in sorted(root.parent.rglob("*.kicad_sch")):
        done = _run([str(kicad_10_cli_path()), "sch", "upgrade", "--force", str(file)])
        if "(version 2026" not in file.read_text(encoding="utf-8")[:200]:
            raise OracleError(f"kicad-cli did not upgrade {file}: {done.stdout}{done.stderr}")


def kicad_10_bom(root: Path, fields: Sequence[str], variant: str | None = None) -> dict[str, dict[str, str]]:
    """KiCad 10's bill of materials of a drawing below /tmp: reference -> these fields."""
    with tempfile.TemporaryDirectory(dir="/tmp") as scratch:
        out = Path(scratch) / "bom.csv"
        named = [] if variant is None else ["--variant", variant]
        command = [str(kicad_10_cli_path()), "sch", "export", "bom", "--fields", ",".join(("Reference", *fields))]
        done = _run([*command, *named, "-o", str(out), str(root)])
        if not out.exists():
            raise OracleError(f"kicad-cli wrote no BOM for {root}: {done.stdout}{done.stderr}")
        with out.open(encoding="utf-8", newline="") as lines:
            rows = [row for row in csv.reader(lines) if row][1:]
    return {row[0]: dict(zip(fields, row[1:], strict=True)) for row in rows}


def _run(command: Sequence[str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command, capture_output=True, text=True, errors="replace", timeout=300, check=False, env=ENVIRONMENT
    )


def _netlist(cli: str, source: Path, out: Path) -> Netlist:
    done = _run([cli, "sch", "export", "netlist", "--format", "kicadxml", "-o", str(out), str(source)])
    said = (done.stdout + done.stderr).strip()
    if not out.exists():
        raise OracleError(f"kicad-cli wrote no netlist for {source} (exit {done.returncode}): {said}")
    tree = ET.fromstring(NO_XML.sub(b"", out.read_bytes()))
    nets = [
        (net.get("name", ""), pins)
        for net in tree.iterfind("nets/net")
        if (pins := [(n.get("ref", ""), n.get("pin", "")) for n in net if not n.get("ref", "#").startswith("#")])
    ]
    return Netlist(nets, {part.get("ref", ""): _part(part) for part in tree.iterfind("components/comp")}, said)


def _part(part: ET.Element) -> dict[str, str]:
    fields = {field.get("name", ""): field.text or "" for field in part.iterfind("fields/field")}
    return fields | {"Value": part.findtext("value") or "", "Footprint": part.findtext("footprint") or ""}


# Mending: what the editor does to wires and buses when it loads a file.


def top_lists(text: str) -> Iterator[tuple[str, int, int]]:
    """(tag, start, end) of every list that stands directly in the file's root list."""
    depth = start = 0
    for found in SCAN.finditer(text):
        if found.group() == "(":
            depth += 1
            if depth == 2:
                start = found.start()
        elif found.group() == ")":
            if depth == 2 and (tag := TAG.match(text, start)):
                yield tag[1], start, found.end()
            depth -= 1


def _spots(name: str, text: str) -> list[Spot]:
    return [(round(float(x) * 10000), round(float(y) * 10000)) for x, y in PAIR[name].findall(text)]


def _inside(spot: Spot, segment: Segment) -> bool:
    """The spot lies on the segment, and on neither end."""
    (ax, ay), (bx, by) = segment
    x, y = spot
    on_line = (bx - ax) * (y - ay) == (by - ay) * (x - ax)
    within = min(ax, bx) <= x <= max(ax, bx) and min(ay, by) <= y <= max(ay, by)
    return on_line and within and spot not in segment


def _line_of(segment: Segment) -> tuple[int, ...]:
    """The infinite line a segment lies on, the same for all segments of it."""
    (ax, ay), (bx, by) = sorted(segment)
    common = gcd(bx - ax, by - ay)
    ux, uy = (bx - ax) // common, (by - ay) // common
    return (ux, uy, ux * ay - uy * ax)


def _merged(segments: Iterable[Segment]) -> Iterator[Segment]:
    """Segments that lie on each other become one; those that only touch stay apart."""
    lines: dict[tuple[int, ...], list[Segment]] = {}
    for a, b in segments:
        if a != b:
            lines.setdefault(_line_of((a, b)), []).append((min(a, b), max(a, b)))
    for spans in lines.values():
        spans.sort()
        low, high = spans[0]
        for start, end in spans[1:]:
            if start < high:
                high = max(high, end)
            else:
                yield low, high
                low, high = start, end
        yield low, high


def _broken(segment: Segment, spots: set[Spot]) -> Iterator[Segment]:
    cuts = sorted(spot for spot in spots if _inside(spot, segment))
    yield from pairwise([min(segment), *cuts, max(segment)])


def _as_the_editor_has_it(text: str) -> str:
    lines: dict[str, list[Segment]] = {"wire": [], "bus": []}
    spots: set[Spot] = set()
    kept, last = [], 0
    for tag, start, end in top_lists(text):
        body = text[start:end]
        if tag in lines:
            lines[tag] += pairwise(_spots("xy", body))
            kept.append(text[last:start])
            last = end
        elif tag == "junction":
            spots.update(_spots("at", body))
        elif tag == "bus_entry":
            (x, y), (w, h) = _spots("at", body)[0], _spots("size", body)[0]
            spots |= {(x, y), (x + w, y + h)}
    kept.append(text[last:].rstrip()[:-1])
    for kind, segments in lines.items():
        for a, b in (piece for whole in _merged(segments) for piece in _broken(whole, spots)):
            points = f"(xy {a[0] / 1e4:.4f} {a[1] / 1e4:.4f}) (xy {b[0] / 1e4:.4f} {b[1] / 1e4:.4f})"
            ident = f"{len(kept):08d}-0000-4000-8000-000000000000"
            kept.append(f'({kind} (pts {points}) (stroke (width 0) (type default)) (uuid "{ident}"))\n')
    return "".join([*kept, ")\n"])


def mended_copy(root: Path, target: Path) -> Path:
    """Copy a drawing with all its sheets, lines as the editor would have them; the new root file."""
    found: dict[Path, str] = {}
    project = root.resolve().with_suffix(".kicad_pro")
    todo = [root.resolve(), *_top_level_sheets(project)]
    while todo:
        path = todo.pop()
        if path in found or not path.is_file():
            continue
        found[path] = path.read_text(encoding="utf-8")
        for tag, start, end in top_lists(found[path]):
            if tag == "sheet" and (named := SHEET_FILE.search(found[path], start, end)):
                file = named[1].replace("\\\\", "/").replace("\\", "/")
                todo.append((path.parent / file).resolve())
    top = Path(commonpath([path.parent for path in found]))
    for path, text in found.items():
        new = target / path.relative_to(top)
        new.parent.mkdir(parents=True, exist_ok=True)
        new.write_text(_as_the_editor_has_it(text), encoding="utf-8")
    new_root = target / root.resolve().relative_to(top)
    if project.exists():
        shutil.copy(project, new_root.with_suffix(".kicad_pro"))
    return new_root


def _top_level_sheets(project: Path) -> list[Path]:
    """The further root files that a project of KiCad 10 lists."""
    if not project.exists():
        return []
    listed_sheets = json.loads(project.read_text(encoding="utf-8")).get("schematic", {}).get("top_level_sheets") or []
    return [project.parent / sheet["filename"] for sheet in listed_sheets]


# Comparing.


def listed(nets_json: dict[str, object]) -> list[Net]:
    """Nets of the JSON form ``{"nets": [{"name": ..., "pins": [[reference, pin], ...]}, ...]}``."""
    nets = nets_json["nets"]
    assert isinstance(nets, list)
    return [(net["name"], [(reference, pin) for reference, pin in net["pins"]]) for net in nets]


def _shown(pins: Iterable[NetPin], limit: int = 20) -> str:
    words = sorted(f"{reference}.{pin}" for reference, pin in pins)
    return " ".join(words[:limit]) + (f" ... ({len(words)} pins)" if len(words) > limit else "")


def compare(
    ours: Sequence[Net],
    theirs: Sequence[Net],
    *,
    singles: bool = True,
    any_name: Callable[[str, str], bool] = lambda our_name, their_name: False,
) -> list[str]:
    """Differences of two netlists, one line each; none when they agree in partition and names.

    A pin may stand in several nets (shared pins of multi-unit parts), so nets are compared as sets of pins.
    `singles=False`: nets of one pin do not count.  `any_name(ours, theirs)`: this difference of names is no difference.
    """

    def counted(nets: Sequence[Net]) -> Counter[tuple[str, frozenset[NetPin]]]:
        kept = ((name, frozenset(p for p in pins if not p[0].startswith("#"))) for name, pins in nets)
        return Counter((name, pins) for name, pins in kept if len(pins) > (0 if singles else 1))

    only_ours, only_theirs = counted(ours), counted(theirs)
    only_ours, only_theirs = only_ours - only_theirs, only_theirs - only_ours
    lines = []
    for name, pins in list(only_theirs.elements()):
        twin = next((key for key in only_ours if key[1] == pins), None)
        if twin is not None:
            only_theirs -= Counter([(name, pins)])
            only_ours -= Counter([twin])
            if not any_name(twin[0], name):
                lines.append(f"name: ours {twin[0]!r}, expected {name!r}: {_shown(pins)}")
    for name, pins in sorted(only_theirs.elements(), key=lambda net: net[0]):
        lines.append(f"expected {name!r}: {_shown(pins)}")
        lines += [
            f"    ours {other!r}: {_shown(found & pins)}"
            + (f"  and also {_shown(found - pins)}" if found - pins else "")
            for other, found in only_ours
            if found & pins
        ]
    joined = {pin for _, pins in only_theirs for pin in pins}
    lines += [f"only ours {name!r}: {_shown(pins)}" for name, pins in only_ours.elements() if not pins & joined]
    return lines
