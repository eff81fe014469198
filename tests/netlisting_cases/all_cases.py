"""All cases, in the order of their subjects."""

from __future__ import annotations

from .case import Case
from .labels import LABELS
from .symbols import SYMBOLS
from .wires import WIRES

ALL_CASES: list[Case] = [*SYMBOLS, *WIRES, *LABELS]
