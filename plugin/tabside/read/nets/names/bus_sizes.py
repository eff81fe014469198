"""How many members the buses of a drawing have, counted before a single one is made.

A range such as `A[0..99999]` is ten letters and a hundred thousand nets, an alias within an alias doubles at each step,
and a sheet that is used two hundred times has all of it two hundred times.
"""

from __future__ import annotations

from tabside.model.escapes import unescape
from tabside.read.kicad.labels import net_text
from tabside.read.nets.names.buses import BusRules, group_of, range_of

# Of the labels of a drawing taken together.  KiCad's largest demo project (vme-wren) has 9,253, a craft hardly any.
MOST_MEMBERS = 50_000


class BusSizes:
    """Counts the members of labels; each text is counted once."""

    def __init__(self, rules: BusRules) -> None:
        self._rules = rules
        self._known: dict[str, int] = {}

    def of(self, text: str) -> int:
        """The members that a label makes, those within members included; 0 for one net, `MOST_MEMBERS` and one for too
        many, endless ones among them.
        """
        if "[" not in text and "{" not in text:
            return 0
        if text not in self._known:
            self._known[text] = MOST_MEMBERS + 1  # so it stays for one that holds itself
            self._known[text] = min(self._count(unescape(text)), MOST_MEMBERS + 1)
        return self._known[text]

    def _count(self, text: str) -> int:
        found = range_of(text, self._rules.marks_stay)
        if found is not None:
            return found.last - found.first + 1
        group = group_of(text, self._rules.marks_stay)
        if group is None:
            return 0
        members = [net_text(member) for name in group[1] for member in self._rules.aliases.get(name, (name,))]
        return len(members) + sum(map(self.of, members))
