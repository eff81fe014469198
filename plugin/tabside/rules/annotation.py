"""Symbols that KiCad itself would drop or merge in silence, and fields that cannot be read."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.model.craft import Craft, Oddity
from tabside.model.findings import Finding, Severity, Where
from tabside.rules.rule import check

_FIX = {
    "not-annotated": "Annotate the schematic in KiCad (Tools, Annotate Schematic).",
    "reference-duplicate": "Give each symbol a reference of its own: annotate the schematic in KiCad.",
    "view": "Say what is missing, or write Signals by contact number; until then its contacts are not checked.",
    "craft-file": "Give the file that name, or take it away; until then nothing that it says is known.",
    "field": "Correct this field; until then it is ignored.",
    "field-name": "Correct the field's name; until then Tabside does not read it.",
    "field-unread": "Take the field away, and say it where it is read: in Takes and Gives, or on the wire.",
    "contradiction": "Look at the real part, and correct the one that is wrong; until then no left and right is given "
    "for this plug.",
    "two-ways-round": "Look at the real parts, and correct the one that is wrong; until then no left and right is "
    "given for these plugs.",
    "copied": "Empty the field Lead marks of the copy.",
}

# What a drawing says less clearly for want of these is how a plug looks or a lead is cut, not what meets what.
_ABOUT_THE_PLUG = ("entry", "tabs", "contact 1", "leads max")
_ABOUT_THE_LEAD = ("gauge", "length", "lead marks", "cable mark")
_MILD_FIELDS = frozenset((*_ABOUT_THE_PLUG, *_ABOUT_THE_LEAD))
_MILD = frozenset(("craft-file", "view", "copied", "field-name", "field-unread", "contradiction", "two-ways-round"))
_RULE = {
    "craft-file": "field-unclear",
    "field": "field-unclear",
    "copied": "field-unclear",
    "field-name": "field-unclear",
    "field-unread": "field-unclear",
    "contradiction": "fields-contradict",
    "two-ways-round": "fields-contradict",
    "view": "view-unknown",
}


@check(
    "not-annotated",
    "reference-duplicate",
    "field-unclear",
    "fields-contradict",
    "view-unknown",
    severity=Severity.ERROR,
    may_be_accepted=False,
)
def annotation(judgement: Judgement) -> Iterator[Finding]:
    """Every symbol has a reference of its own, and every field can be read and fits the rest.

    KiCad leaves a symbol without a number out of its netlist, and merges two of one number silently: the
    craft is then built from less than was drawn. A field that cannot be read says nothing, and what it was to say
    is not checked.  Example: J? beside a placed plug; two symbols J3; Takes "5Q".

    Fix: annotate the schematic in KiCad, or correct the field as the finding says.
    Accept: never: the drawing itself is unclear.
    Warns: names copied as one side of the plug shows them (Seen from), where the drawing does not say at which end
    contact 1 is; Tabs "left"; a field Signal (Signals is meant) or Takes (V); Rating at a connector; facts about one
    plug that cannot both be true (fields-contradict): Contact 1 or Entry against the footprint, Entry side with Tabs
    near, Signals against the symbol's pin names, Family against the footprint, two board connectors of one family that
    turn its one plug round.
    Fails: J? (KiCad leaves it out of its netlist), two symbols J3 (KiCad merges them), Takes "5Q", Level max "low".
    Source: KiCad's netlist.
    """
    for oddity in judgement.craft.oddities:
        yield _finding(judgement.craft, oddity)


def _is_mild(oddity: Oddity) -> bool:
    return oddity.what in _MILD or oddity.field in _MILD_FIELDS


def _finding(craft: Craft, oddity: Oddity) -> Finding:
    termination = craft.terminations.get(oddity.reference)
    where = Where(
        board=termination.board if termination else None,
        termination=oddity.reference or None,
        place=oddity.place,
    )
    return Finding(
        rule=_RULE.get(oddity.what, oddity.what),
        severity=Severity.WARNING if _is_mild(oddity) else Severity.ERROR,
        message=oddity.message,
        fix=_FIX.get(oddity.what, "Correct the drawing."),
        where=(where,),
        harm=harm.CANNOT_BE_BUILT,
    )
