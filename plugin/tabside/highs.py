"""The one door to HiGHS, an exact solver of linear and whole-number programs.

HiGHS and the numpy it brings are loaded only when something is solved: that takes as long as a whole check.
One thread and a fixed seed: the same question has the same answer on every machine.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import highspy


class Row(NamedTuple):
    """A condition: the sum of amount times value over its columns lies between `least` and `most`."""

    least: float
    most: float
    amounts: Mapping[int, float]  # by column


class Solution(NamedTuple):
    values: tuple[float, ...]  # of the columns
    optimal: bool
    bound: float  # nothing costs less than this


def least_cost(
    costs: Sequence[float], limits: Sequence[float], rows: Sequence[Row], *, whole: bool, seconds: float
) -> Solution | None:
    """Values from zero to the column's limit that cost least under the rows; `whole`: whole numbers only.

    When `seconds` run out, the best found so far.  None: there is no solution, or none was found in time.
    """
    import highspy

    solver = _silent_solver()
    solver.setOptionValue("time_limit", seconds)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("solver", "choose" if whole else "simplex")
    solver.passModel(_program(costs, limits, rows, whole=whole))
    solver.run()
    info = solver.getInfo()
    optimal = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    feasible = info.primal_solution_status == int(highspy.SolutionStatus.kSolutionStatusFeasible)
    if not optimal and not (whole and feasible):
        return None
    values = tuple(solver.getSolution().col_value)
    return Solution(values, optimal, info.objective_function_value if optimal else info.mip_dual_bound)


def best_pairs(worth: Sequence[Sequence[float]]) -> list[tuple[int, int]]:
    """One column for each row, or one row for each column when those are fewer: the pairs worth most together."""
    if not worth or not worth[0]:
        return []
    height, width = len(worth), len(worth[0])
    costs = [-value for row in worth for value in row]
    in_rows = [{r * width + c: 1.0 for c in range(width)} for r in range(height)]
    in_columns = [{r * width + c: 1.0 for r in range(height)} for c in range(width)]
    least_row, least_column = (1.0, 0.0) if height <= width else (0.0, 1.0)
    rows = [Row(least_row, 1.0, amounts) for amounts in in_rows]
    rows += [Row(least_column, 1.0, amounts) for amounts in in_columns]
    # The corners of this program are whole, and the simplex method ends in a corner.
    solved = least_cost(costs, [1.0] * len(costs), rows, whole=False, seconds=float("inf"))
    assert solved is not None, "any pairing of rows with columns is a solution"
    return [divmod(at, width) for at, value in enumerate(solved.values) if value > 0.5]


def _program(costs: Sequence[float], limits: Sequence[float], rows: Sequence[Row], *, whole: bool) -> highspy.HighsLp:
    import highspy

    program = highspy.HighsLp()
    program.num_col_, program.num_row_ = len(costs), len(rows)
    program.col_cost_ = list(costs)
    program.col_lower_, program.col_upper_ = [0.0] * len(costs), list(limits)
    program.row_lower_, program.row_upper_ = [row.least for row in rows], [row.most for row in rows]
    starts = [0]
    for row in rows:
        starts.append(starts[-1] + len(row.amounts))
    matrix = program.a_matrix_
    matrix.format_ = highspy.MatrixFormat.kRowwise
    matrix.num_col_, matrix.num_row_ = len(costs), len(rows)
    matrix.start_ = starts
    matrix.index_ = [column for row in rows for column in row.amounts]
    matrix.value_ = [amount for row in rows for amount in row.amounts.values()]
    if whole:
        program.integrality_ = [highspy.HighsVarType.kInteger] * len(costs)
    return program


def _silent_solver() -> highspy.Highs:
    import highspy

    class SilentHighs(highspy.Highs):
        def __init__(self) -> None:
            # Past `Highs`: what it adds are callbacks, and to set them prints a banner on standard output.
            super(highspy.Highs, self).__init__()
            self.setOptionValue("output_flag", False)
            self.setOptionValue("threads", 1)
            self.setOptionValue("parallel", "off")
            self.setOptionValue("random_seed", 0)

    return SilentHighs()
