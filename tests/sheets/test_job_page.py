"""The sheet for the bench: one file that stands by itself, holds the whole answer, and escapes what people type."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from fitdb.intake.nearest import plain
from fitdb.sheet import page
from fitdb.steps.explain import Display

PLANS = Path(__file__).parents[2] / "seed_parts" / "plans"
ENTERED = "rear_truck.size_a=31.54 +-0.02 mm"
VOID = {"meta", "input", "br", "hr", "img", "link"}
SVG_TEXT = re.compile(r"<svg.*?</svg>", re.DOTALL)


class Reading(HTMLParser):
    """What stands on the page: tags that are opened and closed in order, text, and everything that loads something."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.misnested: list[str] = []
        self.loads: list[tuple[str, str]] = []
        self.text: list[str] = []
        self.boxes = 0
        self.headings: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID:
            self.open.append(tag)
        self.boxes += ("type", "checkbox") in attrs
        for name, value in attrs:
            if name in ("src", "href", "xlink:href", "action", "srcset") or (name or "").startswith("on"):
                self.loads.append((name, value or ""))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        return

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open[-1] != tag:
            self.misnested.append(tag)
        else:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        self.text.append(data)
        if self.open and self.open[-1] == "h2":
            self.headings.append(data)


def read(html: str) -> Reading:
    reading = Reading()
    reading.feed(html)
    return reading


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    return f"sqlite:///{tmp_path_factory.mktemp('sheet') / 'fitdb.sqlite'}"


@pytest.fixture(scope="module")
def river(address: str) -> str:
    """The sheet of the river plan with the reading that decides, a quote and a ridden track."""
    track = PLANS / "river-path-ride.csv"
    return page(address, PLANS / "river-path.yaml", [ENTERED], Display(), 45.0, track)


def test_it_is_one_file_that_loads_nothing_and_runs_nothing(river: str) -> None:
    reading = read(river)
    assert reading.loads == []
    assert "<script" not in river and "url(" not in river and "@import" not in river
    assert "<svg" in river


def test_every_tag_that_is_opened_is_closed_in_its_order(river: str) -> None:
    reading = read(river)
    assert reading.open == [] and reading.misnested == []


def test_all_parts_of_the_answer_stand_on_it(river: str) -> None:
    headings = {plain(one) for one in read(river).headings}
    wanted = ("What mends it", "To get", "What the board will do", "Settings", "Order of work", "The board to scale")
    assert {plain(one) for one in (*wanted, "Cautions")} <= headings
    assert "FITS WITH A REMEDY" in river
    assert "rulebook" in river and re.search(r"\d{4}-\d{2}-\d{2}", river)


def test_it_can_be_ticked_off(river: str) -> None:
    assert read(river).boxes > 40


def test_the_quote_adds_up_to_what_its_lines_say(river: str) -> None:
    section = river[river.index("<h3>Quote") :]
    table = section[: section.index("</table>")]
    lines = [int(one) for one in re.findall(r"<td class='number'>(\d+) mu", table)]
    total = re.search(r"Together (\d+) mu", section)
    assert total and lines
    assert abs(sum(lines) - int(total.group(1))) <= len(lines)  # each line is rounded to a whole mu


def test_it_prints_without_a_size_of_paper_so_that_a4_and_letter_both_do(river: str) -> None:
    rule = re.search(r"@page \{([^}]*)\}", river)
    assert rule and "size" not in rule.group(1)


def test_a_plan_that_must_be_measured_says_stop_and_has_no_rebuild(address: str) -> None:
    told = " ".join("".join(read(page(address, PLANS / "river-path.yaml", [], Display())).text).split())
    assert "MEASURE FIRST" in told and "Readings to take first" in told
    assert "Not to be used: a joint that can hurt someone is undecided" in told
    assert "Measuring only" in told and "Rebuild" not in told


def test_a_plan_that_clashes_has_no_order_of_work(address: str) -> None:
    told = " ".join("".join(read(page(address, PLANS / "river-path-charger.yaml", [], Display())).text).split())
    assert "CLASH" in told and "No order of work" in told


def test_what_a_person_typed_is_never_markup(address: str, tmp_path: Path) -> None:
    plan = tmp_path / "typed.yaml"
    plan.write_text(
        'plan: typed\ntitle: "<b>Deck</b> & <script>alert(1)</script>"\nlayout: unpowered\n'
        "board: {deck: deck-ply-insert-480-800, front_truck: truck-180-44, front_wheel: wheel-90-six-window}\n"
        "on: {front_wheel: wheel-97-six-window}\n",
        encoding="utf-8",
    )
    html = page(address, plan, [], Display())
    assert "<script" not in html and "&lt;script&gt;" in html
    reading = read(html)
    assert reading.open == [] and reading.misnested == []
    assert "<b>Deck" not in SVG_TEXT.sub("", html)
