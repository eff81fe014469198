"""What each command does.  Each returns the exit status."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

from tabside.cli.patience import working
from tabside.words.visible_text import visible

if TYPE_CHECKING:  # what a command needs it loads itself: `nets` needs no craft and no findings
    from argparse import Namespace

    from tabside.analysis.judgement import Judgement
    from tabside.model.drawing import Drawing
    from tabside.model.findings import Verdict


def nets(arguments: Namespace) -> int:
    from tabside.read import read_nets
    from tabside.read.nets.nets_json import nets_json

    with working(f"reading {arguments.root}"):
        drawing = read_nets(arguments.root, kicad=arguments.kicad, variant=arguments.variant)
        answer = nets_json(drawing)
    _warn(drawing.warnings)
    _warn(tuple(f"{reading.place.file}: {reading.words}" for reading in drawing.two_readings))
    if arguments.json:
        _print_json(answer)
    else:
        from tabside.cli.printing.listing import print_nets

        print_nets(answer)
    return 0


def check(arguments: Namespace) -> int:
    judgement, verdict = _checked(arguments)
    craft = judgement.craft
    if arguments.json:
        from tabside.documents.as_json.verdict import verdict_json

        _print_json(verdict_json(craft, verdict))
    else:
        from tabside.cli.printing.report import print_verdict

        print_verdict(craft, verdict)
    return _status(verdict, arguments.fail_on)


def export(arguments: Namespace) -> int:
    from tabside.craft_reading import craft_file_beside
    from tabside.documents.build import craft_build
    from tabside.documents.dated import dated
    from tabside.documents.writing.export import export_documents
    from tabside.read.kicad.lock import asked_by_button, on_screen
    from tabside.read.kicad.saved import saved_at

    drawing, judgement, verdict = _read_and_checked(arguments)
    craft = judgement.craft
    with working("making the documents"):
        sheets = [file for file, _ in drawing.files]
        seen = on_screen(arguments.root, sheets)
        fresh = (
            dated(arguments.root, drawing.files, arguments.to, craft.drawing_hash, seen) if asked_by_button() else None
        )
        saved = saved_at(arguments.root, sheets, craft_file_beside(arguments.root))
        build = craft_build(
            craft,
            verdict,
            judgement=judgement,
            saved_at=saved,
            on_screen=seen,
            dated=fresh,
        )
        result = export_documents(
            build,
            arguments.to,
            only=_words(arguments.only),
            formats=_words(arguments.formats),
        )
    _warn(result.remarks)
    if arguments.json:
        _print_json(result.as_json())
    else:
        from tabside.cli.printing.report import print_export

        print_export(craft, verdict, result.files, arguments.to)
    return _status(verdict, arguments.fail_on)


def compare(arguments: Namespace) -> int:
    """Exit status: 0 the same build, 1 it differs."""
    from tabside.cli.compare_command import compared, run

    with working("comparing"):
        comparison = compared(arguments)
    answer = run(arguments, comparison)
    if answer is not None:
        _print_json(answer)
    return int(not comparison.same)


def plan(arguments: Namespace) -> int:
    from tabside.documents.build import craft_build
    from tabside.errors import TabsideError
    from tabside.model.natural import natural

    judgement, verdict = _checked(arguments)
    craft = judgement.craft
    with working("choosing how each cable is made"):
        build = craft_build(craft, verdict, judgement=judgement)
        cables = build.plan.cables
    if arguments.cable is not None:
        labels = sorted((cable.label for cable in cables), key=natural)
        asked = arguments.cable.upper()
        cables = tuple(cable for cable in cables if asked in (cable.label, *cable.label.split()))
        if not cables:
            raise TabsideError(f'there is no cable "{arguments.cable}"; there are {", ".join(labels)}')
    if arguments.json:
        from tabside.documents.as_json.plan import plan_json

        _print_json(plan_json(cables, cleared=build.cleared))
    else:
        from tabside.cli.printing.plan_report import print_plan

        print_plan(build, cables)
    return int(build.errors > 0)


def diagnose(arguments: Namespace) -> int:
    """Exit status: 0 something explains the readings, 1 nothing does."""
    from tabside.cli.diagnose_command import diagnosed, diagnosis_json, print_diagnosis
    from tabside.documents.build import craft_build

    judgement, verdict = _checked(arguments)
    craft = judgement.craft
    with working("looking for what explains the readings"):
        proof = craft_build(craft, verdict, judgement=judgement).proof
        diagnosis = diagnosed(proof, arguments)
    if arguments.json:
        _print_json(diagnosis_json(proof, diagnosis))
    else:
        print_diagnosis(proof, diagnosis)
    return int(diagnosis.is_unexplained)


def families(arguments: Namespace) -> int:
    from tabside.cli.printing import families_view

    if arguments.json:
        _print_json(families_view.families_json(arguments.family))
    else:
        from tabside.cli.printing.listing import print_families

        print_families(arguments.family)
    return 0


def explain(arguments: Namespace) -> int:
    if arguments.json:
        from tabside.documents.explanation import explain_json

        _print_json(explain_json(arguments.rule))
    else:
        from tabside.cli.explain_command import print_explanation

        print_explanation(arguments.rule)
    return 0


def manual(arguments: Namespace) -> int:
    from tabside.cli.manual_command import run

    answer = run(arguments)
    if arguments.json:
        _print_json(answer)
    return 0


def watch(arguments: Namespace) -> int:
    from tabside.cli.watch_command import run

    return run(arguments)


def stamp(arguments: Namespace) -> int:
    from tabside.stamping import stamp as write_marks

    with working("writing the marks"):
        stamped = write_marks(
            arguments.root, dry_run=arguments.dry_run, kicad=arguments.kicad, variant=arguments.variant
        )
    if arguments.json:
        _print_json({**stamped.as_json(), "done": not arguments.dry_run})
    else:
        from tabside.cli.printing.stamp_report import print_stamped

        print_stamped(stamped, done=not arguments.dry_run)
    return 0


def boards(arguments: Namespace) -> int:
    from tabside.cli.boards_command import run

    return run(arguments)


def kicad(arguments: Namespace) -> int:
    from tabside.cli.kicad_command import run

    return run(arguments)


def _checked(arguments: Namespace) -> tuple[Judgement, Verdict]:
    _, judgement, verdict = _read_and_checked(arguments)
    return judgement, verdict


def _read_and_checked(arguments: Namespace) -> tuple[Drawing, Judgement, Verdict]:
    from tabside.light_loading import load_msgspec

    load_msgspec()
    from tabside.analysis.judgement import Judgement
    from tabside.craft_reading import craft_of
    from tabside.read import read_drawing
    from tabside.read.kicad.lock import unsaved_warning
    from tabside.rules import check_judgement

    with working(f"reading {arguments.root}"):
        drawing = read_drawing(arguments.root, kicad=arguments.kicad, variant=arguments.variant)
    _warn(drawing.warnings)
    _warn(unsaved_warning(arguments.root, [file for file, _ in drawing.files]))
    with working("checking"):
        judgement = Judgement(craft_of(drawing, arguments.root))
        return drawing, judgement, check_judgement(judgement)


def _status(verdict: Verdict, fail_on: str) -> int:
    """1 when a finding that is not accepted is at least as severe as `fail_on`."""
    if fail_on == "never":
        return 0
    from tabside.model.findings import Severity

    bar = Severity(fail_on).rank
    return int(any(verdict.count(severity) for severity in Severity if severity.rank <= bar))


def _words(text: str | None) -> list[str] | None:
    return None if text is None else [word.strip() for word in text.split(",") if word.strip()]


def _warn(warnings: tuple[str, ...]) -> None:
    for warning in warnings:
        print(f"tabside: warning: {visible(warning)}", file=sys.stderr)


def _print_json(answer: dict[str, Any]) -> None:
    import json

    print(json.dumps(answer, indent=1))
