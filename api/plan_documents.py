"""A plan document in the body of a request: read with every fault at its place, whatever it stands in."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator

from api.desk import Connection
from fitdb.catalogue.asked import plan_of_document
from fitdb.catalogue.read import Book
from fitdb.intake.assignments import KEY
from fitdb.intake.documents import step
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.model.plan import SwapPlan
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook

# What may stand beside a plan in an object of its own, and how it is written there.
BESIDE = {
    "units": '"inch"',
    "compare": "{...}",
    "track": '"..."',
    "rate_mu_per_hour": "60",
    "seat": '"wheel"',
}


def plan_of(
    document: object,
    connection: Connection,
    book: Book,
    rules: Rulebook,
    place: str = "",
    beside: Iterable[str] = ("units",),
) -> SwapPlan:
    """The plan that a decoded document describes; Malformed with every fault, each pointer beginning with `place`.

    `beside`: what may be asked beside the plan here, for whoever writes it into the plan itself.
    """
    unknown = tuple(_unknown_limits(document, rules))
    try:
        plan = plan_of_document(connection, book, document)
    except Malformed as malformed:
        told = {(fault.code, fault.path) for fault in malformed.problems}
        more = tuple(fault for fault in unknown if (fault.code, fault.path) not in told)
        raise Malformed(_said_here(fault, place, beside) for fault in (*malformed.problems, *more)) from None
    if unknown:
        raise Malformed(_said_here(fault, place, beside) for fault in unknown)
    return plan


def _said_here(fault: Problem, place: str, beside: Iterable[str]) -> Problem:
    hint, key = fault.hint, fault.path.removeprefix("/")
    if fault.code == "unknown_key" and key in beside and key in BESIDE and not place:
        hint = f'Beside a plan it stands in an object of its own: {{"plan": {{...}}, "{key}": {BESIDE[key]}}}.'
    return dataclasses.replace(fault, path=place + fault.path, hint=hint)


def _unknown_limits(document: object, rules: Rulebook) -> Iterator[Problem]:
    """Limits that no rule knows: a mistyped key would leave the rule's own limit in force without a word."""
    limits = document.get("limits") if isinstance(document, dict) else None
    if not isinstance(limits, dict):
        return
    known = {
        bound.key
        for rule in rules.rules.values()
        for limit in (rule.hard, rule.comfort)
        for bound in (getattr(limit, "low", None), getattr(limit, "high", None))
        if bound is not None
    }
    for key in limits:
        if KEY.fullmatch(key) and key not in known:
            what = f"no rule has a limit `{shortened(key)}`."
            hint = did_you_mean(key, known) or "GET /v1/rules lists the limits with their keys."
            yield Problem("unknown_limit", what, step("/limits", key), hint=hint)
