"""Questions that stand in an address: parts of the path, and `with=ROLE=PART` for roles and further parts."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from api.desk import Connection
from api.problems import placed_at
from fitdb.catalogue.asked import Named, document_question
from fitdb.catalogue.read import Book
from fitdb.fit import pieces_of
from fitdb.intake.assignments import parse_parts
from fitdb.model.part import Part
from fitdb.model.plan import FitQuestion
from fitdb.model.problems import Malformed


def question_of(
    connection: Connection, book: Book, parts: Sequence[tuple[str, Part]], assigned: Sequence[str]
) -> FitQuestion:
    """The parts of the path (role or nothing; part) in the roles that `with` gives them, and its further parts.

    Malformed, at `with`, when it cannot be read, names a part that is not there, or leaves a part without a seat.
    """
    with placed_at("/query/with"):
        found, problems = parse_parts(assigned)
        if problems:
            raise Malformed(problems)
        roles: dict[str, list[str]] = {}
        for one in found:
            roles.setdefault(one.part, []).append(one.role)
        named = [(roles[part.id].pop(0) if roles.get(part.id) else role, part) for role, part in parts]
        others = [Named(role, part_id, None, "") for part_id, waiting in roles.items() for role in waiting]
        more = document_question(connection, book, others, {}, {})
        question = FitQuestion((*named, *more.parts))
        try:
            pieces_of(question, book)
        except Malformed as malformed:
            hints = [one.hint.replace("Write ROLE=", "Add with=ROLE=") for one in malformed.problems]
            pairs = zip(malformed.problems, hints, strict=True)
            raise Malformed(dataclasses.replace(one, hint=hint) for one, hint in pairs) from None
    return question
