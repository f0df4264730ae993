"""Parameters that several resources share, each with the example that the documentation and the tests use."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import Path, Query
from pydantic import BaseModel

PART, OTHER_PART = "wheel-90-six-window", "driven-36-six-lug"
INTERFACE, RULE = "core-six-20", "core_windows.lugs_enter"


def example(value: object) -> dict[str, Any]:
    return {"usual": {"value": value}}


def answered(model: type[BaseModel], description: str) -> dict[int | str, dict[str, Any]]:
    """How a 200 is documented."""
    return {200: {"model": model, "description": description}}


PartId = Annotated[str, Path(description="A part id.", openapi_examples=example(PART))]
FirstPart = Annotated[str, Path(description="A part id.", openapi_examples=example(PART))]
SecondPart = Annotated[str, Path(description="Another part id.", openapi_examples=example(OTHER_PART))]
InterfaceId = Annotated[str, Path(description="An interface id.", openapi_examples=example(INTERFACE))]
RuleId = Annotated[str, Path(description="A dotted rule id.", openapi_examples=example(RULE))]
ClassWanted = Annotated[
    str,
    Query(
        alias="class",
        min_length=1,
        max_length=80,
        description="The class of part wanted, those that are like it included.",
        openapi_examples=example("wheel"),
    ),
]
AllOfThem = Annotated[bool, Query(alias="all", description="List those that clash as well.")]
With = Annotated[
    list[str],
    Query(
        alias="with",
        max_length=58,
        description="ROLE=PART, any number of times: one more part, or the role of one that is named already.",
    ),
]
