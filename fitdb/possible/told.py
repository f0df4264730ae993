"""Options as documents: plain data, every verdict beside a sentence and the numbers that it was made from."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from fitdb.model.finding import Finding
from fitdb.model.part import Part
from fitdb.possible.answer import VERDICTS, Broken, Changed, Option, Options, Price, Why
from fitdb.steps.explain import Display, finding_document, sentence

Judged = Callable[[Mapping[str, Part]], Sequence[Finding]]  # what is said against a board, by seat

MOST_JOINTS = 4  # named in a sentence; `rules` has them all


def options_document(
    options: Options,
    display: Display,
    judged: Judged,
    start: int = 0,
    count: int = 50,
    parts_of: Callable[[Option], int] = lambda option: 1,
) -> dict[str, Any]:
    """One page of options. judged: what is said against a board, asked for the boards of this page alone.

    parts_of: how many parts an option stands for; counts are of parts.
    """
    page = options.options[start : start + count]
    counts = {word: sum(parts_of(one) for one in options.options if one.verdict == word) for word in VERDICTS}
    return {
        "seat": options.asked,
        "seats": list(options.seats),
        "sentence": _headline(options, counts),
        "counts": counts,
        "options": [_option(one, display, judged) for one in page],
        "start": start,
        "total": len(options.options),
        "left_empty": list(options.left_empty),
        "broken": _broken(options.broken, display),
        "complete": options.complete,
        "catalogue_revision": options.revision,
        "rulebook_stamp": options.stamp,
    }


def why_document(why: Why | None, display: Display) -> dict[str, Any] | None:
    """Why something is ruled out, in one sentence with the numbers of the deciding finding."""
    if why is None:
        return None
    return {
        "sentence": why_sentence(why, display),
        "choices": dict(why.choices),
        "rules": [{"joint": title, "rule": rule} for title, rule in why.rules],
        "finding": finding_document(why.finding, display) if why.finding is not None else None,
        "examples": [finding_document(one, display) for one in why.examples],
        "smallest": why.proven,
    }


def why_sentence(why: Why, display: Display) -> str:
    """`With wheel-90 in rear_left_wheel: the lugs do not enter …`"""
    named = ", ".join(dict.fromkeys(f"{part} ({seat})" for seat, part in _each_part_once(why)))
    with_these = f"With {named}" if named else "Whatever else is chosen"
    if why.finding is not None:
        return f"{with_these}: {sentence(why.finding, display)}"
    joints = list(dict.fromkeys(title for title, _ in why.rules))
    more = f"; and {len(joints) - MOST_JOINTS} more" if len(joints) > MOST_JOINTS else ""
    met = "; ".join(joints[:MOST_JOINTS])
    told = f"{with_these} no part for the other seats meets all of these at once: {met}{more}."
    return f"{told} For example: {sentence(why.examples[0], display)}" if why.examples else told


def change_document(change: Changed | None) -> dict[str, Any] | None:
    """The smallest change of choices, with the whole board that then stands."""
    if change is None:
        return None
    parts = ", ".join(f"{seat}: {part or 'nothing'}" for seat, part in change.instead.items())
    return {
        "sentence": f"It stands when this is another choice: {parts}." if parts else "It stands as it is chosen.",
        "given_up": list(change.given_up),
        "instead": dict(change.instead),
        "witness": dict(change.witness),
        "smallest": change.proven,
    }


def _each_part_once(why: Why) -> list[tuple[str, str]]:
    """The choices, like seats that take one part told by the first of them."""
    seen: dict[str, str] = {}
    for seat, part in why.choices.items():
        seen.setdefault(part, seat)
    return [(seat, part) for part, seat in seen.items()]


def _headline(options: Options, counts: dict[str, int]) -> str:
    if options.broken is not None and options.broken.change is not None:
        given_up = ", ".join(options.broken.change.given_up)
        return f"What is chosen clashes already. With another choice for {given_up}: {_counted(counts)}."
    if options.broken is not None:
        return "What is chosen clashes already, and no change of choices was found that lets a whole board stand."
    return f"{_counted(counts)}."


def _counted(counts: dict[str, int]) -> str:
    words = {
        "fits": "do not clash on a whole board",
        "measure": "may stand, with readings still to take",
        "checking": "are still being checked",
        "clash": "stand on no whole board",
    }
    told = [f"{counts[verdict]} {words[verdict]}" for verdict in words if counts[verdict]]
    return ", ".join(told) or "There is no part for this seat"


def _option(option: Option, display: Display, judged: Judged) -> dict[str, Any]:
    undecided = judged(option.board) if option.board is not None else ()
    return {
        "part": option.part.id,
        "title": option.part.title,
        "verdict": option.verdict,
        "possible": option.possible,
        "owned": option.owned,
        "witness": option.witness,
        "to_read": _to_read(undecided),
        "undecided": [{"rule": one.rule.id, "sentence": sentence(one, display)} for one in undecided[:3]],
        "fits_with": None,
        "price": _price(option.price),
    }


def _to_read(undecided: Sequence[Finding]) -> list[dict[str, Any]]:
    """The readings that leave the shown board undecided, each once: what nobody has read first, then what was read too
    coarsely (`finer`); of both the most severe finding's first."""
    found: dict[tuple[str, str], dict[str, Any]] = {}
    for finding in undecided:
        for item in finding.settling():
            told = {name: getattr(item, name) for name in ("part", "seat", "attribute", "how", "tool")}
            finer = item.reading is not None and not item.widened
            found.setdefault((item.part, item.attribute), {**told, "finer": finer})
    return sorted(found.values(), key=lambda one: bool(one["finer"]))


def _price(price: Price | None) -> dict[str, Any] | None:
    if price is None:
        return None
    more = " and what has no price" if price.unpriced else ""
    return {
        "from_mu": price.from_least,
        "cheapest_seen_mu": price.cheapest,
        "unpriced": price.unpriced,
        "sentence": f"A whole board with it from {price.from_least:g} mu{more}.",
    }


def _broken(broken: Broken | None, display: Display) -> dict[str, Any] | None:
    if broken is None:
        return None
    return {"why": why_document(broken.why, display), "change": change_document(broken.change)}
