"""The body of a request, decoded strictly: what JSON forbids, repeats or hides is a fault with its place."""

from __future__ import annotations

import json
import unicodedata
from typing import Any

from fastapi import Request

from api.problems import Refused
from fitdb.intake.documents import step
from fitdb.intake.nearest import shortened
from fitdb.model.problems import Malformed, Problem

DEEPEST = 32
NOT_TEXT = ("Cc", "Cs")  # control characters and halves of surrogate pairs
HOW_TO_SEND = "Send JSON with the header `content-type: application/json`."


async def decoded_body(request: Request) -> Any:
    """The decoded body. Refused (400, 415) when it is no JSON, Malformed when its text holds what no text may."""
    return decoded(await _body(request))


async def decoded_body_with_a_track(request: Request) -> Any:
    """The same, where the text of a file may stand at /track: its lines end, and whoever reads it finds its faults."""
    return decoded(await _body(request), files=("/track",))


async def _body(request: Request) -> bytes:
    declared = request.headers.get("content-type", "").split(";")[0].strip().lower()
    if declared != "application/json":
        what = f"the body is declared as {shortened(declared)!r}." if declared else "the body is not declared."
        raise Refused(415, [Problem("not_json", what, hint=HOW_TO_SEND)])
    return await request.body()


def decoded(body: bytes, files: tuple[str, ...] = ()) -> Any:
    """Strict JSON: UTF-8, finite numbers, no key twice, no deeper than DEEPEST, no control characters.

    `files`: where the text of a file may stand, which is not looked into.
    """
    repeated: list[str] = []

    def no_key_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found = dict(pairs)
        if len(found) < len(pairs):
            keys = [key for key, _ in pairs]
            repeated.extend(key for key in found if keys.count(key) > 1)
        return found

    try:
        data = json.loads(body.decode("utf-8"), object_pairs_hook=no_key_twice, parse_constant=_not_finite)
    except UnicodeDecodeError as fault:
        what = f"byte {fault.start} is not UTF-8."
        raise Refused(400, [Problem("not_utf8", what, hint="Save the text as UTF-8.")]) from None
    except RecursionError:
        raise Refused(400, [_too_deep()]) from None
    except json.JSONDecodeError as fault:
        what = f"line {fault.lineno}, column {fault.colno}: {fault.msg[:1].lower()}{fault.msg[1:]}."
        raise Refused(400, [Problem("not_json", what, hint="Check quotes, commas and brackets there.")]) from None
    except ValueError:  # a whole number of thousands of digits
        raise Refused(400, [Problem("not_a_number", "a number has too many digits.", hint="Shorten it.")]) from None
    if repeated:
        what = f"the key `{shortened(repeated[0])}` stands twice in one object."
        raise Refused(400, [Problem("duplicate_key", what, hint="Keep one of the two.")])
    faults = _faults_of_text(data, files)
    if faults:
        raise Malformed(faults)
    return data


def _not_finite(word: str) -> float:
    raise Refused(422, [Problem("not_finite", f"{word} is not a number of JSON.", hint="Leave out what is unknown.")])


def _faults_of_text(data: Any, files: tuple[str, ...]) -> list[Problem]:
    """Faults of every key, text and number, found without recursion; Refused when the nesting is too deep."""
    faults: list[Problem] = []
    waiting: list[tuple[Any, str, int]] = [(data, "", 1)]
    while waiting:
        value, path, depth = waiting.pop()
        if depth > DEEPEST:
            raise Refused(400, [_too_deep()])
        if isinstance(value, dict):
            for key, inner in value.items():
                inside = step(path, shortened(key, 80))
                faults += _faults_of(key, inside)
                waiting.append((inner, inside, depth + 1))
        elif isinstance(value, list):
            waiting.extend((inner, step(path, index), depth + 1) for index, inner in enumerate(value))
        elif isinstance(value, str) and path not in files:
            faults += _faults_of(value, path)
        elif isinstance(value, float) and value - value != 0.0:  # 1e999 is read as infinity
            faults.append(
                Problem("not_finite", "this is not a finite number.", path, hint="Leave out what is unknown.")
            )
    return sorted(faults, key=lambda fault: fault.path)


def _faults_of(text: str, path: str) -> list[Problem]:
    return text_faults(text, path) if not text.isascii() or not text.isprintable() else []


def text_faults(text: str, path: str) -> list[Problem]:
    """A control character or half a surrogate pair, named by its number; tabs and line ends count as such too."""
    bad = next((character for character in text if unicodedata.category(character) in NOT_TEXT), "")
    if not bad:
        return []
    half = unicodedata.category(bad) == "Cs"
    code = "lone_surrogate" if half else "control_character"
    what = f"this text holds {'half a character' if half else 'the control character'} U+{ord(bad):04X}."
    return [Problem(code, what, path, hint="Delete it.")]


def _too_deep() -> Problem:
    return Problem("too_deep", f"the JSON is nested deeper than {DEEPEST} levels.", hint="No question needs as much.")
