"""What the trade knows: connector families, contacts, signal names, colours and wire, each figure with its source.

All of it stands in the CSV files of `data`; a module reads its table once, when it is first asked.
"""

from tabside.facts.tables import tables_version

__all__ = ["tables_version"]
