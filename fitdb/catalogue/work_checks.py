"""What must be true of the order of work before it is loaded: each fault with file, row and column.

A shop's own steps are held to the same: no circle, no step that nothing leads to, and nothing electrical that could
come before the step that makes it dead.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from fitdb.catalogue.seed_files import Placed, record_fault, unknown_id
from fitdb.model.part import AttributeTable
from fitdb.model.problems import Problem
from fitdb.model.work import Work, WorkStep

ANY = "*"
TAKING_APART = ("isolate", "undo")
JOINT = re.compile(r"J[0-9]{2}b?")
SEAT_COLUMNS = {
    "work_step": (("seats", "seats"), ("opens", "opens"), ("present", "present")),
    "work_carrier": (("seat", "seat"), ("sits_on", "sits_on")),
    "work_laid_bare": (("seat", "seat"),),
    "work_change": (("seat", "seat"),),
    "work_fastening": (("seat", "seat"),),
}


def work_faults(
    placed: Mapping[str, Sequence[Placed]],
    work: Work,
    named: set[str],
    seats: Mapping[str, set[str]],
    table: AttributeTable,
) -> Iterator[Problem]:
    """Every fault of the rows in `placed`. seats: part classes by name of a seat. work: old and new rows together.

    named: the ids of all steps, those at fault too, so that one fault is not told again by everybody who names it.
    """
    for name, columns in SEAT_COLUMNS.items():
        for item in placed[name]:
            for column, heading in columns:
                for seat in item.row[column].split():
                    if seat != ANY and seat not in seats:
                        yield unknown_id(item, heading, "seat", seat, seats)
    needs: dict[str, list[tuple[str, str]]] = {}
    for need in work.needs:
        needs.setdefault(need.step, []).append((need.needs, need.condition))
    for item in placed["work_step"]:
        yield from _step(item, work, named, needs)
    for item in placed["work_need"]:
        yield from _need(item, work, needs)
    for item in placed["work_laid_bare"]:
        yield from _attribute(item, "attribute", item.row["seat"], item.row["attribute"], seats, table)
    for item in placed["work_change"]:
        yield from _attribute(item, "attribute", item.row["seat"], item.row["attribute"], seats, table)
        yield from _phase(item, "undo", item.row["undo"], work, TAKING_APART)
        yield from _phase(item, "step", item.row["step"], work, ("rebuild",))
    for item in placed["work_fastening"]:
        yield from _fastening(item, work, seats, table)
    for item in placed["work_torque"]:
        if not 0 < item.row["low"] <= item.row["high"]:
            message = f"{item.row['low']:g} to {item.row['high']:g} N m is no range above nothing."
            yield record_fault("low_above_high", message, item, "low [N m]")
    for item in placed["work_trial"]:
        yield from _phase(item, "step", item.row["step_id"], work, ("test",))
        for joint in item.row["back_to"].split():
            if not JOINT.fullmatch(joint):
                yield record_fault("bad_cell", f"`{joint}` is no joint; J18 would be one.", item, "back_to")


def _step(item: Placed, work: Work, named: set[str], needs: Mapping[str, list[tuple[str, str]]]) -> Iterator[Problem]:
    row = item.row
    step = work.steps[row["id"]]
    if not row["low"] <= row["usual"] <= row["high"]:
        message = f"{row['low']:g}, {row['usual']:g} and {row['high']:g} minutes are in no order."
        yield record_fault("low_above_high", message, item, "low [min]")
    for after in step.after:
        if after != ANY and after not in named:
            yield unknown_id(item, "after", "step", after, named)
    if step.phase in TAKING_APART:
        if step.after:
            hint = "Write what comes before it in needs.csv."
            yield record_fault("bad_cell", "Only steps of rebuild and test follow others.", item, "after", hint)
        if not (step.seats or step.opens or step.present):
            yield record_fault("no_seat", "It takes off nothing and opens nothing.", item, "seats")
        if step.electrical and not step.gate and not _reaches(step, needs, lambda one: _is_gate(one, work)):
            hint = "Let it always need a step with gate = yes, by way of others if you like."
            yield record_fault("no_gate", "An electrical step that could come before the gate.", item, "id", hint)
    else:
        if step.gate:
            yield record_fault("bad_cell", "A gate is a step of taking apart.", item, "gate")
        if not (step.seats or step.after):
            hint = "Name the seats that it puts on, or the steps that it follows."
            yield record_fault("no_seat", "Nothing would ever put it on a card.", item, "seats", hint)
    if step.phase == "test" and step.id not in work.tests:
        hint = "Write its row in trials.csv."
        yield record_fault("no_trial", "Nothing says what this test has to show.", item, "id", hint)


def _need(item: Placed, work: Work, needs: Mapping[str, list[tuple[str, str]]]) -> Iterator[Problem]:
    step, before = work.steps.get(item.row["step_id"]), work.steps.get(item.row["needs_id"])
    if step is None or before is None:
        return
    if (step.phase in TAKING_APART) != (before.phase in TAKING_APART):
        message = f"`{step.id}` takes apart or puts together, `{before.id}` does the other."
        yield record_fault("two_directions", message, item, "needs", "The card takes apart first in any case.")
    if before.id == step.id or _reaches(before, needs, lambda one: one == step.id, any_condition=True):
        yield record_fault("circular_need", f"`{step.id}` would have to come before itself.", item, "needs")


def _is_gate(step: str, work: Work) -> bool:
    return step in work.steps and work.steps[step].gate


def _reaches(
    step: WorkStep,
    needs: Mapping[str, list[tuple[str, str]]],
    wanted: Callable[[str], bool],
    any_condition: bool = False,
) -> bool:
    """Whether a step that is wanted comes before this one: always, or under some condition."""
    seen, waiting = set[str](), [step.id]
    while waiting:
        for before, condition in needs.get(waiting.pop(), ()):
            if (any_condition or condition == "always") and before not in seen:
                if wanted(before):
                    return True
                seen.add(before)
                waiting.append(before)
    return False


def _phase(item: Placed, column: str, step: str, work: Work, phases: Sequence[str]) -> Iterator[Problem]:
    if step in work.steps and work.steps[step].phase not in phases:
        message = f"`{step}` is a step of {work.steps[step].phase}; one of {' or '.join(phases)} is wanted."
        yield record_fault("other_phase", message, item, column)


def _fastening(item: Placed, work: Work, seats: Mapping[str, set[str]], table: AttributeTable) -> Iterator[Problem]:
    row = item.row
    yield from _phase(item, "step", row["step_id"], work, ("rebuild",))
    paths = [("thread", row["thread"]), ("length", row["length"]), ("material", row["material"])]
    paths += [("counts", entry) for entry in row["counts"].split() if not entry.isdigit()]
    for column, path in paths:
        if path:
            seat, _, attribute = path.rpartition(".")
            yield from _attribute(item, column, seat.partition(".")[0], attribute, seats, table)
    if bool(row["material"]) != bool(row["not_on"]):
        yield record_fault("bad_cell", "`material` goes with not_on, and not_on with material.", item, "not_on")


def _attribute(
    item: Placed, column: str, seat: str, attribute: str, seats: Mapping[str, set[str]], table: AttributeTable
) -> Iterator[Problem]:
    """Something that sits at that seat has that attribute."""
    if seat not in seats:
        if column != "attribute":
            yield unknown_id(item, column, "seat", seat, seats)
        return
    if not any(table.attribute_of(own, attribute) for own in seats[seat]):
        names = {name for own in seats[seat] for name in table.own_attributes(own)}
        yield unknown_id(item, column, f"attribute of what sits at {seat}", attribute, names)
