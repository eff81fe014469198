#!/usr/bin/env python3
"""Times `tabside check` and `tabside export` of the demo boat against KiCad's ERC of the same file, in pairs.

    python -m compileall -q plugin exporters
    python tests/benchmarks/commands_against_kicad.py [--runs 9]

Whole processes: ours and KiCad's take turns, so that what else the machine does meets both.  Prints the median of each
and of the ratio of each pair, by the clock and in seconds of the processor, of which other work takes less.  Python's
compiled files are kept between runs, as they are for a user.  Not a test.
"""

from __future__ import annotations

import argparse
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

BOAT = Path(__file__).parents[2] / "fixtures" / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"


class Seconds(NamedTuple):
    clock: float
    processor: float  # of all its threads, system calls included


def seconds(command: list[str]) -> Seconds:
    start, used = time.perf_counter(), processor_seconds()
    subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    return Seconds(time.perf_counter() - start, processor_seconds() - used)


def processor_seconds() -> float:
    """Of all processes that were waited for."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--runs", type=int, default=9)
    runs = arguments.parse_args().runs
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    tabside = str(Path(sys.executable).with_name("tabside"))
    with tempfile.TemporaryDirectory() as folder:
        erc = ["kicad-cli", "sch", "erc", str(BOAT), "-o", str(Path(folder) / "erc.rpt")]
        ours = {
            "check": [tabside, "check", str(BOAT)],
            "export": [tabside, "export", str(BOAT), "--to", str(Path(folder) / "out")],
        }
        for name, command in ours.items():
            seconds(command), seconds(erc)  # the first of each fills the system's caches
            pairs = [(seconds(command), seconds(erc)) for _ in range(runs)]
            for what in Seconds._fields:
                times = [(getattr(a, what), getattr(b, what)) for a, b in pairs]
                mine, kicads = (statistics.median(some) for some in zip(*times, strict=True))
                ratio = statistics.median(a / b for a, b in times)
                print(f"{name}, {what}: {mine:.3f} s, ERC {kicads:.3f} s, ratio {ratio:.2f}", flush=True)


if __name__ == "__main__":
    main()
