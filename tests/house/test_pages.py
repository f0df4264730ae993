"""Pages written from the code are as the code would write them now."""

from __future__ import annotations

from fitdb.rules import rulebook
from fitdb.sheets.rulebook import PAGE, rulebook_page


def test_the_rulebook_page_is_in_step() -> None:
    assert PAGE.read_text(encoding="utf-8") == rulebook_page(rulebook()), (
        "stale page; mend it with: fitdb rules --write"
    )
