"""Boards that the drawing names: which came, which went, and which goes in place of another one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from tabside.compare.changes.change import ADDED, CHANGED, REMOVED, Change
from tabside.compare.changes.terminations import NO_PLUG
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.other_boards import Exchanged
from tabside.compare.side import is_loose
from tabside.model.natural import natural


def boards_now(rebuild: Rebuild) -> Mapping[str, str | None]:
    """Old board -> the new board that most of its terminations are on; None when it has gone."""
    old, new, matching = rebuild
    votes: dict[str, Counter[str]] = {}
    for reference, termination in old.terminations.items():
        if is_loose(termination):
            continue
        counter = votes.setdefault(termination.board, Counter())
        if reference in matching.pairs:
            counter[new.terminations[matching.pairs[reference]].board] += 1
    return {
        board: min(counter, key=lambda name: (-counter[name], natural(name))) if counter else None
        for board, counter in votes.items()
    }


def _with_sheets(exchanged: Exchanged) -> frozenset[str]:
    """Boards that sheets of the order of work take out, by the names that they had."""
    return frozenset(other.was for other in exchanged.boards) | exchanged.parts | exchanged.packs


def changes_of_boards(rebuild: Rebuild, boards: Mapping[str, str | None], exchanged: Exchanged) -> Iterator[Change]:
    """Of boards that the drawing names; those named after a reference only are told as terminations."""
    old, new = rebuild.old, rebuild.new
    with_sheets = _with_sheets(exchanged)
    for board in sorted(old.boards, key=natural):
        now = boards.get(board)
        if now is None:
            plugs = any(place.board == board and place.takes_plug for place in old.terminations.values())
            bench = "Unplug it; its cables are listed below." if plugs else NO_PLUG
            yield Change(REMOVED, "board", board, board, None, bench)
        elif now != board and now in new.boards:
            bench = f"Fit {now} in place of {board}: find contact 1 on it, and do what is listed below before power."
            bench = bench if board in with_sheets else _by_name_alone(board, now)
            yield Change(CHANGED, "board", now, board, now, bench, now)
    came = new.boards - {now for now in boards.values() if now is not None}
    for board in sorted(came, key=natural):
        yield Change(ADDED, "board", board, None, board, "Fit it: find contact 1 on each of its connectors.")


def _by_name_alone(board: str, now: str) -> str:
    """Of one whose connectors are the same: whether it is another one, the drawing does not say."""
    return (
        f"See which it is. If the same board only has another name now, leave it in. If {now} is another board, what "
        "is listed below does not put it in: all power out and packs off first (one without a plug: fuse out, plus "
        f"off before minus, each end taped at once); then every plug and wire off {board}, and onto {now} by the "
        "names printed there, a pack's last of all; then the whole continuity sheet of the new drawing, before power."
    )
