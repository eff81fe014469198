#!/usr/bin/env python3
"""Times `tabside check` and `tabside export` of the demo boat against KiCad's ERC of the same file, in pairs.

    python -m compileall -q plugin exporters
    python tests/benchmarks/commands_against_kicad.py [--runs 9]

Whole processes: ours and KiCad's take turns, so that what else the machine does meets both.  Prints the median of each
and of the ratio of each pair.  Not a test.
"""

from __future__ import annotations

import argparse
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

BOAT = Path(__file__).parents[2] / "fixtures" / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"


def seconds(command: list[str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    return time.perf_counter() - start


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--runs", type=int, default=9)
    runs = arguments.parse_args().runs
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
            mine, kicads = (statistics.median(times) for times in zip(*pairs, strict=True))
            ratio = statistics.median(a / b for a, b in pairs)
            print(f"{name}: {mine:.3f} s, ERC {kicads:.3f} s, ratio {ratio:.2f}", flush=True)


if __name__ == "__main__":
    main()
