"""Options for a seat as text for a terminal, in whole sentences to be read aloud."""

from __future__ import annotations

from typing import Any

from fitdb.sheets.fit_report import wrapped

WORDS = {
    "fits": "FITS",
    "fits_with": "FITS WITH A REMEDY",
    "measure": "MEASURE FIRST",
    "checking": "STILL CHECKED",
    "clash": "CLASH",
}
MOST_READINGS = 6  # of one part; a screen is to be read, not scrolled
ALWAYS = "These numbers do not clash: that is all that is known of a part that fits."


def options_report(document: dict[str, Any], width: int = 80) -> str:
    """The seat, what is wrong already, the parts of the page, why one cannot stand, and the other seats."""
    lines = wrapped(f"{_named(document['seat'])}: {document['sentence']}", width)
    if document["now"] is not None:
        lines += wrapped(f"There now: {document['now']}.", width)
    for clash in document["already_clashing"]:
        lines += wrapped(f"Already: {clash['sentence']} ({', '.join(clash['seats'])})", width, "  ! ", "    ")
    lines += _broken(document["broken"], width)
    if document["left_empty"]:
        lines += wrapped(f"No part is known for: {', '.join(document['left_empty'])}.", width)
    for option in document["options"]:
        lines += ["", *_option(option, width)]
    if document["next"] is not None:
        parts, lines_in_all = document["total"], document["different"]
        alike = f", {lines_in_all} of them different" if lines_in_all != parts else ""
        lines += ["", f"{parts} in all{alike}. The next page: --after", document["next"]]
    if document["why"] is not None:
        lines += ["", *wrapped(f"Why not {document['why']['part']}: {document['why']['sentence']}", width)]
    lines += _others(document["other_seats"], width)
    if not document["complete"]:
        told = "The time was up before all was known. What is still checked is not ruled out: give it more --seconds."
        lines += ["", *wrapped(told, width)]
    lines += ["", *wrapped(ALWAYS, width)]
    stamp = f"Catalogue {document['catalogue_revision']}, rulebook {document['rulebook_stamp']}."
    return "\n".join([*lines, *wrapped(stamp, width)])


def _option(option: dict[str, Any], width: int) -> list[str]:
    marks = [word for word, so in (("there now", option["current"]), ("owned", option["owned"])) if so]
    mark = f" ({', '.join(marks)})" if marks else ""
    others = option["alike"]["count"]
    mark += f" and {others} more like it" if others else ""
    lines = wrapped(f"{WORDS[option['verdict']]}  {option['part']}{mark}: {option['sentence']}", width, "", "    ")
    told = []
    if option["price"] is not None:
        told.append(option["price"]["sentence"])
    if option["mass"] is not None:
        mass = option["mass"]
        pieces = f" for {mass['pieces']} pieces" if mass["pieces"] > 1 else ""
        ends = [f"{mass[end]:.3g}" for end in ("low", "high")]
        range_told = f" ({' to '.join(ends)})" if ends[0] != ends[1] else ""
        told.append(f"Mass {mass['nominal']:.3g}{range_told} {mass['unit']}{pieces}.")
    if option["difference"] is not None and option["difference"]["readings"]:
        differing = "; ".join(
            f"{_named(one['reading'], False)} {one['now']}, then {one['then']}"
            for one in option["difference"]["readings"][:2]
        )
        told.append(f"Differs in {differing}.")
    for sentence in told:
        lines += wrapped(sentence, width, "    ", "    ")
    if option["verdict"] != "fits":
        for one in option["to_read"][:MOST_READINGS]:
            read = f"{_named(one['attribute'], False)} of {one['part']} ({_named(one['seat'], False)})"
            finer = " more finely" if one["finer"] else ""
            lines += wrapped(f"Read {read}{finer}: {one['how']}", width, "    - ", "      ")
        more = len(option["to_read"]) - MOST_READINGS
        lines += wrapped(f"{more} more: --json lists them all.", width, "    - ", "      ") if more > 0 else []
    return lines


def _broken(broken: dict[str, Any] | None, width: int) -> list[str]:
    if broken is None:
        return []
    lines = wrapped(broken["why"]["sentence"], width, "  ! ", "    ") if broken["why"] is not None else []
    return lines + (wrapped(broken["change"]["sentence"], width, "  > ", "    ") if broken["change"] else [])


def _others(others: list[dict[str, Any]] | None, width: int) -> list[str]:
    if others is None:
        return []
    lines = ["", "Other open seats:" if others else "No other seat is open."]
    for seat in others:
        lines += wrapped(f"{_named(seat['seat'], False)}: {seat['sentence']}", width, "  - ", "    ")
    return lines


def _named(name: str, capital: bool = True) -> str:
    told = name.replace(".", ", ").replace("_", " ")
    return told[:1].upper() + told[1:] if capital else told
