#!/usr/bin/env python3
"""Times `tabside check` and `tabside nets`, as whole processes, on drawn crafts of growing size.

    python tests/benchmarks/checks_of_grown_crafts.py [--runs 5] [--leads 10 30 100 1000 10000]

A craft is a chain of hubs; each hub has five devices on a port of four leads (5V, TX, RX, GND), supplies and ground as
power symbols over the whole craft.  Prints the median wall-clock time of each size and the time for each lead above a
bare start, so that growth faster than the craft shows.  Not a test.
"""

from __future__ import annotations

import argparse
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "kits"))

from drawing.drawn_crafts import Drawn, Join, craft_drawing, join, termination

DEVICES = 5
PORT = 4


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--runs", type=int, default=5)
    arguments.add_argument("--leads", type=int, nargs="+", default=[10, 30, 100, 1000, 10_000])
    chosen = arguments.parse_args()
    tabside = str(Path(sys.executable).with_name("tabside"))
    bare = median_of([sys.executable, "-c", "pass"], chosen.runs)
    print(f"a bare start of Python takes {bare:.3f} s")
    print(f"{'leads':>6} {'nets s':>8} {'check s':>8} {'check, ms a lead above a bare start':>36}")
    with tempfile.TemporaryDirectory() as folder:
        for leads in chosen.leads:
            root = grown_craft(leads).write(Path(folder) / str(leads))
            nets = median_of([tabside, "nets", str(root), "--json"], chosen.runs)
            check = median_of([tabside, "check", str(root), "--json"], chosen.runs)
            print(f"{leads:6d} {nets:8.3f} {check:8.3f} {(check - bare) / leads * 1000:36.3f}", flush=True)


def median_of(command: list[str], runs: int) -> float:
    """Median wall-clock seconds; the first run only fills the system's caches."""
    times = []
    for _ in range(runs + 1):
        start = time.perf_counter()
        ended = subprocess.run(command, stdout=subprocess.DEVNULL, check=False)
        times.append(time.perf_counter() - start)
        if ended.returncode:
            sys.exit(f"{' '.join(command)} ended with {ended.returncode}")
    return statistics.median(times[1:])


def grown_craft(leads: int) -> object:
    """A drawing of about so many leads."""
    boards: dict[str, list[Drawn]] = {}
    joins: list[Join] = []
    grounds: list[str] = []
    fives: list[str] = []
    ports = max(1, round(leads / PORT))
    for port in range(ports):
        hub, device = f"hub {port // DEVICES}", f"device {port}"
        near, far = f"J{2 * port + 1}", f"J{2 * port + 2}"
        boards.setdefault(hub, []).append(termination(near, "5V TX RX GND", family="JST GH", gives="5V 2A"))
        boards[device] = [termination(far, "5V TX RX GND", family="JST GH", takes="5V 0.1A")]
        joins += [
            join(f"{near}:2 {far}:3", by="local", name=f"A{port}"),
            join(f"{near}:3 {far}:2", by="local", name=f"B{port}"),
            join(f"{near}:1 {far}:1", by="power", name=f"+5V_{port // DEVICES}"),
        ]
        fives += [f"{near}:1", f"{far}:1"]
        grounds += [f"{near}:4", f"{far}:4"]
    hubs = (ports - 1) // DEVICES + 1
    for hub in range(hubs - 1):  # the chain: a link of three leads between neighbours
        near, far = f"J{2 * ports + 2 * hub + 1}", f"J{2 * ports + 2 * hub + 2}"
        boards[f"hub {hub}"].append(termination(near, "CANH CANL GND", family="JST SH"))
        boards[f"hub {hub + 1}"].append(termination(far, "CANH CANL GND", family="JST SH"))
        joins += [join(f"{near}:{k} {far}:{k}", by="local", name=f"C{hub}_{k}") for k in (1, 2)]
        grounds += [f"{near}:3", f"{far}:3"]
    joins.append(join(" ".join(grounds), by="power", name="GND"))
    return craft_drawing(boards, joins, name="grown")


if __name__ == "__main__":
    main()
