"""Two revisions of a build: what changed, and what that means on the bench."""

from tabside.compare.comparing import compare_crafts
from tabside.compare.comparison import Comparison

__all__ = ["Comparison", "compare_crafts"]
