"""All clashes of a craft, those that no lead shows among them, and the links on which one cause explains them."""

from __future__ import annotations

from functools import cached_property

from tabside.analysis.causes.hidden_clashes import hidden_clashes
from tabside.analysis.causes.link_causes import Explained, explain
from tabside.analysis.joined.joints import Joint
from tabside.analysis.joined.wired import Link
from tabside.analysis.judging.judged_joints import JudgedJoints
from tabside.analysis.meeting.agreement import Agreement, Cause
from tabside.model.craft import Contact, ContactKey


class Clashes(JudgedJoints):
    """The judged joints of a craft, with what clashes on their nets and what explains a link."""

    @cached_property
    def hidden_clashes(self) -> list[tuple[Contact, Contact, Agreement]]:
        """Clashes on one net between contacts that no lead joins directly, and that no other clash there tells of."""
        return list(hidden_clashes(self))

    @cached_property
    def misplaced(self) -> frozenset[ContactKey]:
        """Contacts that clash over a lead, or within their net."""
        over_leads = {contact.key for joint in self.clashing for contact in (joint.a, joint.b)}
        return frozenset(over_leads | {contact.key for a, b, _ in self.hidden_clashes for contact in (a, b)})

    @cached_property
    def clashing_runs(self) -> frozenset[int]:
        """Runs (over every in-line part) on which something clashes."""
        contacts = [contact for joint in self.clashing for contact in (joint.a, joint.b)]
        contacts += [a for a, _, _ in self.hidden_clashes]
        return frozenset(self.whole_runs[contact.net_id] for contact in contacts)

    @cached_property
    def _clashes_of_links(self) -> dict[Link, list[Joint]]:
        return {link: [joint for joint in joints if joint in self.clashing] for link, joints in self.links.items()}

    @cached_property
    def only_crossing(self) -> dict[Link, list[Joint]]:
        """Links whose clashes are all of UART lines that do not cross."""
        return {
            link: clashes
            for link, clashes in self._clashes_of_links.items()
            if clashes and all(self.clashing[joint].cause is Cause.CROSSING for joint in clashes)
        }

    @cached_property
    def explained(self) -> dict[Link, Explained]:
        """Links whose clashes have a single cause."""
        clashes = self._clashes_of_links
        found: dict[Link, Explained] = {}
        told: set[Joint] = set()
        # A connector read backwards may clash in several links: the one with most clashes speaks for the others.
        for link in sorted(clashes, key=lambda link: -len(clashes[link])):
            if link not in self.only_crossing and set(clashes[link]) - told:
                explained = explain(self, link, self.links[link])
                if explained is not None:
                    found[link] = explained
                    told.update(explained.joints)
        return found
