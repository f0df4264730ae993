"""An adapter lead between two power plugs splits their joint in two, and each half looks at its own end."""

from __future__ import annotations

import pytest

from fitdb.catalogue.asked import typed_question
from fitdb.catalogue.read import Book
from fitdb.fit import fit
from fitdb.model.part import Part
from fitdb.rules import rulebook

Catalogue = tuple[object, Book, dict[str, list[Part]]]
ENDS = ("pack_plug=connector-90-socket-metered", "rail_plug=connector-60-plug-metered")


def states(catalogue: Catalogue, *named: str) -> dict[tuple[str, str], str]:
    """State by joint and rule of everything that the named parts are asked as power plugs."""
    engine, book, _ = catalogue
    with engine.connect() as connection:  # type: ignore[attr-defined]
        verdict = fit(typed_question(connection, book, [], list(named)), book, rulebook(), lambda stock: ())
    return {
        (joint.joint.id, finding.rule.id): finding.state
        for joint in verdict.joints
        for finding in joint.findings
        if finding.rule.kind == "power_plugs"
    }


def test_two_sizes_do_not_mate(sqlite_catalogue: Catalogue) -> None:
    assert states(sqlite_catalogue, *ENDS)["power_plugs", "power_plugs.size_equal"] == "fails"


@pytest.mark.parametrize(
    ("adapter", "size"), [("adapter-lead-90-to-60", {"holds"}), ("adapter-lead-60-to-90", {"fails"})]
)
def test_an_adapter_helps_one_way_round_only(sqlite_catalogue: Catalogue, adapter: str, size: set[str]) -> None:
    found = states(sqlite_catalogue, *ENDS, f"power_adapter={adapter}")
    assert len({joint for joint, _ in found}) == 2
    for rule in ("size_equal", "form_equal", "genders_mate", "polarity_equal"):
        told = {state for (_, rule_id), state in found.items() if rule_id == f"power_plugs.{rule}"}
        assert told == (size if rule == "size_equal" else {"holds"}), rule


def test_an_adapter_that_nobody_metered_is_no_answer(sqlite_catalogue: Catalogue) -> None:
    found = states(
        sqlite_catalogue,
        "pack_plug=connector-60-socket-metered",
        "rail_plug=connector-90-plug-metered",
        "power_adapter=adapter-lead-unmetered",
    )
    told = [state for (_, rule_id), state in found.items() if rule_id == "power_plugs.polarity_equal"]
    assert told == ["undecided", "undecided"]
