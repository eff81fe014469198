"""The two builds of a comparison, with the places that are the same in both: nearly every step asks it."""

from __future__ import annotations

from typing import NamedTuple

from tabside.compare.matched.matching import Matching
from tabside.compare.side import Side


class Rebuild(NamedTuple):
    """The old build as it stands, the new one as it is drawn, and which place of the one is which of the other."""

    old: Side
    new: Side
    matching: Matching


class OfRebuild:
    """Whatever holds a rebuild, and is asked for its two sides."""

    rebuild: Rebuild

    @property
    def old(self) -> Side:
        return self.rebuild.old

    @property
    def new(self) -> Side:
        return self.rebuild.new

    @property
    def matching(self) -> Matching:
        return self.rebuild.matching
