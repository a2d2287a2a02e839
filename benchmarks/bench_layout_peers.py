"""Other ways to pack the published instances, for the columns beside ours: the bare engine, rectpack, plain CP-SAT.

Each answers in sheets, sticks or running length; None where it does not know the problem or found nothing in time.
rectpack places rectangles that need not come apart by straight cuts, and knows no kerf: its pieces and sheets are
enlarged by one kerf. The CP-SAT model is the plain one: a number of bars or boxes, no overlap, fewest used.
"""

from itertools import pairwise

from evenface.layouts.engine import Engine, EngineFailed
from evenface.layouts.records import Demand

MOST_CP_SAT = 120
MOST_RECTPACK = 3000


def engine_alone(demand: Demand, engine: Engine, limit_s: float) -> int | None:
    """The bare engine as it works by itself, no plan to beat, no bound to reach; for rolls its own least length."""
    if demand.stock[0].form == "roll":
        return _open_length(demand, engine, limit_s)
    from evenface.layouts.asking import BY_THE_CLOCK, question_of

    question = question_of(demand, demand.blanks, demand.stock) | {"rungs": [BY_THE_CLOCK]}
    best = None
    try:
        for answer in engine.ask(question, limit_s):
            if answer.get("plan"):
                count = sum(sheet["copies"] for sheet in answer["plan"])
                best = min(best or count, count)
    except EngineFailed:
        return best
    return best


def _open_length(demand: Demand, engine: Engine, limit_s: float) -> int | None:
    """Least length by the engine's own search: its sheet lies with the open side along x."""
    roll = demand.stock[0]
    long = sum(max(blank.length, blank.width) * blank.count for blank in demand.blanks)
    question = {
        "form": "sheet",
        "bins": [[long, roll.usable_width, 1, 1.0]],
        "items": [[b.length, b.width, b.count, b.may_turn] for b in demand.blanks],
        "kerf": demand.saw.kerf,
        "stages": demand.saw.stages,
        "first": "any",
        "rungs": [{"mode": "Anytime"}],
        "pairs": demand.pieces < 200,
        "open": True,
        "target": None,
    }
    best = None
    try:
        for answer in engine.ask(question, limit_s):
            if answer.get("plan"):
                ends = [x + length for sheet in answer["plan"] for _, x, _, length, _ in sheet["items"]]
                best = min(best or max(ends), max(ends))
    except EngineFailed:
        return best
    return best


def rectpack_alone(demand: Demand) -> int | None:
    """Sheets used by rectpack's best of three ways (it has no time limit and no bound)."""
    if demand.stock[0].form != "sheet" or demand.pieces > MOST_RECTPACK:
        return None
    import rectpack

    stock, kerf = demand.stock[0], demand.saw.kerf
    turns = all(blank.may_turn for blank in demand.blanks)
    counts = []
    for algorithm in (rectpack.GuillotineBssfSas, rectpack.MaxRectsBssf, rectpack.SkylineBlWm):
        packer = rectpack.newPacker(rotation=turns, pack_algo=algorithm)
        for blank in demand.blanks:
            for _ in range(blank.count):
                packer.add_rect(blank.length + kerf, blank.width + kerf)
        packer.add_bin(stock.usable_length + kerf, stock.usable_width + kerf, count=float("inf"))
        packer.pack()
        if sum(len(one) for one in packer) == demand.pieces:
            counts.append(len(packer))
    return min(counts, default=None)


def cp_sat_alone(demand: Demand, limit_s: float) -> int | None:
    """Fewest sheets or sticks by a plain model: each piece on one sheet, no two overlap, sheets used in order."""
    if demand.pieces > MOST_CP_SAT or demand.stock[0].form == "roll":
        return None
    from ortools.sat.python import cp_model

    stock, kerf = demand.stock[0], demand.saw.kerf
    stick = stock.form == "stick"
    long, wide = stock.usable_length + kerf, 1 if stick else stock.usable_width + kerf
    pieces = [blank for blank in demand.blanks for _ in range(blank.count)]
    area = sum((b.length + kerf) * (1 if stick else b.width + kerf) for b in pieces)
    most = min(len(pieces), 2 * (-(-area // (long * wide))) + 2)
    model = cp_model.CpModel()
    used = [model.new_bool_var("") for _ in range(most)]
    for before, after in pairwise(used):
        model.add_implication(after, before)
    spans_x: list[list[object]] = [[] for _ in range(most)]
    spans_y: list[list[object]] = [[] for _ in range(most)]
    on: list[list[object]] = []
    for b in pieces:
        here = [model.new_bool_var("") for _ in range(most)]
        model.add_exactly_one(here)
        on.append(list(here))
        for number, var in enumerate(here):
            model.add_implication(var, used[number])
        if stick:
            continue
        turned = model.new_bool_var("")
        if not b.may_turn:
            model.add(turned == 0)
        dx = model.new_int_var_from_domain(cp_model.Domain.from_values([b.length + kerf, b.width + kerf]), "")
        dy = model.new_int_var_from_domain(cp_model.Domain.from_values([b.length + kerf, b.width + kerf]), "")
        for size, straight, across in ((dx, b.length, b.width), (dy, b.width, b.length)):
            model.add(size == straight + kerf).only_enforce_if(~turned)
            model.add(size == across + kerf).only_enforce_if(turned)
        x, y = model.new_int_var(0, long, ""), model.new_int_var(0, wide, "")
        end_x, end_y = model.new_int_var(0, long, ""), model.new_int_var(0, wide, "")
        for number, var in enumerate(here):
            spans_x[number].append(model.new_optional_interval_var(x, dx, end_x, var, ""))
            spans_y[number].append(model.new_optional_interval_var(y, dy, end_y, var, ""))
    for number in range(most):
        if stick:
            need = sum(var[number] * (b.length + kerf) for var, b in zip(on, pieces, strict=True))  # type: ignore[operator]
            model.add(need <= long * used[number])
        else:
            model.add_no_overlap_2d(spans_x[number], spans_y[number])
    model.minimize(sum(used))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = limit_s
    solver.parameters.num_workers = 2
    status = solver.solve(model)
    return int(solver.objective_value) if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else None
