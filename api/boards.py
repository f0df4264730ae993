"""/v1/boards: boards as they stand, kept under an id."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Path, Request, Response

from api.bodies import decoded_body
from api.kept import NEW_ID, Kind, keep, kept_list, kept_one, own_example, remove
from api.kept_shapes import BoardList, KeptShape
from api.parameters import answered
from api.plan_examples import BOARD
from api.replies import After, Checked, Limit
from api.writes import FromThisMachine, IfMatch, IfMatchToChange, IfNoneMatchToMake

router = APIRouter(tags=["boards"], dependencies=[Checked])
KIND = Kind("board", keys=("plan", "title", "layout", "board", "readings"))
BoardId = Annotated[str, Path(description="The id of a board.", openapi_examples=own_example(BOARD["plan"]))]
NewBoardId = Annotated[
    str, Path(description="The id of the board.", pattern=NEW_ID, openapi_examples=own_example(BOARD["plan"]))
]
BODY = {
    "requestBody": {
        "required": True,
        "content": {
            "application/json": {
                "schema": {"$ref": "#/components/schemas/BoardFile"},
                "examples": {"a board": {"value": BOARD}},
            }
        },
    }
}


@router.get("/v1/boards", operation_id="listBoards", responses=answered(BoardList, "A page of boards, by id."))
def list_boards(request: Request, after: After = "", limit: Limit = 50) -> Response:
    """The boards that are kept, page by page."""
    return kept_list(request, KIND, after, limit)


@router.get("/v1/boards/{board_id}", operation_id="getBoard", responses=answered(KeptShape, "The board."))
def get_board(request: Request, board_id: BoardId) -> Response:
    """A board as it was kept. Its ETag is its version."""
    return kept_one(request, KIND, board_id)


@router.put(
    "/v1/boards/{board_id}",
    operation_id="keepBoard",
    dependencies=[FromThisMachine],
    responses={
        200: {"model": KeptShape, "description": "The board as it is now."},
        201: {"model": KeptShape, "description": "The new board."},
    },
    openapi_extra=BODY,
)
def keep_board(
    request: Request,
    board_id: NewBoardId,
    body: Annotated[Any, Depends(decoded_body)],
    if_match: IfMatchToChange = None,
    if_none_match: IfNoneMatchToMake = None,
) -> Response:
    """Keeps a board under an id: a plan document with plan, title, layout, board and readings alone.

    A new one with `if-none-match: *`, a changed one with `if-match` and the version that you saw. Only from the
    machine that the server runs on.
    """
    return keep(request, KIND, board_id, body)


@router.delete(
    "/v1/boards/{board_id}",
    operation_id="removeBoard",
    dependencies=[FromThisMachine],
    status_code=204,
    response_class=Response,
    responses={204: {"description": "It is gone."}},
)
def remove_board(request: Request, board_id: BoardId, if_match: IfMatch = None) -> Response:
    """Takes a board away, with `if-match` and the version that you saw. Only from the machine of the server."""
    return remove(request, KIND, board_id)
