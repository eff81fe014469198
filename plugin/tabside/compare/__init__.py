"""Two revisions of a build: what changed, and what that means on the bench."""

from tabside.compare.comparison import Comparison, compare_crafts

__all__ = ["Comparison", "compare_crafts"]
