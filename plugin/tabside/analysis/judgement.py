"""What is true of a craft, worked out once: what the single checks look at, and all that comes after them."""

from __future__ import annotations

from functools import cached_property

from tabside.analysis.causes.clashes import Clashes
from tabside.analysis.causes.end_causes import explain_ends
from tabside.analysis.causes.link_causes import Explained
from tabside.analysis.causes.name_clashes import NameClash, name_clashes
from tabside.analysis.flows.flow import Flows
from tabside.analysis.joined.joints import Joint
from tabside.analysis.joined.wired import Link
from tabside.analysis.meeting.agreement import Agreement


class Judgement(Clashes):
    """The uppermost layer: built once per command, and handed to rules, making and proving.

    Below lie `Clashes` (in `causes/`), `JudgedJoints` (`judging/`), `Meetings` (`meeting/`) and `Wired` (`joined/`).
    An analysis takes the lowest one that knows what it needs.
    """

    @cached_property
    def explained_ends(self) -> list[tuple[Link, Explained]]:
        """Ends with a single cause for clashes over several links, with the link that stands for them."""
        told = {joint for cause in self.explained.values() for joint in cause.joints}
        return list(explain_ends(self, {joint: found for joint, found in self.clashing.items() if joint not in told}))

    @cached_property
    def not_crossed(self) -> dict[Link, list[Joint]]:
        """Links that only do not cross their UART, and no end of which is wrong as a whole."""
        told = {joint for _, end in self.explained_ends for joint in end.joints}
        left = {link: [joint for joint in joints if joint not in told] for link, joints in self.only_crossing.items()}
        return {link: joints for link, joints in left.items() if joints}

    @cached_property
    def single_clashes(self) -> dict[Joint, Agreement]:
        """Clashes that no single cause explains."""
        told = {joint for cause in self.explained.values() for joint in cause.joints}
        told |= {joint for _, end in self.explained_ends for joint in end.joints}
        told |= {joint for joints in self.not_crossed.values() for joint in joints}
        return {joint: found for joint, found in self.clashing.items() if joint not in told}

    @cached_property
    def name_clashes(self) -> tuple[NameClash, ...]:
        """Rails' names that do not suit what their net joins."""
        return tuple(name_clashes(self))

    @cached_property
    def flows(self) -> Flows:
        """The currents that the drawing decides."""
        return Flows(self)
