"""The answer to a swap plan as one document: before and after first, then what clashes, what mends it, what to measure.

Every sentence is made from the numbers that stand beside it under stable keys.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from fitdb.model.finding import Finding
from fitdb.model.part import Part
from fitdb.model.remedy import Cost, Move
from fitdb.model.rule import Severity
from fitdb.model.verdict import (
    BillLine,
    Conflict,
    CuredPlan,
    CutLine,
    Freeing,
    JointVerdict,
    Outcome,
    PassedOver,
    SwapVerdict,
    ToMeasure,
)
from fitdb.steps.explain import ALWAYS, finding_document, joint_document, line_not_asked_document
from fitdb.steps.explain.sentences import Display, sentence

MEASURE_ONLY = "Do not buy, drill, cut or solder yet: a joint that can hurt someone is undecided. Measure first."
MOST_SENTENCES = 6

HEADLINES = {
    ("fits", "fits"): "As asked these numbers do not clash.",
    ("measure", "measure"): "Cannot tell yet: one or more readings decide it.",
    ("measure", "fits_with"): "One reading is in doubt; the remedy below holds whatever it turns out to be.",
    ("clash", "fits_with"): "As asked it clashes; with the remedies below these numbers do not clash.",
    ("clash", "measure"): "As asked it clashes; the remedies below leave readings that decide it.",
    ("clash", "clash"): "As asked it clashes, and no remedy of this stock mends it.",
    ("not_asked", "not_asked"): "This plan touches no joint: nothing changes that a rule could be asked about.",
}


def swap_document(
    verdict: SwapVerdict, bills: Sequence[Sequence[BillLine]], display: Display, date: str
) -> dict[str, Any]:
    """The whole answer as plain data. `bills` has one bill per cure, in their order."""
    cures = [_cure(cured, bill, display) for cured, bill in zip(verdict.cures, bills, strict=True)]
    told = [cure for cure in cures if cure["moves"]]
    return {
        "plan": {"id": verdict.plan.id, "title": verdict.plan.title, "layout": verdict.plan.pattern},
        "verdict": verdict.best_allowed,
        "as_asked": verdict.as_asked,
        "best_allowed": verdict.best_allowed,
        "before": verdict.before,
        "sentence": headline(verdict),
        "lead": lead(verdict, display),
        "conflicts": [_conflict(one, display) for one in verdict.conflicts],
        "remedies": told[:1],
        "other_remedies": told[1:],
        "passed_over": [_passed_over(one, display) for one in verdict.passed_over],
        "instead": [_cure(cured, (), display) for cured in verdict.instead],
        "measure_first": [_to_measure(one, display) for one in verdict.to_measure],
        "beside_measure": [_move(move) for move in verdict.beside_measure],
        "cut_lines": [_cut(one) for one in verdict.cut_lines],
        "measuring_only": verdict.blocked,
        "claim": claim(verdict),
        "complete": verdict.complete,
        "plans_judged": verdict.nodes,
        "rules_judged": verdict.rules_judged,
        "joints": [joint_document(joint, display) for joint in verdict.joints],
        "as_it_stood": [_stood(joint, display) for joint in verdict.untouched if joint.verdict != "not_asked"],
        "not_asked": [line_not_asked_document(item) for item in verdict.not_asked],
        "cautions": _cautions(verdict),
        "catalogue_revision": verdict.revision,
        "rulebook_stamp": verdict.stamp,
        "date": date,
    }


def headline(verdict: SwapVerdict) -> str:
    """The answer in one sentence."""
    return HEADLINES[verdict.as_asked, verdict.best_allowed]


def claim(verdict: SwapVerdict) -> str:
    """What exactly is claimed for the remedies; nothing where none was looked for."""
    if verdict.as_asked != "clash":
        return ""
    if not verdict.complete:
        return (
            f"The search was cut short after {verdict.nodes} plans: there may be a cheaper one, or one at all where "
            "none is named."
        )
    found = "Cheapest" if any(cured.moves for cured in verdict.cures) else "There is none"
    return (
        f"{found} among plans of at most {verdict.plan.most_moves} remedies from this stock in which every "
        "remedy cures the finding it was chosen for and no seat is changed twice; of each remedy the best sizes, "
        f"{verdict.nodes} plans judged."
    )


def lead(verdict: SwapVerdict, display: Display) -> list[str]:
    """Before and after in a few sentences: how the board stood, what the swap does, what mends it."""
    told = []
    if verdict.before != "not_asked":
        stood = sum(joint.verdict == "clash" for joint in verdict.untouched)
        left = (
            f" {_counted(stood, 'joint')} that the swap does not touch clashed before and still does." if stood else ""
        )
        told.append(f"Before: {_verdict_words(verdict.before)}.{left}")
    failing = [f for joint in verdict.joints for f in joint.findings if f.state == "fails"]
    if failing:
        worst = max(failing, key=lambda f: f.rule.severity)
        told.append(f"As asked: {sentence(worst, display)}")
    else:
        told.append(f"As asked: {_verdict_words(verdict.as_asked)}.")
    best = next((cured for cured in verdict.cures if cured.moves), None)
    if best is not None:
        moves = ", then ".join(_told(move) for move in best.moves)
        told.append(f"With remedies ({_verdict_words(best.verdict)}): {moves}.")
    elif verdict.instead:
        told.append(f"Instead: {', then '.join(_told(move) for move in verdict.instead[0].moves)}.")
    if verdict.blocked:
        told.append(MEASURE_ONLY)
    return told


# --- conflicts ---------------------------------------------------------------------------------------------


def _conflict(conflict: Conflict, display: Display) -> dict[str, Any]:
    names = _both_sides(conflict.pieces)
    told = f"Cannot stand together: {_listed(names)}." if len(names) > 1 else f"{names[0]} cannot stand as it is."
    reasons = " ".join(sentence(finding, display) for finding in conflict.findings[:2])
    frees = [_freeing(one, display) for one in conflict.frees]
    change = " Any one of these would free it: " + "; ".join(one["sentence"] for one in frees) + "." if frees else ""
    refused = " No adapter and no setting may cure this; only another part can." if conflict.refused else ""
    return {
        "pieces": [{"seat": seat, "part": part.id, "title": part.title} for seat, part in conflict.pieces],
        "where": list(conflict.titles),
        "sentence": f"{told} {reasons}{refused}{change}",
        "findings": [finding_document(finding, display) for finding in conflict.findings],
        "frees": frees,
        "refused": conflict.refused,
    }


def _freeing(one: Freeing, display: Display) -> dict[str, Any]:
    assert one.value is not None
    size = display.size(one.value, one.unit) if one.unit else f"{one.value:g}"
    bound = "at least" if one.at_least else "at most"
    stocked = f", such as {one.other}" if one.other else ""
    what = f"{one.attribute.replace('_', ' ')} of {one.part} {bound} {size}{stocked}"
    broken = sorted({finding.rule.question for finding in one.breaks})
    then = f" (but then this fails: {' '.join(broken[:2])})" if broken else ""
    return {
        "seat": one.seat,
        "part": one.part,
        "attribute": one.attribute,
        "bound": "at_least" if one.at_least else "at_most",
        "value": one.value,
        "unit": one.unit,
        "such_as": one.other,
        "breaks": sorted({finding.rule.id for finding in one.breaks}),
        "sentence": what + then,
    }


def _both_sides(pieces: Sequence[tuple[str, Part]]) -> list[str]:
    return list(dict.fromkeys(f"{part.title} ({part.part_class.replace('_', ' ')})" for _, part in pieces))


# --- remedies ----------------------------------------------------------------------------------------------


def _cure(cured: CuredPlan, bill: Sequence[BillLine], display: Display) -> dict[str, Any]:
    moves = [
        {**_move(move), "chosen_for": chosen}
        for move, chosen in zip(
            cured.moves, (*cured.cure.chosen_for, *("closes a doubt" for _ in cured.closing)), strict=True
        )
    ]
    fails = [f for joint in cured.joints for f in joint.findings if f.state == "undecided"]
    return {
        "verdict": cured.verdict,
        "sentence": "; then ".join(_told(move) for move in cured.moves) + "." if cured.moves else "",
        "moves": moves,
        "cost": _cost(cured.cure.cost, cured.closing),
        "bill": [_bill_line(line, display) for line in bill],
        "leaves_undecided": [finding_document(finding, display) for finding in fails],
        "joints": [joint_document(joint, display) for joint in cured.joints],
    }


def _move(move: Move) -> dict[str, Any]:
    return {
        "remedy": move.remedy.id,
        "title": move.remedy.title,
        "move": move.remedy.move,
        "sentence": _told(move),
        "what": move.what,
        "seats": list(move.seats),
        "part": move.pieces[0].part.id if move.remedy.move in ("insert", "substitute") else "",
        "where": move.where,
        "reversible": move.remedy.reversible,
        "gives_up": move.gives_up,
        "tool": move.remedy.tool,
        "minutes": move.minutes,
        "money_mu": move.money,
        "source": move.remedy.source,
    }


def _told(move: Move) -> str:
    """`use another belt length or width: 280 mm belt (rear left, rear right; 40 min, 14 mu)`."""
    where = f", {move.where}" if move.where and move.where != "catalogue" else ""
    gives = f"; gives up: {move.gives_up}" if move.gives_up else ""
    for_good = "" if move.remedy.reversible else "; not reversible"
    price = f"{move.minutes:g} min, {move.money:g} mu{where}" if not move.another_plan else "another plan"
    return f"{move.remedy.title}: {move.what} ({price}{for_good}{gives})"


def _cost(cost: Cost, closing: Sequence[Move]) -> dict[str, Any]:
    return {
        "new_undecided": cost.new_undecided,
        "shortfall": cost.shortfall,
        "thin": cost.thin,
        "exchanges": cost.exchanges,
        "irreversible": cost.irreversible,
        "gives_up": cost.gives_up,
        "count": cost.count + len(closing),
        "minutes": cost.minutes + sum(move.minutes for move in closing),
        "money_mu": cost.money + sum(move.money for move in closing),
    }


def _bill_line(line: BillLine, display: Display) -> dict[str, Any]:
    sizes = [display.size(size, line.unit) for size in line.neighbours]
    beside = f"; buy the neighbouring {line.neighbours_of} {' or '.join(sizes)} with it" if sizes else ""
    return {
        "part": line.part,
        "title": line.title,
        "count": line.count,
        "money_mu": line.money,
        "where": line.where,
        "neighbours": [{"attribute": line.neighbours_of, "value": size, "unit": line.unit} for size in line.neighbours],
        "sentence": f"{line.count} × {line.title} ({line.part}), {line.money:g} mu, {line.where}{beside}",
    }


def _passed_over(one: PassedOver, display: Display) -> dict[str, Any]:
    if one.ruled_out_by is not None:
        then = sentence(one.ruled_out_by, display)
        why = f"it cures what it is for, but then: {then}"
    else:
        why = one.why
    return {
        "title": one.title,
        "what": one.what,
        "cures": one.cures,
        "ruled_out_by": finding_document(one.ruled_out_by, display) if one.ruled_out_by else None,
        "sentence": f"{one.title}{': ' + one.what if one.what else ''}: {why}",
    }


def _cut(one: CutLine) -> dict[str, Any]:
    clashes = (
        f", {_counted(len(one.clashing), 'joint')} of them clash ({'; '.join(one.clashing)})" if one.clashing else ""
    )
    open_ones = f", {one.undecided} undecided" if one.undecided else ""
    told = f"{one.title} of {one.donor}, {one.end}: {_counted(one.joints, 'joint')} with the rest{clashes}{open_ones}"
    return {
        "unit": one.unit,
        "title": one.title,
        "donor": one.donor,
        "end": one.end,
        "seats": list(one.seats),
        "joints": one.joints,
        "clashing": list(one.clashing),
        "undecided": one.undecided,
        "minutes": one.minutes,
        "source": one.source,
        "sentence": f"{told}; about {one.minutes:g} min to take off.",
    }


# --- measuring ---------------------------------------------------------------------------------------------


def _to_measure(one: ToMeasure, display: Display) -> dict[str, Any]:
    name = f"{one.part}.{one.attribute}"
    finely = f" to ±{display.size(one.settles_within, one.unit)}" if one.settles_within else ""
    tool = f" with a {one.tool.replace('_', ' ')}" if one.tool else ""
    either = "; ".join(_outcome_told(outcome, one.unit, display) for outcome in one.outcomes)
    then = f" Then: {either}." if either else ""
    twice = " Count twice." if one.tool == "eye" and not one.unit else ""
    return {
        "part": one.part,
        "title": one.title,
        "seats": list(one.seats),
        "attribute": one.attribute,
        "unit": one.unit,
        "share": round(one.share, 4),
        "settles_within": one.settles_within,
        "tool": one.tool,
        "how": one.how,
        "decides": [finding.rule.id for finding in one.decides],
        "severity": Severity(max(finding.rule.severity for finding in one.decides)).word,
        "outcomes": [
            {"low": o.low, "high": o.high, "word": o.word, "unit": one.unit, "verdict": o.verdict} for o in one.outcomes
        ],
        "sentence": f"Read {name}{finely}{tool}. {one.how}{twice}{then}".replace("  ", " ").strip(),
    }


def _outcome_told(outcome: Outcome, unit: str, display: Display) -> str:
    if outcome.word:
        value = outcome.word.replace("_", " ")
    elif outcome.low == outcome.high:
        value = f"{outcome.low:g}"
    else:
        assert outcome.low is not None and outcome.high is not None
        value = f"{display.size(outcome.low, unit)} to {display.size(outcome.high, unit)}"
    return f"{value} → {_verdict_words(outcome.verdict)}"


# --- shared ------------------------------------------------------------------------------------------------


def _stood(joint: JointVerdict, display: Display) -> dict[str, Any]:
    """An untouched joint in short: it stands apart, as it stood."""
    deciding = [f for f in joint.findings if f.state in ("fails", "undecided")]
    return {
        "joint": joint.joint.id,
        "number": joint.joint.line.joint,
        "title": joint.joint.line.title,
        "verdict": joint.verdict,
        "findings": [finding_document(finding, display) for finding in deciding],
    }


def _cautions(verdict: SwapVerdict) -> list[str]:
    joints: Iterable[JointVerdict] = (*verdict.joints, *(j for cured in verdict.cures[:1] for j in cured.joints))
    told = [ALWAYS]
    for joint in joints:
        for finding in joint.findings:
            if finding.rule.caution and _tells(finding):
                told.append(finding.rule.caution)
    return list(dict.fromkeys(told))


def _tells(finding: Finding) -> bool:
    if finding.state in ("fails", "undecided") or finding.comfort_missed:
        return True
    return finding.state == "holds" and finding.rule.severity >= Severity.INJURY


def _verdict_words(verdict: str) -> str:
    return {
        "fits": "these numbers do not clash",
        "fits_with": "these numbers do not clash with it",
        "measure": "cannot tell yet",
        "clash": "it clashes",
        "not_asked": "nothing could be asked",
    }[verdict]


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _listed(names: Sequence[str]) -> str:
    return ", ".join(names[:-1]) + " and " + names[-1] if len(names) > 1 else "".join(names)
