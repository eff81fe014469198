#!/usr/bin/env python3
"""Times `tabside nets` against KiCad's netlist export, as whole processes in pairs on the same drawing.

    python tests/benchmarks/nets_against_kicad.py [--runs 5] [--processor] [--folder /usr/share/kicad/demos] [WORD ...]

A drawing is a root schematic: a .kicad_sch with a .kicad_pro of the same stem, found below the folder; with words, only
those whose path holds one of them.  Prints, for each, the median wall-clock time (`--processor`: time of the processor,
which other jobs on the machine disturb less) and the peak memory of both, and their
ratios; last the median and the largest ratio.  Python's compiled files are kept between runs, as they are for a user
(PYTHONDONTWRITEBYTECODE is taken away unless --as-is).  Not a test: it fails only when one of the two commands does.
"""

from __future__ import annotations

import argparse
import os
import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path

DEMOS = "/usr/share/kicad/demos"


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("words", nargs="*", help="only drawings whose path holds one of these")
    arguments.add_argument("--folder", type=Path, default=Path(DEMOS))
    arguments.add_argument("--runs", type=int, default=5, help="pairs of runs for each drawing; the median counts")
    arguments.add_argument("--processor", action="store_true", help="user and system time in place of the clock's")
    arguments.add_argument("--as-is", action="store_true", help="leave the environment as it is")
    chosen = arguments.parse_args()
    if not chosen.as_is:
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    kicad = shutil.which("kicad-cli")
    tabside = str(Path(sys.executable).with_name("tabside"))
    if kicad is None or not os.access(tabside, os.X_OK):
        sys.exit("kicad-cli is not on the path, or tabside is not installed beside this Python")
    roots = [
        path
        for path in sorted(chosen.folder.rglob("*.kicad_sch"))
        if path.with_suffix(".kicad_pro").exists() and (not chosen.words or any(w in str(path) for w in chosen.words))
    ]
    if not roots:
        sys.exit(f"no drawing found below {chosen.folder}")
    print(f"{'drawing':34} {'tabside':>9} {'kicad':>9} {'ratio':>6} {'tabside':>9} {'kicad':>9} {'ratio':>6}")
    rows = [row for root in roots if (row := compared(root, tabside, kicad, chosen))]
    for index, what in enumerate(("time", "memory")):
        ratios = [row[index] for row in rows]
        print(f"{what} of tabside to kicad: median {statistics.median(ratios):.2f}, largest {max(ratios):.2f}")


def compared(root: Path, tabside: str, kicad: str, chosen: argparse.Namespace) -> tuple[float, float]:
    """Prints the drawing's line.  Returns the ratios of time and of peak memory."""
    ours: list[tuple[float, float]] = []
    theirs: list[tuple[float, float]] = []
    with tempfile.TemporaryDirectory() as folder:
        netlist = [kicad, "sch", "export", "netlist", "--format", "kicadxml", "-o", f"{folder}/netlist.xml", str(root)]
        for run in range(chosen.runs + 1):
            commands = ([tabside, "nets", str(root), "--json"], netlist)
            pair = [measured(command, processor=chosen.processor) for command in commands]
            if run:  # the first pair only fills the system's caches
                ours.append(pair[0])
                theirs.append(pair[1])
    (time_a, memory_a), (time_b, memory_b) = (
        (statistics.median(t for t, _ in some), statistics.median(m for _, m in some)) for some in (ours, theirs)
    )
    print(
        f"{root.stem[:34]:34} {time_a:7.3f} s {time_b:7.3f} s {time_a / time_b:6.2f}"
        f" {memory_a:6.0f} MB {memory_b:6.0f} MB {memory_a / memory_b:6.2f}",
        flush=True,
    )
    return (time_a / time_b, memory_a / memory_b)


def measured(command: list[str], *, processor: bool) -> tuple[float, float]:
    """Seconds, of the processor or by the clock, and peak memory in MB of one run; output goes nowhere."""
    nowhere = [(os.POSIX_SPAWN_OPEN, fd, os.devnull, os.O_WRONLY, 0) for fd in (1, 2)]
    start = time.perf_counter()
    process = os.posix_spawn(command[0], command, os.environ, file_actions=nowhere)
    _, status, usage = os.wait4(process, 0)
    seconds = usage.ru_utime + usage.ru_stime if processor else time.perf_counter() - start
    if status != 0:
        sys.exit(f"{' '.join(command)} failed with exit status {os.waitstatus_to_exitcode(status)}")
    return (seconds, usage.ru_maxrss / (1024 if sys.platform != "darwin" else 1024 * 1024))


if __name__ == "__main__":
    main()
