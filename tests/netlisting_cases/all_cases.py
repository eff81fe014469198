"""All cases, in the order of their subjects."""

from __future__ import annotations

from .buses import BUSES
from .case import Case
from .hierarchy import HIERARCHY
from .labels import LABELS
from .names import NAMES
from .symbols import SYMBOLS
from .wires import WIRES

ALL_CASES: list[Case] = [*SYMBOLS, *WIRES, *LABELS, *BUSES, *HIERARCHY, *NAMES]
