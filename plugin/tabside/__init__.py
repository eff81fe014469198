"""Tabside: proves a craft's wiring schematic and works out how each cable is made.

Data flows in one direction: read -> model -> wiring -> check -> plan -> export.
"""

__version__ = "0.2.0"
