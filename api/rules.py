"""GET /v1/rules: the rulebook as data."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request, Response

from api.parameters import RuleId, answered, example
from api.problems import not_found
from api.replies import Checked, desk_of, told
from api.shapes import RuleList, RuleShape
from fitdb.intake.nearest import did_you_mean, shortened
from fitdb.model.problems import Malformed, Problem
from fitdb.search import rule_document

router = APIRouter(tags=["rules"], dependencies=[Checked])


@router.get("/v1/rules", operation_id="listRules", responses=answered(RuleList, "Rules, in the order of joints."))
def list_rules(
    request: Request,
    joint: Annotated[
        str, Query(max_length=80, description="A joint number, such as J15.", openapi_examples=example("J15"))
    ] = "",
    kind: Annotated[str, Query(max_length=80, description="A kind of joint, such as core_windows.")] = "",
) -> Response:
    """Every rule, or those of one joint: what it measures, its limits with their sources, its worked examples."""
    rules = desk_of(request).rules

    def chosen() -> dict[str, Any]:
        numbers = {one.joint.lower(): one.joint for one in rules.kinds.values()}
        faults = []
        for name, wanted, known in (("joint", joint.lower(), list(numbers)), ("kind", kind, list(rules.kinds))):
            if wanted and wanted not in known:
                what = f"the rulebook has no {name} {shortened(wanted)!r}."
                hint = did_you_mean(wanted, known) or "Leave it out for all of them."
                faults.append(Problem(f"unknown_{name}", what, f"/query/{name}", hint=hint))
        if faults:
            raise Malformed(faults)
        found = [
            rule_document(rule.id)
            for group in rules.by_kind.values()
            for rule in group
            if (not joint or rules.kinds[rule.kind].joint.lower() == joint.lower()) and (not kind or rule.kind == kind)
        ]
        return {"rules": found, "rulebook_stamp": rules.stamp}

    return told(request, lambda *_: chosen())


@router.get("/v1/rules/{rule_id}", operation_id="getRule", responses=answered(RuleShape, "One rule."))
def get_rule(request: Request, rule_id: RuleId) -> Response:
    """One rule by its dotted id."""
    rules = desk_of(request).rules

    def chosen() -> dict[str, Any]:
        if rule_id not in rules.rules:
            raise not_found("/path/rule_id", "rule", rule_id, rules.rules)
        return rule_document(rule_id)

    return told(request, lambda *_: chosen())
