"""Every closed list of words of the model is told, and nothing that the model does not know."""

from __future__ import annotations

import ast
import inspect

from api.words import WORDS
from fitdb.model.finding import STATES
from fitdb.model.remedy import MOVES
from fitdb.model.rule import Severity, Shape
from fitdb.model.source import SOURCE_KINDS, STANDINGS
from fitdb.model.verdict import EXIT_CODES
from fitdb.rules import rulebook
from fitdb.steps import judge
from fitdb.steps.judge import box


def test_the_lists_are_those_of_the_model() -> None:
    assert set(WORDS["verdicts"]) == set(EXIT_CODES)
    assert tuple(WORDS["states"]) == STATES
    assert list(WORDS["severities"]) == [severity.word for severity in Severity]
    assert tuple(WORDS["source_kinds"]) == SOURCE_KINDS
    assert tuple(WORDS["standings"]) == STANDINGS
    assert tuple(WORDS["moves"]) == MOVES
    assert list(WORDS["shapes"]) == [shape.value for shape in Shape]


def test_every_code_that_the_judge_can_write_is_told() -> None:
    """Codes stand in `judge` as the fourth argument of Finding, as `code=`, or as what `code` or `doubt` is set to."""
    found: set[str] = set()
    for node in (one for room in (judge, box) for one in ast.walk(ast.parse(inspect.getsource(room)))):
        targets = [one.id for one in node.targets if isinstance(one, ast.Name)] if isinstance(node, ast.Assign) else []
        if isinstance(node, ast.Assign) and {"code", "doubt"} & set(targets):
            found |= _outcomes(node.value)
        if isinstance(node, ast.keyword) and node.arg == "code":
            found |= _outcomes(node.value)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding":
            found |= set().union(*(_outcomes(argument) for argument in node.args[3:4]))
    assert {"straddles", "unread", "role_absent", "words_differ"} <= found
    assert found == set(WORDS["codes"])


def _outcomes(node: ast.expr) -> set[str]:
    """The texts that an expression can come to: constants, both ends of a choice, values of a table."""
    if isinstance(node, ast.Constant):
        return {str(node.value)}
    if isinstance(node, ast.IfExp):
        return _outcomes(node.body) | _outcomes(node.orelse)
    if isinstance(node, ast.Subscript) and isinstance(node.value, ast.Dict):
        return set().union(*(_outcomes(value) for value in node.value.values))
    return set()


def test_every_word_has_one_plain_sentence() -> None:
    for words in WORDS.values():
        for word, sentence in words.items():
            assert sentence.endswith(".") and sentence[0].isupper() and len(sentence) > 6, word


def test_severities_and_shapes_of_the_rulebook_are_told() -> None:
    for rule in rulebook().rules.values():
        assert rule.severity.word in WORDS["severities"] and rule.shape.value in WORDS["shapes"]
