"""Tabside: checks the wiring schematic of a craft and works out how each cable is made.

Data flows in one direction: read, wiring, analysis, rules, make and prove, documents; exporters write the pages.
"""

__version__ = "0.2.0"
