"""GET /v1/words: every closed list of words that answers are made of, with one plain sentence each."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response

from api.parameters import answered
from api.replies import Checked, told
from api.shapes import WordList

router = APIRouter(tags=["vocabulary"], dependencies=[Checked])

WORDS = {
    "verdicts": {
        "fits": "No rule that could be asked fails, whatever the readings are within their ranges.",
        "fits_with": "As asked it clashes, and with a named remedy no rule fails.",
        "measure": "One or more readings decide it, and they are not known well enough.",
        "clash": "At least one rule fails, whatever the readings are within their ranges.",
        "not_asked": "No rule could be asked: the parts do not meet, one is missing, or a plan touches nothing.",
    },
    "states": {
        "holds": "The rule is kept over the whole range of its readings.",
        "fails": "The rule is broken over the whole range of its readings.",
        "undecided": "The range of the readings reaches across the limit, or a reading is missing.",
        "not_asked": "A part or an attribute that the rule asks about is absent.",
        "excused": "It does not matter here: another rule holds over its whole range, or there is nothing to guard.",
    },
    "severities": {
        "info": "Worth knowing; nothing comes of it.",
        "nuisance": "It annoys: noise, rattle, a part to be bought again.",
        "damage": "It ruins a part.",
        "injury": "It can throw or hurt somebody.",
        "fire": "It can set the pack or its wires on fire.",
    },
    "codes": {
        "holds": "The margin is at least zero over the whole range.",
        "fails": "The margin is below zero over the whole range.",
        "straddles": "The range lies on both sides of the limit.",
        "unread": "Nobody has read something that the rule needs, and nothing can stand in for it.",
        "too_many_words": "Too many words are still open to go through them all.",
        "words_differ": "The words that are compared do not agree.",
        "word_unknown": "A word that decides is not known.",
        "solver_undecided": "The search found neither a way nor a proof that there is none.",
        "role_absent": "A part that the rule asks about is not named.",
        "attribute_absent": "A part that is named has no such attribute.",
        "excused": "Another rule that holds speaks this one free.",
        "excuse_undecided": "It fails, unless another rule that is still undecided speaks it free.",
        "does_not_apply": "There is nothing of this kind here for the rule to guard.",
    },
    "source_kinds": {
        "standard": "Stated by a published standard.",
        "data_sheet": "Stated by the data sheet of a part.",
        "caliper": "Read with a caliper.",
        "ruler": "Read with a ruler or tape.",
        "meter": "Read with an electrical meter or a gauge.",
        "level": "Read with a level or an angle finder.",
        "counted": "Counted.",
        "photo": "Taken from a picture.",
        "guess": "Guessed.",
        "default": "Nobody read it: what is usual stands in.",
    },
    "standings": {
        "published": "Stands in a source that anybody can look up.",
        "derived": "Worked out from published numbers.",
        "from memory": "Recalled, and not looked up again.",
        "common practice, no source": "What people who build boards do; nobody has published it.",
        "invented for the demo": "Made up so that there is something to try.",
        "own reading": "Read by whoever asks.",
    },
    "moves": {
        "insert": "Put an adapter into an empty seat.",
        "substitute": "Exchange a small part for another.",
        "alter": "Change a part for good, such as by drilling.",
        "set": "Change a setting.",
    },
    "where": {
        "shelf": "Owned, and listed by the plan.",
        "stock": "To be bought, and listed by the plan.",
        "catalogue": "To be bought somewhere: the catalogue has it, the plan does not list it.",
        "donor": "On another board; told by the name that the plan gives to that board.",
    },
    "buys": {
        "catalogue": "A remedy may use the whole catalogue.",
        "listed": "A remedy may use only what the plan lists under shelf, stock and donors.",
    },
    "units": {
        "mm": "Lengths in sentences stand in millimetres.",
        "inch": "Lengths in sentences stand in inches, as decimals.",
        "fraction": "Lengths in sentences stand in inches, as fractions.",
    },
    "shapes": {
        "monotone": "The quantity never turns back in any one reading, so its corners tell all.",
        "stepped": "The same, with jumps, as where something is counted.",
        "sampled": "The quantity may turn back, so the inside of the range is looked at too.",
        "asked": "A search or a geometry program, asked at its most generous and its meanest corner.",
    },
    "reading_kinds": {
        "number": "A size with a range, in one unit.",
        "count": "A whole number.",
        "word": "A word of a list.",
        "designation": "A name that stands for a size, such as 608 for a bearing.",
        "outline": "A drawn shape or a set of holes.",
    },
    "limit_kinds": {
        "at_least": "The quantity must not be smaller.",
        "at_most": "The quantity must not be larger.",
        "between": "The quantity must lie between two bounds.",
        "same": "The words on both sides must agree.",
        "one_of": "The word must be one of a list.",
    },
    "role_kinds": {
        "single": "One part; without it the line makes no joint.",
        "list": "Any number of parts, in order.",
        "if_present": "Some rules ask about it, and are not asked while it is absent.",
    },
    "expansions": {
        "one": "The line makes one joint.",
        "chain": "One joint per pair of neighbours along a row of seats.",
        "each": "One joint per part in the first role.",
        "over": "One joint per side, each with its own constants.",
    },
}


@router.get("/v1/words", operation_id="listWords", responses=answered(WordList, "Every list of words."))
def list_words(request: Request) -> Response:
    """Verdicts, states, severities, codes, kinds of source, standings, moves, shapes, and what each word means."""
    told_words = {
        name: [{"word": word, "sentence": sentence} for word, sentence in words.items()]
        for name, words in WORDS.items()
    }
    return told(request, lambda *_: {"words": told_words})
