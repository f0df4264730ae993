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
    Wanted,
)
from fitdb.steps.explain import ALWAYS, finding_document, joint_document, line_not_asked_document
from fitdb.steps.explain.sentences import Display, sentence
from fitdb.steps.explain.swap_wishes import wishes
from fitdb.steps.explain.swap_words import (
    LIES,
    attribute_words,
    bound_told,
    by_tool,
    class_words,
    counted,
    listed,
    move_in_brief,
    move_told,
    reading_name,
    verdict_words,
    without_side,
)

MEASURE_ONLY = "Do not buy, drill, cut or solder yet: a joint that can hurt someone is undecided. Measure first."

HEADLINES = {
    ("fits", "fits"): "As asked these numbers do not clash.",
    ("measure", "measure"): "Cannot tell yet: one or more readings decide it.",
    ("measure", "fits_with"): "A reading is in doubt; the remedy below holds whatever it turns out to be.",
    ("clash", "fits_with"): "As asked it clashes; with the changes below these numbers do not clash.",
    ("clash", "measure"): "As asked it clashes. The changes below mend that, and a reading decides the rest.",
    ("clash", "clash"): "As asked it clashes, and no remedy from this stock mends it.",
    ("not_asked", "not_asked"): "This plan touches no joint: nothing changes that a rule could be asked about.",
}

MOST_NAMED = 4
HOLDS = ("holds", "hold")


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
        "wishes": wishes(verdict, display),
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
        "proven": verdict.proven,
        "plans_judged": verdict.nodes,
        "rules_judged": verdict.rules_judged,
        "joints": [joint_document(joint, display) for joint in verdict.joints],
        "as_it_stood": [_stood(joint, display) for joint in verdict.untouched if joint.verdict != "not_asked"],
        "not_asked": [line_not_asked_document(item) for item in verdict.not_asked],
        "waiting": [line_not_asked_document(item) for item in verdict.waiting],
        "cautions": _cautions(verdict),
        "catalogue_revision": verdict.revision,
        "rulebook_stamp": verdict.stamp,
        "date": date,
    }


def headline(verdict: SwapVerdict) -> str:
    """The answer in one sentence."""
    refused = any(conflict.refused for conflict in verdict.conflicts)
    if verdict.best_allowed == "clash" and not verdict.complete and not refused:
        return f"As asked it clashes; in the time there was ({counted(verdict.nodes, 'plan')}) no remedy was found."
    return HEADLINES[verdict.as_asked, verdict.best_allowed]


def claim(verdict: SwapVerdict) -> str:
    """What exactly is claimed for the remedies; nothing where none was looked for."""
    if verdict.as_asked != "clash":
        return ""
    if verdict.best_allowed == "clash" and any(conflict.refused for conflict in verdict.conflicts):
        return "For what is refused here no adapter, setting or alteration is ever offered, whatever it costs."
    if not verdict.complete:
        return (
            f"The search ran out of time after {counted(verdict.nodes, 'plan')}: there may be a cheaper way, and one "
            "where none is named."
        )
    if not verdict.proven:
        found = "The cheapest" if any(cured.moves for cured in verdict.cures) else "None"
        return (
            f"{found} of {counted(verdict.nodes, 'plan')} judged, found by mending at each step what has the fewest "
            "remedies left; another order of changes was not tried to the end."
        )
    found = "The cheapest" if any(cured.moves for cured in verdict.cures) else "There is none"
    return (
        f"{found} among {counted(verdict.nodes, 'plan')} judged: at most {verdict.plan.most_moves} changes from this "
        "stock, each for something that fails, no part changed twice, and of each remedy the sizes that suit best."
    )


def lead(verdict: SwapVerdict, display: Display) -> list[str]:
    """Before and after in a few sentences: how the board stood, what the swap does, what the remedies make of it."""
    told = []
    if verdict.before != "not_asked":
        stood = sum(joint.verdict == "clash" for joint in verdict.untouched)
        does = "clashes as it did" if stood == 1 else "clash as they did"
        left = f" Of what the swap does not touch, {counted(stood, 'joint')} {does}." if stood else ""
        where = f" ({'; '.join(verdict.clashed[:MOST_NAMED])})" if verdict.clashed else ""
        told.append(f"Before: {verdict_words(verdict.before)}{where}.{left}")
    told.append(f"As asked: {_tally(verdict.joints)}.")
    best = next((cured for cured in verdict.cures if cured.moves), None)
    if best is not None:
        touches = any(joint.verdict != "not_asked" for joint in best.joints)
        left = _tally(best.joints) if touches else "the board is as it stood before"
        told.append(f"With {counted(len(best.moves), 'change')}: {left}.")
    told += [one["sentence"] for one in wishes(verdict, display)]
    told += [_wanted_told(one, display) for one in verdict.wanted]
    if verdict.blocked:
        told.append(MEASURE_ONLY)
    return told


def _tally(joints: Iterable[JointVerdict]) -> str:
    """`of 45 joints that it touches 2 clash, 2 cannot be told yet, 41 hold`."""
    verdicts = [joint.verdict for joint in joints if joint.verdict != "not_asked"]
    if not verdicts:
        return "it touches no joint"
    words = (("clash", "clashes", "clash"), ("measure", "cannot be told yet", "cannot be told yet"), ("fits", *HOLDS))
    told = [f"{n} {one if n == 1 else more}" for word, one, more in words if (n := verdicts.count(word))]
    return f"of {counted(len(verdicts), 'joint')} that it touches {', '.join(told)}"


def _wanted_told(one: Wanted, display: Display) -> str:
    sizes = listed(
        [bound_told(attribute, at_least, size, unit, display) for attribute, at_least, size, unit in one.sizes]
    )
    return f"Another {class_words(one.part_class)} would do: {sizes}."


# --- conflicts ---------------------------------------------------------------------------------------------


def _conflict(conflict: Conflict, display: Display) -> dict[str, Any]:
    names = _both_sides(conflict.pieces)
    told = f"Cannot stand together: {listed(names)}." if len(names) > 1 else f"{names[0]} cannot stand as it is."
    reasons = " ".join(_reason(finding, display) for finding in conflict.findings[:2])
    classes = {seat: part.part_class for seat, part in conflict.pieces}
    frees = [_freeing(one, classes.get(one.seat, ""), display) for one in conflict.frees]
    change = " It would go with " + "; or ".join(dict.fromkeys(one["sentence"] for one in frees)) + "." if frees else ""
    refused = " No adapter and no setting may cure this; only another part can." if conflict.refused else ""
    return {
        "pieces": [{"seat": seat, "part": part.id, "title": part.title} for seat, part in conflict.pieces],
        "where": list(conflict.titles),
        "sentence": f"{told} {reasons}{refused}{change}",
        "findings": [finding_document(finding, display) for finding in conflict.findings],
        "frees": frees,
        "refused": conflict.refused,
    }


def _reason(finding: Finding, display: Display) -> str:
    """What fails, as a sentence of its own: the mark before it says already that it fails."""
    told = sentence(finding, display).removeprefix("Fails: ")
    return told[:1].upper() + told[1:]


def _freeing(one: Freeing, part_class: str, display: Display) -> dict[str, Any]:
    assert one.value is not None
    bound = bound_told(one.attribute, one.at_least, one.value, one.unit, display)
    what = f"another {class_words(part_class) or one.part}: {bound}"
    stocked = f", such as {one.other}" if one.other else ""
    broken = sorted({finding.rule.question for finding in one.breaks})
    asked = " ".join(question[:1].lower() + question[1:] for question in broken[:2])
    then = f" (but then something else fails: {asked})" if broken else ""
    return {
        "seat": one.seat,
        "part": one.part,
        "attribute": one.attribute,
        "bound": "at_least" if one.at_least else "at_most",
        "value": one.value,
        "unit": one.unit,
        "such_as": one.other,
        "breaks": sorted({finding.rule.id for finding in one.breaks}),
        "sentence": what + stocked + then,
    }


def _both_sides(pieces: Sequence[tuple[str, Part]]) -> list[str]:
    """Titles, each once however many sides bear it, with the class where the title does not say it."""
    told = []
    for _, part in pieces:
        named = class_words(part.part_class)
        told.append(part.title if named.lower() in part.title.lower() else f"{part.title} ({named})")
    return list(dict.fromkeys(told))


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
        "sentence": "; then ".join(move_in_brief(move) for move in cured.moves) + _price(cured) if cured.moves else "",
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
        "sentence": move_told(move),
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


def _price(cured: CuredPlan) -> str:
    """Minutes and money of a whole plan; none where it exchanges a part, which is another plan."""
    if any(move.another_plan for move in cured.moves):
        return ", as another plan."
    cost = _cost(cured.cure.cost, cured.closing)
    for_good = ", not all of it reversible" if cost["irreversible"] else ""
    return f" ({cost['minutes']:g} min, {cost['money_mu']:g} mu{for_good})."


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
    beside = f"; have the next {line.neighbours_of} at hand, {' or '.join(sizes)}" if sizes else ""
    lies = LIES.get(line.where, line.where)
    return {
        "part": line.part,
        "title": line.title,
        "count": line.count,
        "money_mu": line.money,
        "where": line.where,
        "neighbours": [{"attribute": line.neighbours_of, "value": size, "unit": line.unit} for size in line.neighbours],
        "sentence": f"{line.count} × {line.title} ({line.part}), {line.money:g} mu, {lies}{beside}",
    }


def _passed_over(one: PassedOver, display: Display) -> dict[str, Any]:
    if one.ruled_out_by is not None:
        why = f"it cures what it is for, but then: {sentence(one.ruled_out_by, display)}"
    else:
        why = one.why.replace("_", " ")
    return {
        "title": one.title,
        "what": one.what,
        "cures": one.cures,
        "ruled_out_by": finding_document(one.ruled_out_by, display) if one.ruled_out_by else None,
        "sentence": f"{one.title}{': ' + one.what if one.what else ''}: {why}",
    }


def _cut(one: CutLine) -> dict[str, Any]:
    titles = listed(list(dict.fromkeys(without_side(title) for title in one.clashing)))
    clashes = f", {len(one.clashing)} of them clash ({titles})" if one.clashing else ", none of them clashes"
    open_ones = f", {one.undecided} cannot be told yet" if one.undecided else ""
    told = f"{one.title}, {one.end}, from {one.donor}: {counted(one.joints, 'joint')} with the rest{clashes}{open_ones}"
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
    name = reading_name(one)
    what = f"the {attribute_words(one.attribute)} of {one.title}"
    finely = f" to ±{display.finely(one.settles_within, one.unit)} or better" if one.settles_within else ""
    tool = f"{',' if finely else ''} {by_tool(one.tool)}" if one.tool else ""
    if len({outcome.verdict for outcome in one.outcomes}) > 1:
        then = " " + "; ".join(_outcome_told(outcome, one.unit, display) for outcome in one.outcomes) + "."
    else:
        then = " It narrows the doubt, and does not end it alone." if one.outcomes else ""
    how = f" {one.how}" if one.how else ""
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
        "sentence": f"{name}: {what}. Read it{finely}{tool}.{then}{how}{twice}",
    }


def _outcome_told(outcome: Outcome, unit: str, display: Display) -> str:
    if outcome.word:
        value = outcome.word.replace("_", " ")
    elif outcome.low == outcome.high:
        value = f"{outcome.low:g}"
    else:
        assert outcome.low is not None and outcome.high is not None
        value = f"{display.size(outcome.low, unit)} to {display.size(outcome.high, unit)}"
    return f"{value}: {verdict_words(outcome.verdict)}"


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
    """Those of what fails or is in doubt first, then those of what holds and could hurt somebody."""
    joints = (*verdict.joints, *(joint for cured in verdict.cures[:1] for joint in cured.joints))
    findings = [finding for joint in joints for finding in joint.findings if finding.rule.caution and _tells(finding)]
    findings.sort(key=lambda finding: finding.state not in ("fails", "undecided"))
    told: dict[str, str] = {}
    for caution in (ALWAYS, *(finding.rule.caution for finding in findings)):
        first = caution.partition(".")[0]  # several rules open with the same sentence: the longest of them is told
        told[first] = max(told.get(first, ""), caution, key=len)
    return list(told.values())


def _tells(finding: Finding) -> bool:
    if finding.state in ("fails", "undecided") or finding.comfort_missed:
        return True
    return finding.state == "holds" and finding.rule.severity >= Severity.INJURY
