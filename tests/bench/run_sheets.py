"""How long run sheets take and how many are proven: `python -m tests.bench.run_sheets [COUNT] [TASKS]`.

Random sessions of up to so many tasks, the same on every machine. Seconds are of this process alone. Where OR-Tools is
installed (it is not a dependency), `--with-cp-sat` compares every bound and every sheet with its optimum.
"""

from __future__ import annotations

import sys
import time
from random import Random
from statistics import median

from binder.reckon import run_sheet
from binder.reckon.run_sheet_equipment import equipment
from binder.reckon.run_sheet_kitchen import setting
from binder.reckon.run_sheet_problem import Kitchen
from binder.reckon.run_sheet_tasks import planned
from tests.reckon.run_sheet_kitchens import random_session


def main(count: int = 60, most: int = 40, compare: bool = False) -> None:
    sizes = Random(1)
    seconds, proven, above, open_there, longer = [], 0, 0, 0, []
    for seed in range(1000, 1000 + count):
        made, home = random_session(seed, sizes.randint(12, most))
        begun = time.process_time()
        (sheet,), _ = run_sheet.sheets(made, home)
        seconds.append(time.process_time() - begun)
        proven += sheet.proven
        if not sheet.proven or seconds[-1] > 2:
            said = f"{sheet.at_least_minutes} to {sheet.minutes} min"
            print(f"seed {seed}: {len(sheet.tasks)} tasks, {said}, {seconds[-1]:.1f} s")
        if compare:
            assert made[0].session is not None
            have = equipment(made[0].session, made, home)
            best, bound = cp_sat(setting(*planned(made, have), have, home).kitchen)
            above += sheet.at_least_minutes > best
            open_there += bound < best
            longer.append(sheet.minutes / best - 1)
    print(f"{proven} of {count} proven; seconds: median {median(seconds):.2f}, longest {max(seconds):.2f}")
    if compare:
        print(
            f"bounds above its best: {above}; longer than it: {sum(longer) / count:.2%}, at most {max(longer):.2%}; "
            f"not proven by it within a minute: {open_there}"
        )


def cp_sat(kitchen: Kitchen, limit: float = 60) -> tuple[int, int]:
    """The best end and the best bound of OR-Tools CP-SAT, on the same problem written down for it."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    horizon = sum(job.length + kitchen.heating for job in kitchen.jobs)
    starts = [model.new_int_var(kitchen.heating if job.racks else 0, horizon, "") for job in kitchen.jobs]
    ends = [start + job.length for start, job in zip(starts, kitchen.jobs, strict=True)]
    spans = [model.new_fixed_size_interval_var(s, job.length, "") for s, job in zip(starts, kitchen.jobs, strict=True)]
    for j, job in enumerate(kitchen.jobs):
        for i in job.after:
            model.add(starts[j] >= ends[i])
    for kind, count in enumerate(kitchen.pieces):
        used = [(spans[j], n) for j, job in enumerate(kitchen.jobs) for k, n in job.needs if k == kind]
        model.add_cumulative([span for span, _ in used], [n for _, n in used], count)
    roasts = [j for j, job in enumerate(kitchen.jobs) if job.racks]
    rooms = {j: [model.new_bool_var("") for _ in kitchen.ovens] for j in roasts}
    for j in roasts:
        model.add_exactly_one(rooms[j])
    for oven, racks in enumerate(kitchen.ovens):
        inside = [
            model.new_optional_fixed_size_interval_var(starts[j], kitchen.jobs[j].length, rooms[j][oven], "")
            for j in roasts
        ]
        model.add_cumulative(inside, [kitchen.jobs[j].racks for j in roasts], racks)
        for n, i in enumerate(roasts):
            for j in roasts[n + 1 :]:
                if kitchen.jobs[i].heat != kitchen.jobs[j].heat:
                    first = model.new_bool_var("")
                    here = [rooms[i][oven], rooms[j][oven]]
                    model.add(starts[j] >= ends[i] + kitchen.heating).only_enforce_if([first, *here])
                    model.add(starts[i] >= ends[j] + kitchen.heating).only_enforce_if([~first, *here])
    for rule in kitchen.limits:
        which = [model.new_bool_var("") for _ in rule.hot]
        model.add_at_least_one(which)
        for hot, chosen in zip(rule.hot, which, strict=True):
            for last in rule.last:
                model.add(ends[last] <= ends[hot] + rule.within).only_enforce_if(chosen)
    end = model.new_int_var(0, horizon, "")
    model.add_max_equality(end, ends)
    model.minimize(end)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = limit
    solver.parameters.num_workers = 1
    solver.solve(model)
    return round(solver.objective_value), round(solver.best_objective_bound)


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:] if word.isdigit()), compare="--with-cp-sat" in sys.argv)
