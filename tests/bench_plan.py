"""Measure plans on random sets: area used against rows and columns and against the lower bound.

    python tests/bench_plan.py

Each plan is checked too: pieces inside and apart, cuts from edge to edge. `--first` and `--sets` choose the
seeds; the sets from 10000 on have tuned the order of the rules, so they judge nothing.
"""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))


def main() -> None:
    """Print the figures."""
    from pycore.plan.make import make_plan
    from tests.pycore.plan.random_sets import check_plan, random_set

    options = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    options.add_argument("--sets", type=int, default=200)
    options.add_argument("--first", type=int, default=0)
    asked = options.parse_args()
    figures = []
    started = time.process_time()
    for seed in range(asked.first, asked.first + asked.sets):
        jobs, wanted = random_set(seed)
        plan = make_plan(jobs, options=wanted)
        check_plan(plan, jobs, gap_mm=wanted.gap_mm, knife_mm=wanted.knife_mm)
        figures.append((wanted.stocks[0].height_mm is None, plan.figures))
    spent = time.process_time() - started
    for name, kept in (("sheets", False), ("rolls", True)):
        some = [one for is_roll, one in figures if is_roll is kept]
        stock = sum(one.stock_m2 for one in some)
        print(
            f"{name:<7}{len(some):4} sets, {sum(one.pieces for one in some)} pieces: stock {stock:.1f} m2, "
            f"rows and columns {sum(one.rows_m2 for one in some):.1f} m2, "
            f"lower bound {sum(one.least_m2 for one in some):.1f} m2; "
            f"used {sum(one.used_m2 for one in some) / stock:.1%}; "
            f"as good as the bound in {sum(one.stock_m2 < one.least_m2 + 1e-4 for one in some)}"
        )
        assert all(one.stock_m2 <= one.rows_m2 + 1e-4 for one in some)
        assert all(one.stock_m2 >= one.least_m2 - 1e-9 for one in some)
    print(f"{spent:.1f} s of processor, {spent / len(figures):.3f} s a set")


if __name__ == "__main__":
    main()
