"""The shapes of what is asked about a plan, which are enforced, and of how every answer to one begins."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from api.fit_shapes import Asked
from api.shapes import Shape
from fitdb.job_card import GREATEST_RATE

BoardWord = Literal["before", "as_asked", "built"]
ViewWord = Literal["side", "plan"]


class PlanQuestion(Asked):
    """A plan with what is wanted beside it. A plan alone may also be sent as it is."""

    plan: Any = Field(description="The plan, written as in a plan file (/v1/schemas/plan-file).")
    units: Literal["mm", "inch", "fraction"] = Field("mm", description="How lengths stand in sentences.")


class SwapQuestion(PlanQuestion):
    compare: Any = Field(
        None, description="Another plan: both are judged and told side by side. Only where a swap is asked."
    )


class RideQuestion(PlanQuestion):
    track: str | None = Field(
        None,
        description="A way that was ridden: the text of a GPX file, or of a table with distance, elevation and speed "
        "(CSV). At most 8 MB.",
    )


class JobcardQuestion(PlanQuestion):
    # Held against its bounds by check_rate, which says what a rate is.
    rate_mu_per_hour: float | None = Field(
        None,
        description="What an hour of labour costs, mu: adds a quote. One mu is about one euro or dollar.",
        json_schema_extra={
            "anyOf": [{"type": "number", "minimum": 0, "maximum": GREATEST_RATE}, {"type": "null"}],
        },
    )


class SheetQuestion(RideQuestion, JobcardQuestion):
    """A plan with everything that may be wanted beside it on a sheet."""


QUESTIONS = (PlanQuestion, SwapQuestion, RideQuestion, JobcardQuestion, SheetQuestion)


class PlanHead(Shape):
    id: str
    title: str
    layout: str
