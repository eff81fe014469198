"""Nets and families as tables for a person at a terminal."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tabside.cli.printing.paragraphs import filled
from tabside.cli.width import WIDTH
from tabside.words.contacts import counted
from tabside.words.visible_text import visible


def print_nets(answer: dict[str, Any]) -> None:
    """One net a paragraph: its name, then its pins."""
    for net in answer["nets"]:
        print(visible(net["name"]))
        pins = " ".join(f"{reference}.{pin}" for reference, pin in net["pins"])
        print(filled(pins, "  "))
    print(counted(len(answer["nets"]), "net"))


LEGEND = """\
Pitch in mm.  Ways: sizes by number of contacts; 2-16*: some are missing.
A: rated amperes of one contact (at this wire size).  AWG: wire that fits it.
Sources, of the rating and of the wire; - or ?: not known."""
GRADES = """\
Grades of a source: A read in the document, B quoted from the document, C trade
page, K KiCad's footprint library, CP common practice, MEM from memory."""


def print_families(only: Sequence[str]) -> None:
    """All families as one table, or those asked for with everything that is known and its sources.

    What names several (`jst`) is listed like all.
    """
    from tabulate import tabulate

    from tabside.cli.printing import families_view

    one = [text for text in only if not families_view.members(text)]
    details = families_view.details(one) if one else []
    several = [id for text in only for id in families_view.members(text)]
    for rows in details:
        print(tabulate(rows, tablefmt="plain", disable_numparse=True, maxcolwidths=[None, WIDTH - 26]))
        print()
    if several or not only:
        print(tabulate(families_view.narrow_rows(several), headers="keys", tablefmt="simple", disable_numparse=True))
        print("\n" + LEGEND)
        print(GRADES)
        print("\n`tabside families NAME` shows one family with part numbers and sources.")
