"""Compares stock matches of real size with Debian's python3-scipy.

Usage: assign_oracle.py PROGRAM. Fails, never skips, when python3-scipy is missing.
For every window one cell value wide less than the program's spread, scipy's linear_sum_assignment
must find no assignment at all; of the windows just as wide, the cheapest must cost what the
program's choice costs.
"""
import random
import subprocess
import sys

import numpy
from scipy.optimize import linear_sum_assignment
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import maximum_bipartite_matching

chance = random.Random(1987)


def problem(rows, columns, width, usable):
    values = [[chance.randint(-width, width) if chance.random() < usable else None
               for _ in range(columns)] for _ in range(rows)]
    return values


def shop(rows, columns):
    """Heads and shafts whose weights add up, as swingweights do: rows differ by little more than
    a shift, which makes long alternating paths."""
    heads = [chance.randint(-300, 300) for _ in range(rows)]
    shafts = [chance.randint(-300, 300) for _ in range(columns)]
    return [[head + shaft + chance.randint(0, 3) for shaft in shafts] for head in heads]


def least(values, rows, low, high, centre2):
    """Least four-fold sum of squares inside a window, None where there is no assignment."""
    inside = (values >= low) & (values <= high)
    if not inside[rows].any(axis=1).all():
        return None
    cost = numpy.where(inside, (2 * values - centre2) ** 2, numpy.inf)[rows]
    try:
        picked = linear_sum_assignment(cost)
    except ValueError:
        return None
    return int(cost[picked].sum())


def wrong(values, middle, answer):
    """What is wrong with the program's answer, None if nothing is."""
    numbers = [int(word) for word in answer.split()]
    low, high, squares4 = numbers[:3]
    columns = numbers[3:]
    usable = numpy.array([[value is not None for value in row] for row in values])
    # Far beyond every window where no value is.
    array = numpy.array([[10**8 if value is None else value for value in row] for row in values],
                        dtype=float)
    rows = [row for row, column in enumerate(columns) if column >= 0]
    most = (maximum_bipartite_matching(csr_matrix(usable), perm_type="column") >= 0).sum()
    if len(rows) != most:
        return f"{len(rows)} rows matched, {most} can be"
    if not rows:
        return None
    chosen = [array[row, columns[row]] for row in rows]
    if (min(chosen), max(chosen)) != (low, high) or len({columns[row] for row in rows}) != len(rows):
        return "the choice does not have the spread it claims, or uses a column twice"
    spread = high - low
    costs = []
    for start in numpy.unique(array[rows][usable[rows]]):
        if least(array, rows, start, start + spread - 1, 0) is not None:
            return f"a spread below {spread} is possible from {start}"
        cost = least(array, rows, start, start + spread, 2 * start + spread if middle else 0)
        if cost is not None:
            costs.append(cost)
    if min(costs) != squares4:
        return f"squares {squares4}, scipy {min(costs)}"
    return None


problems = []
for number in range(120):
    if number % 3 == 0:
        values = shop(14, 60)
    else:
        values = problem(chance.randint(6, 14), chance.randint(12, 80),
                         chance.choice((3, 30, 300)), chance.choice((1, 0.5, 0.12)))
    problems.append((values, number % 2))
for number in range(4):
    problems.append((problem(14, 500, 200, 0.2) if number < 2 else shop(14, 500), number % 2))

lines = []
for values, middle in problems:
    lines.append(f"{len(values)} {len(values[0])} {middle}")
    lines.extend(" ".join("-" if value is None else str(value) for value in row) for row in values)
answers = subprocess.run([sys.argv[1]], input="\n".join(lines) + "\n", capture_output=True,
                         text=True, check=True).stdout.splitlines()
if len(answers) != len(problems):
    sys.exit(f"{len(answers)} answers to {len(problems)} problems")
bad = 0
for (values, middle), answer in zip(problems, answers):
    fault = wrong(values, middle, answer)
    if fault is not None:
        print(f"{len(values)} rows, {len(values[0])} columns: {fault}")
        bad += 1
print(f"{len(problems)} matches compared with scipy, {bad} differ")
sys.exit(1 if bad else 0)
