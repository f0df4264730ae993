"""Requests that nobody thought of, made from the OpenAPI document: whatever comes, the document says what happens."""

from __future__ import annotations

import schemathesis
from hypothesis import HealthCheck, Phase, settings

from api.main import create_app

EXAMPLES = 40
# Whole plans take minutes to make up at random; what stands wrong in one is gone through in test_swaps.
WITH_A_PLAN = [
    *("askSwap", "askConflicts", "askBuilds", "keepBoard", "keepPlan"),
    *("askRide", "askRideView", "askSettings", "askJobcard", "askSheet"),
    *("askOptions", "askWhyNot"),
]
# The maker of bodies gives up, now and then, on an array of a question that it has spoilt itself: its own fault, said
# as InvalidSchema before anything is sent. Bodies that follow the document are still made up for it, and what stands
# wrong in one is gone through in test_api_fits and test_api_failures.
WELL_FORMED_ALONE = ["askFits"]
CONFIG = {
    "operations": [{"include-operation-id": WELL_FORMED_ALONE, "generation": {"mode": "positive"}}],
    "checks": {
        # A question may be well formed and still name a part, a class or an attribute that nobody has: 404 or 422. A
        # change may be well formed and be meant for another version than the one that stands: 412, or for none: 428.
        "positive_data_acceptance": {"expected-statuses": ["2xx", "304", "404", "412", "422", "428"]},
    },
}


schema = schemathesis.openapi.from_dict(
    create_app("sqlite://").openapi(), config=schemathesis.Config.from_dict(CONFIG)
).exclude(operation_id=WITH_A_PLAN)


@schema.parametrize()
@settings(
    max_examples=EXAMPLES,
    deadline=None,
    derandomize=True,
    database=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)
def test_whatever_comes_the_document_says_what_happens(case: schemathesis.Case, own_base_url: str) -> None:
    case.call_and_validate(base_url=own_base_url)
