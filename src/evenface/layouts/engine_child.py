"""The packing engine in a process of its own: questions come in on stdin, plans go out on stdout.

One question or answer is one line of JSON. The engine is native code: it may print, overrun its time,
eat memory or crash; here it can take nothing down but this process. Run as a file, not as a module: the room it
stands in takes ten times as long to import as the engine.
"""

import contextlib
import json
import os
import signal
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any, TextIO

MEMORY_BYTES = 3 * 1024**3
"""Address space, threads' stacks included; real use stays far below."""
NICENESS = 5
NICENESS_ON_STICKS = 15
"""There the patterns of the search for bounds are the stronger method. The child ends with the question, for niceness
cannot be taken back."""
SHARE_OF_PROOFS = 0.2
"""Of the time given beyond the first second the search for bounds may take so much from the engine beside it; then
it waits for idle cores."""
LATE_S = 0.1
"""So long after its limit the engine is given up, and the child with it: every plan was told by then."""
LEAST_RUN_S = 0.02
BY_THE_CLOCK = "Anytime"

type Question = dict[str, Any]


class _Enough(Exception):
    """Raised inside the engine's callback: no better plan can be had."""


def main() -> None:
    """Answer questions until stdin closes."""
    out = _own_stdout()
    _be_modest()
    _tell(out, {"ready": True})
    for line in sys.stdin:
        question: Question = json.loads(line)
        _tell(out, {"asked": True})
        late = threading.Timer(float(question["limit"]) + LATE_S, _give_up, (out,))
        late.daemon = True
        late.start()
        try:
            _answer(question, out)
        except _Enough:
            _tell(out, {"done": True})
        except Exception as problem:  # whatever the engine says, the parent has to hear it
            _tell(out, {"failed": f"{type(problem).__name__}: {problem}"[:300]})
        finally:
            late.cancel()
        if question["form"] == "stick":
            return


def _own_stdout() -> TextIO:
    """Keep the pipe for ourselves: what the engine prints goes to stderr."""
    pipe = os.fdopen(os.dup(1), "w", encoding="utf-8")
    os.dup2(2, 1)
    return pipe


def _be_modest() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with contextlib.suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    with contextlib.suppress(AttributeError, OSError):
        os.nice(NICENESS)


class _Patience:
    """Says when the time is up, and lets others go first once enough was taken from them."""

    def __init__(self, limit_s: float, behind: bool) -> None:
        self.until = time.monotonic() + limit_s
        self.taken = (
            time.process_time() + SHARE_OF_PROOFS * max(0.0, limit_s - 1.0) if behind else float("inf")
        )
        _idle(False)
        self.up()

    def up(self, before_s: float = 0.0) -> bool:
        """Whether the time is up, or will be before_s later."""
        if time.process_time() > self.taken:
            self.taken = float("inf")
            _idle(True)
        return time.monotonic() > self.until - before_s

    @property
    def left_s(self) -> float:
        """Until the time is up."""
        return self.until - time.monotonic()


def _idle(only: bool) -> None:
    """Take only what no other process wants, or go on as others do; where the system knows no such thing, niceness."""
    try:
        os.sched_setscheduler(0, os.SCHED_IDLE if only else os.SCHED_OTHER, os.sched_param(0))
    except (AttributeError, OSError):
        with contextlib.suppress(AttributeError, OSError):
            os.nice(10 if only else 0)


def _tell(out: TextIO, answer: dict[str, Any]) -> None:
    out.write(json.dumps(answer, separators=(",", ":")) + "\n")
    out.flush()


def _door_left_shut() -> None:
    """Import from this room without all that its door imports: half a second that no answer can spare."""
    if "evenface.layouts" not in sys.modules:
        room = ModuleType("evenface.layouts")
        room.__path__ = [str(Path(__file__).parent)]
        sys.modules["evenface.layouts"] = room


def _answer_bound(question: Question, out: TextIO) -> None:
    """Worths of the pieces that prove a bound, then plans out of the patterns met; the parent checks both."""
    from fractions import Fraction
    from math import ceil

    patience = _Patience(float(question["limit"]), question["behind"])
    _door_left_shut()
    from evenface.layouts.columns import Bin, Column, Model, Row, best_worths, bound_of
    from evenface.layouts.patterns import rounded_plans

    given = question["model"]
    model = Model(
        tuple(Row(*row) for row in given["rows"]),
        tuple(given["counts"]),
        tuple(Bin(capacity, cover, Fraction(cost), along) for capacity, cover, cost, along in given["bins"]),
        given["stages"],
    )
    met: list[Column] = []
    kept_s = patience.left_s * (1.0 - question["share"])
    enough = Fraction(question["enough"])
    # a bound that stays below by less than one unit lets the patterns be looked at all the same
    worths = best_worths(model, enough, lambda: patience.up(kept_s), met=met)
    _tell(out, {"worths": worths})
    bound = bound_of(model, worths)
    if question["patterns"] and bound < enough and met:
        grain = Fraction(question["grain"])
        aim = max(ceil(bound / grain) * grain, Fraction(question["least"]))
        half_s, counted = patience.left_s / 2, question["counted"]
        for plan in rounded_plans(model, met, aim, patience.up, half_s, counted):
            _tell(out, {"patterns": plan})
    _tell(out, {"done": True})


def _answer(question: Question, out: TextIO) -> None:
    if question["form"] == "bound":
        _answer_bound(question, out)
        return
    if question["form"] == "stick":
        from packingsolver import onedimensional as engine

        with contextlib.suppress(AttributeError, OSError):
            os.nice(max(0, NICENESS_ON_STICKS - os.nice(0)))
        instance = _stick_instance(engine, question)
        read = _read_sticks
    else:
        from packingsolver import rectangleguillotine as engine

        instance = _sheet_instance(engine, question)
        read = _read_sheets
    until = time.monotonic() + float(question["limit"])
    for rung in question["rungs"]:
        _climb(engine, instance, question | rung, until - time.monotonic(), read, out)
    _tell(out, {"done": True})


def _give_up(out: TextIO) -> None:
    """The engine overran: say so, and end with it."""
    _tell(out, {"late": True})
    os._exit(0)


def _climb(
    engine: Any, instance: Any, question: Question, left_s: float, read: Callable[[Any], Any], out: TextIO
) -> None:
    """One run of the engine; raises _Enough when no better plan can be had.

    By the clock each better plan is told as it comes. A run that is counted is told when it has ended.
    """
    if left_s < LEAST_RUN_S:
        return
    parameters = _parameters(engine, question, left_s)

    def hear(output: Any) -> None:
        if output.solution.full():
            _tell(out, {"plan": read(output.solution), "bound": _bound(output, question)})
            if _reached(output.solution, question):
                raise _Enough

    if question["mode"] == BY_THE_CLOCK:
        parameters.new_solution_callback = hear
    output = engine.optimize(instance, parameters)
    answer: dict[str, Any] = {"bound": _bound(output, question)}
    if output.solution.full():
        answer["plan"] = read(output.solution)
        answer["proved"] = bool(output.is_proven_optimal())
    _tell(out, answer)
    if output.solution.full() and (answer["proved"] or _reached(output.solution, question)):
        raise _Enough


def _reached(solution: Any, question: Question) -> bool:
    target = question.get("target")
    if target is None:
        return False
    if question["open"]:
        return bool(solution.width() <= target)
    reached = solution.cost() if len(question["bins"]) > 1 else solution.number_of_bins()
    return bool(reached <= target)


def _parameters(engine: Any, question: Question, limit_s: float) -> Any:
    parameters = engine.OptimizeParameters()
    parameters.time_limit = limit_s
    parameters.verbosity_level = 0
    parameters.messages_to_stdout = False
    parameters.optimization_mode = getattr(engine.OptimizationMode, question["mode"])
    if not question["pairs"] and question["form"] != "stick":
        parameters.reduction_parameters.reduce_perfect_pairs = False
        parameters.reduction_parameters.reduce_full_bin_items = False
    for name, value in question.get("set", {}).items():
        if hasattr(parameters, name):
            setattr(parameters, name, value)
    return parameters


def _objective(engine: Any, question: Question) -> Any:
    if question["open"]:
        return engine.Objective.OpenDimensionX
    return (
        engine.Objective.VariableSizedBinPacking if len(question["bins"]) > 1 else engine.Objective.BinPacking
    )


def _sheet_instance(engine: Any, question: Question) -> Any:
    builder = engine.InstanceBuilder()
    builder.set_objective(_objective(engine, question))
    builder.set_cut_thickness(question["kerf"])
    if question["stages"] is None:
        builder.set_number_of_stages_unlimited()
    else:
        builder.set_number_of_stages(question["stages"])
    way = {"along": "Horizontal", "across": "Vertical", "any": "Any"}[question["first"]]
    builder.set_first_stage_orientation(getattr(engine.CutOrientation, way))
    for length, width, copies, cost in question["bins"]:
        builder.add_bin_type(length, width, copies=copies, cost=cost)
    for length, width, count, turns in question["items"]:
        builder.add_item_type(length, width, copies=count, oriented=not turns)
    return builder.build()


def _stick_instance(engine: Any, question: Question) -> Any:
    kerf = question["kerf"]
    builder = engine.InstanceBuilder()
    builder.set_objective(_objective(engine, question))
    for length, _, copies, cost in question["bins"]:
        builder.add_bin_type(length + kerf, copies=copies, cost=cost)
    for length, _, count, _ in question["items"]:
        builder.add_item_type(length + kerf, copies=count)
    return builder.build()


def _bound(output: Any, question: Question) -> float | None:
    if question["open"]:
        return None
    name = "variable_sized_bin_packing_bound" if len(question["bins"]) > 1 else "bin_packing_bound"
    bound = float(getattr(output, name))
    return bound if 0 < bound < 1e15 else None


def _read_sheets(solution: Any) -> list[dict[str, Any]]:
    """Each different sheet: its stock, how many are cut alike, and (item, x, y, length, width) on it."""
    sheets = []
    for at in range(solution.number_of_different_bins()):
        sheet = solution.bin(at)
        nodes = [node for node in sheet.nodes[1:] if node.item_type_id >= 0]
        items = [(node.item_type_id, node.l, node.b, node.r - node.l, node.t - node.b) for node in nodes]
        sheets.append({"stock": sheet.bin_type_id, "copies": sheet.copies, "items": items})
    return sheets


def _read_sticks(solution: Any) -> list[dict[str, Any]]:
    sticks = []
    for at in range(solution.number_of_different_bins()):
        stick = solution.bin(at)
        items = [(item.item_type_id, item.start, 0, 0, 1) for item in stick.items]
        sticks.append({"stock": stick.bin_type_id, "copies": stick.copies, "items": items})
    return sticks


if __name__ == "__main__":
    main()
