"""Writing the marks of leads and cables back into the drawing, and nothing else.

`wanted` says which field of which symbol gets what, `tree` makes that of a file's tree, `writers` make the new text,
and `stamping` keeps the old file until the new one is proven.
"""

from tabside.stamping.stamping import Stamped, stamp
from tabside.stamping.wanted import NotStamped

__all__ = ["NotStamped", "Stamped", "stamp"]
