"""What people type, one table per syntax, and what never may happen whatever is typed."""

from __future__ import annotations

import math
import time
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitdb.intake.readings import Fits, assumed, own_source, read
from fitdb.model.part import Attribute, AttributeTable
from fitdb.model.problems import Problem
from fitdb.model.reading import Count, Designation, Number, Outline, Word
from fitdb.model.source import Source

NARROW = "window_width"


class Reader:
    """Reads one attribute of the small table by name."""

    def __init__(self, table: AttributeTable, fits: Fits, source: Source) -> None:
        self.table, self.fits, self.source = table, fits, source

    def attribute(self, name: str) -> Attribute:
        return next(one for (_, its_name), one in self.table.attributes.items() if its_name == name)

    def good(self, name: str, typed: object, source: str = "") -> Any:
        given_source = own_source(source) if source else self.source
        reading, problems = read(typed, self.attribute(name), self.table, self.fits, given_source)
        assert problems == ()
        return reading

    def bad(self, name: str, typed: object) -> Problem:
        reading, problems = read(typed, self.attribute(name), self.table, self.fits, self.source)
        assert reading is None and problems
        return problems[0]


@pytest.fixture(scope="module")
def reader(table: AttributeTable, fits: Fits, caliper: Source) -> Reader:
    return Reader(table, fits, caliper)


@pytest.mark.parametrize(
    ("name", "typed", "low", "nominal", "high", "spread_assumed"),
    [
        (NARROW, "9", 8.95, 9, 9.05, True),
        (NARROW, 9, 8.95, 9, 9.05, True),
        (NARROW, 9.25, 9.2, 9.25, 9.3, True),
        (NARROW, " 9.0 mm ", 8.95, 9, 9.05, True),
        (NARROW, "9,5", 9.45, 9.5, 9.55, True),
        (NARROW, "9,5 +-0.2 mm", 9.3, 9.5, 9.7, False),
        (NARROW, "9.5 ± 0,2 mm", 9.3, 9.5, 9.7, False),
        (NARROW, "9.5 +/- 0.2mm", 9.3, 9.5, 9.7, False),
        (NARROW, "9.5 +/−0.2", 9.3, 9.5, 9.7, False),
        (NARROW, "9.5 -/+ 0.2", 9.3, 9.5, 9.7, False),
        (NARROW, "9.5 mm ±0.2 mm", 9.3, 9.5, 9.7, False),
        (NARROW, "9.5 mm ± 10 thou", 9.246, 9.5, 9.754, False),
        (NARROW, "9.5 ± 0", 9.5, 9.5, 9.5, False),
        (NARROW, "10 ± 5 %", 9.5, 10, 10.5, False),
        (NARROW, "8 -0.01/+0.00 mm", 7.99, 8, 8, False),
        (NARROW, "8 −0.01/+0.00 mm", 7.99, 8, 8, False),
        (NARROW, "8 +0.02/-0 mm", 8, 8, 8.02, False),
        (NARROW, "8 +0,02/-0", 8, 8, 8.02, False),
        (NARROW, "8 mm -0.01/+0.02", 7.99, 8, 8.02, False),
        (NARROW, "8 +0.02 -0.01 mm", 7.99, 8, 8.02, False),
        (NARROW, "8 +0.02/0", 8, 8, 8.02, False),
        (NARROW, "10 -10%/+5%", 9, 10, 10.5, False),
        (NARROW, "8 -0.014/-0.005 mm", 7.986, 7.9905, 7.995, False),  # both to one side: the span is what is said
        (NARROW, "8..10 mm", 8, 9, 10, False),
        (NARROW, "8 mm .. 1 cm", 8, 9, 10, False),
        (NARROW, "8…10", 8, 9, 10, False),
        (NARROW, "8 to 10 mm", 8, 9, 10, False),
        (NARROW, "5/16 in", 7.8875, 7.9375, 7.9875, True),
        (NARROW, '5/16"', 7.8875, 7.9375, 7.9875, True),
        (NARROW, "1/2 in +-1/64 in", 12.303125, 12.7, 13.096875, False),
        (NARROW, "1 1/4 in", 31.7, 31.75, 31.8, True),
        (NARROW, "1-1/4 in", 31.7, 31.75, 31.8, True),
        (NARROW, "1¼ in", 31.7, 31.75, 31.8, True),
        (NARROW, "½ in", 12.65, 12.7, 12.75, True),
        (NARROW, "1e1 mm", 9.95, 10, 10.05, True),
        (NARROW, ".5 in", 12.65, 12.7, 12.75, True),
        (NARROW, "9 @ruler", 8.5, 9, 9.5, True),
        (NARROW, "9 @photo", 8.73, 9, 9.27, True),
        (NARROW, "9.0 mm @data sheet", 8.9, 9, 9.1, True),
        (NARROW, "9.0 ±0.3 @ruler", 8.7, 9, 9.3, False),
        (NARROW, "1.02", 1, 1.02, 1.07, True),  # clipped to what is possible
        (NARROW, "40", 39.95, 40, 40, True),
        ("outer_diameter", "90", 89.7, 90, 90.2, True),  # unequal sides in the spread table
        ("offset", "-3", -3.05, -3, -2.95, True),
        ("offset", "-3 ± 0.5", -3.5, -3, -2.5, False),
        ("offset", "−1/2 in", -12.75, -12.7, -12.65, True),
        ("max_rpm", "12000", 12000, 12000, 12000, False),  # printed ratings have no spread
        ("volts", "42 @meter", 41.79, 42, 42.21, True),
        ("slope", "12 %", 12, 12, 12, False),
        ("slope", "12 ± 2 %", 10, 12, 14, False),
        ("hardness", "78A", 78, 78, 78, False),
        ("resistance", "0.03 Ω", 30, 30, 30, False),
        ("torque", "4 Nm", 4, 4, 4, False),
        ("core_area", "6 mm²", 6, 6, 6, False),
        ("unbounded", "-1e9", -1e9, -1e9, -1e9, False),
    ],
)
def test_numbers(
    reader: Reader, name: str, typed: object, low: float, nominal: float, high: float, spread_assumed: bool
) -> None:
    reading = reader.good(name, typed)
    assert isinstance(reading, Number)
    assert (reading.low, reading.nominal, reading.high) == pytest.approx((low, nominal, high), abs=1e-12, rel=1e-12)
    assert reading.spread_assumed is spread_assumed
    assert not reading.value_assumed
    assert reading.unit == reader.attribute(name).unit
    assert reading.entered == str(typed).strip()


def test_wire_gauges(reader: Reader) -> None:
    # ASTM B258: 12 AWG 3.309 mm2 and 2.0525 mm, 14 AWG 2.081 mm2, 2/0 67.43 mm2. A larger gauge is a thinner wire.
    assert reader.good("core_area", "12 AWG").nominal == pytest.approx(3.309, abs=5e-4)
    assert reader.good("wire_diameter", "12 awg").nominal == pytest.approx(2.0525, abs=5e-5)
    assert reader.good("core_area", "2/0 AWG").nominal == pytest.approx(67.43, abs=5e-3)
    assert reader.good("core_area", "00 AWG").nominal == pytest.approx(67.43, abs=5e-3)
    between = reader.good("core_area", "12..14 AWG")
    assert (between.low, between.high) == pytest.approx((2.081, 3.309), abs=5e-4)


def test_a_kind_of_source_that_no_row_knows_gets_the_widest_spread(reader: Reader) -> None:
    reading = reader.good(NARROW, "10", source="counted")
    assert (reading.low, reading.high) == pytest.approx((9.5, 10.5))
    assert reading.spread_assumed


def test_source_named_on_the_reading(reader: Reader) -> None:
    reading = reader.good(NARROW, "9 @ruler")
    assert (reading.source.kind, reading.source.standing) == ("ruler", "own reading")
    assert reader.good(NARROW, "9 @practice").source.id == "practice"
    problem = reader.bad(NARROW, "9 @calliper")
    assert problem.code == "unknown_source" and "`caliper`" in problem.hint


@pytest.mark.parametrize(
    ("typed", "source", "low", "nominal", "high"),
    [
        # ISO 492, normal class: the bore of a 608 is 7.992 to 8.000 mm.
        ("608", "caliper", 7.992, 8, 8),
        (608, "data_sheet", 7.992, 8, 8),
        ("8", "data_sheet", 7.992, 8, 8),
        ("8", "caliper", 7.992, 8, 8),
        ("8 mm", "caliper", 7.992, 8, 8),
        ("8 mm bore", "caliper", 7.992, 8, 8),
        ("8 bore", "caliper", 7.992, 8, 8),
        ("8.0", "standard", 7.992, 8, 8),
        ("12", "standard", 11.992, 12, 12),
        ("5/16 in", "standard", 7.9295, 7.9375, 7.9375),
        ("6900", "standard", 9.992, 10, 10),
    ],
)
def test_designations(reader: Reader, typed: object, source: str, low: float, nominal: float, high: float) -> None:
    reading = reader.good("bore", typed, source)
    assert isinstance(reading, Designation)
    assert (reading.low, reading.nominal, reading.high) == pytest.approx((low, nominal, high), abs=1e-9)
    assert reading.fit == "iso492_bore" and not reading.spread_assumed


@pytest.mark.parametrize(
    ("typed", "low", "high"),
    [
        ("7.98", 7.93, 8.03),  # decimals of a caliper are a measurement, and a worn bore must not be narrowed
        ("8 @caliper", 7.95, 8.05),
        ("8 ± 0.02", 7.98, 8.02),
        ("8 -0.01/+0.00 mm", 7.99, 8.0),
        ("7.9..8.1", 7.9, 8.1),
    ],
)
def test_measured_designations_stay_measured(reader: Reader, typed: str, low: float, high: float) -> None:
    reading = reader.good("bore", typed)
    assert isinstance(reading, Number)
    assert (reading.low, reading.high) == pytest.approx((low, high), abs=1e-9)


def test_a_running_fit_lies_beside_its_nominal(reader: Reader) -> None:
    # ISO 286-2: 8 g6 is 7.986 to 7.995 mm.
    reading = reader.good("shaft", "8", source="data_sheet")
    assert (reading.low, reading.high) == pytest.approx((7.986, 7.995), abs=1e-9)
    assert reading.low <= reading.nominal <= reading.high


@pytest.mark.parametrize(
    ("typed", "values", "nominal"),
    [
        ("6", (6,), 6),
        (6, (6,), 6),
        (6.0, (6,), 6),
        ("5|6", (5, 6), 5),
        ("5..7", (5, 6, 7), 6),
        ("6 windows", (6,), 6),
        ("0", (0,), 0),
    ],
)
def test_counts(reader: Reader, typed: object, values: tuple[int, ...], nominal: int) -> None:
    reading = reader.good("window_count", typed)
    assert isinstance(reading, Count)
    assert (reading.values, reading.nominal, reading.value_assumed) == (values, nominal, False)


def test_an_unread_count_is_every_plausible_number(reader: Reader) -> None:
    reading = reader.good("window_count", "unknown")
    assert reading.values == (5, 6, 7, 8, 9, 10) and reading.value_assumed and reading.nominal == 6


@pytest.mark.parametrize(
    ("name", "typed", "possible", "value_assumed"),
    [
        ("window_form", "round", {"round"}, False),
        ("window_form", "Round|OVAL", {"round", "oval"}, False),
        ("window_form", "long slot", {"long_slot"}, False),
        ("window_form", "long-slot", {"long_slot"}, False),
        ("window_form", "unknown", {"round", "oval", "long_slot"}, True),
        ("through", "yes", {"yes"}, False),
        ("through", True, {"yes"}, False),
        ("through", False, {"no"}, False),
        ("thread", "M4", {"m4"}, False),
        ("thread", "5/16-24", {"5/16_24"}, False),  # outside the list, and the vocabulary is open
    ],
)
def test_words(reader: Reader, name: str, typed: object, possible: set[str], value_assumed: bool) -> None:
    reading = reader.good(name, typed)
    assert isinstance(reading, Word)
    assert reading.possible == possible
    assert reading.value_assumed is value_assumed
    assert reading.open_vocabulary is (name == "thread")


@pytest.mark.parametrize("name", [NARROW, "bore", "outline"])
def test_unknown_numbers_are_unread(reader: Reader, name: str) -> None:
    assert reader.good(name, "unknown") is None


def test_outlines(reader: Reader) -> None:
    typed = "ring: 0,0 40,0 40,20 0,20 0,0; ring: 5,5 10,5 10,10; holes: 20,10,5.2 30,10,5.2,12,90 +-0.2"
    reading = reader.good("outline", typed)
    assert isinstance(reading, Outline)
    assert reading.rings == (((0, 0), (40, 0), (40, 20), (0, 20)), ((5, 5), (10, 5), (10, 10)))
    assert reading.holes == ((20, 10, 5.2, 0, 0), (30, 10, 5.2, 12, 90))
    assert reading.spread == 0.2
    assert reader.good("outline", "holes: 0,0,5 20,0,5").spread == 0.05  # a caliper at hard edges
    assert reader.good("outline", "ring: 0,0 100,0 0,50 @photo").spread == pytest.approx(3.0)  # 3 % of 100 mm
    drawn = {"rings": [[[0, 0], [40, 0], [40, 20], [0, 20]]], "holes": [[20, 10, 5.2]], "spread": 0.2}
    assert reader.good("outline", drawn).rings == reading.rings[:1]


@pytest.mark.parametrize(
    ("typed", "code", "named"),
    [
        ("ring: 0,0 10,10 10,0 0,10", "outline_crosses_itself", "edge 1 (0,0 to 10,10) meets edge 3 (10,0 to 0,10)"),
        ("ring: 0,0 10,0 5,0", "outline_crosses_itself", "edge"),  # no area: the pencil turns back
        ("ring: 0,0 9,0 9,9 0,9; ring: 5,5 20,5 20,8", "outline_crosses_itself", "ring 2"),
        ("ring: 0,0 10,0 10,0", "too_few_points", "at least 3"),
        ("ring: 0,0 10,0", "too_few_points", "at least 3"),
        ("ring: 0,0 10,0 10", "outline_not_understood", "x,y"),
        ("ringg: 0,0 10,0 10,10", "outline_not_understood", "ring"),
        ("holes: 0,0,-5", "impossible_value", "-5"),
        ("holes: 0,0,1e999", "not_finite", "finite"),
        ("ring: 0,0 500,0 0,500", "impossible_value", "300"),
        ("; ;", "outline_not_understood", "neither"),
        (7, "outline_not_understood", "7"),
        ("ring: " + "1,1 2,1 2,2 " * 400, "too_many_points", "1000"),
    ],
)
def test_outline_faults(reader: Reader, typed: object, code: str, named: str) -> None:
    problem = reader.bad("outline", typed)
    assert problem.code == code
    assert named in f"{problem.message} {problem.hint}"


@pytest.mark.parametrize(
    ("name", "typed", "code", "named"),
    [
        (NARROW, "-9 mm", "impossible_value", "1 and 40 mm"),
        (NARROW, "9 m", "impossible_value", "9000"),
        (NARROW, "41..60", "impossible_value", "1 and 40 mm"),
        (NARROW, "nan", "not_finite", "window width"),
        (NARROW, "-.inf", "not_finite", "window width"),
        (NARROW, ".nan", "not_finite", "window width"),
        (NARROW, math.nan, "not_finite", "window width"),
        (NARROW, math.inf, "not_finite", "window width"),
        (NARROW, 10**400, "not_finite", "window width"),
        (NARROW, "1e999", "not_finite", "window width"),
        (NARROW, "9" * 5000, "not_finite", "window width"),
        ("unbounded", "1e308 ± 1e308", "not_finite", "unbounded"),
        (NARROW, "9 mmm", "unknown_unit", "`mm`"),
        (NARROW, "9 ± 0.1 mmm", "unknown_unit", "`mm`"),
        (NARROW, "9 kg", "other_dimension", "length in mm"),
        (NARROW, "9 ± 0.1 kg", "other_dimension", "length in mm"),
        ("slope", "5 mm", "other_dimension", "share"),
        ("unbounded", "5 mm", "other_dimension", "no unit"),
        (NARROW, "", "empty", "unknown"),
        (NARROW, None, "empty", "unknown"),
        (NARROW, "  ", "empty", "unknown"),
        (NARROW, "@caliper", "empty", "unknown"),
        (NARROW, "9\x00", "control_character", "U+0000"),
        (NARROW, "9\u200b mm", "control_character", "U+200B"),
        (NARROW, "9\n10", "control_character", "U+000A"),
        (NARROW, "x" * 10_001, "too_long", "10000"),
        (NARROW, "about nine", "not_a_number", "9.0 mm"),
        (NARROW, "mm", "not_a_number", "without its number"),
        (NARROW, "8|9", "not_a_number", "8..10 mm"),
        (NARROW, "1.000.5", "not_a_number", "9.0 mm"),
        (NARROW, "8 9", "not_a_number", "9.0 mm"),
        (NARROW, True, "not_a_number", "9.0 mm"),
        (NARROW, [9], "not_a_number", "9.0 mm"),
        (NARROW, {"low": 8}, "not_a_number", "9.0 mm"),
        (NARROW, "9 ± -0.1", "not_a_number", "9.0 mm"),
        (NARROW, "9 ±", "not_a_number", "9.0 mm"),
        (NARROW, "9 ± 0.1 ± 0.2", "unknown_unit", "mm"),
        (NARROW, "1/0 in", "not_a_number", "zero"),
        (NARROW, "5/16", "fraction_needs_unit", "5/16 in"),
        (NARROW, "8 -0.01", "one_side_only", "both sides"),
        (NARROW, "10..8 mm", "low_above_high", "8..10"),
        ("max_rpm", "12,000", "ambiguous_comma", "12000"),
        ("core_area", "57 AWG", "impossible_value", "4/0"),
        ("core_area", "12 AWG ± 1", "not_a_number", "12..14 AWG"),
        ("pressure", "300", "no_spread_known", "State the spread"),
        ("window_count", "6.5", "not_whole", "5|6"),
        ("window_count", "-1", "impossible_value", "0 and 60"),
        ("window_count", "six", "not_a_number", "counted"),
        ("window_count", "6 ± 1", "count_has_no_spread", "5|6"),
        ("window_count", "6 mm", "other_dimension", "counted"),
        ("window_count", "8..5", "low_above_high", "5..8"),
        ("window_form", "rund", "unknown_word", "`round`"),
        ("window_form", "6", "unknown_word", "round, oval, long_slot"),
        ("window_form", 6, "unknown_word", "round, oval, long_slot"),
        ("window_form", "round|squar", "unknown_word", "squar"),
        ("window_form", "round|", "unknown_word", "round, oval, long_slot"),
        ("bore", "609", "impossible_value", "`608`"),
        ("bore", "six-oh-eight", "unknown_designation", "8 mm"),
        ("bore", "30", "no_fit_band", "2.5 to 18"),
        ("bore", "8 mmn", "unknown_unit", "`mm`"),
    ],
)
def test_faults(reader: Reader, name: str, typed: object, code: str, named: str) -> None:
    problem = reader.bad(name, typed)
    assert problem.code == code, str(problem)
    assert named in f"{problem.message} {problem.hint}", str(problem)
    assert len(str(problem)) < 500  # a message quotes only the start of what was typed


def test_several_wrong_words_are_all_named(reader: Reader) -> None:
    reading, problems = read("rund|ovle", reader.attribute("window_form"), reader.table, reader.fits, reader.source)
    assert reading is None and [problem.code for problem in problems] == ["unknown_word"] * 2


def test_assumed(reader: Reader) -> None:
    def given_by(name: str, widest: bool) -> Any:
        return assumed(reader.attribute(name), widest)

    default = given_by(NARROW, False)
    assert (default.low, default.nominal, default.high) == (8.5, 9.0, 10.0)
    assert default.value_assumed and default.source.kind == "default"
    widest = given_by(NARROW, True)
    assert (widest.low, widest.nominal, widest.high) == (5, 9, 12)
    no_default = given_by("outer_diameter", False)
    assert (no_default.low, no_default.nominal, no_default.high) == (60, 155, 250)
    assert given_by("unbounded", False) is None and given_by("unbounded", True) is None
    # A default without a plausible range: the widest is what is possible, never the default alone.
    hardness = given_by("hardness", True)
    assert (hardness.low, hardness.nominal, hardness.high) == (0, 78, 100)
    assert given_by("hardness", False).low == 74
    assert given_by("window_form", False).possible == {"round"}
    assert given_by("window_form", True).possible == {"round", "oval", "long_slot"}
    assert given_by("thread", True).open_vocabulary
    assert given_by("window_count", False).values == (6,)
    assert given_by("window_count", True).values == (5, 6, 7, 8, 9, 10)
    bore = given_by("bore", True)
    assert isinstance(bore, Designation) and (bore.low, bore.high) == (8, 12)
    assert given_by("outline", True) is None


NAMES = st.sampled_from(
    [NARROW, "window_count", "window_form", "bore", "shaft", "outline", "thread", "core_area", "offset"]
)
TYPED = st.text(alphabet="0123456789.,/+-±−…|@ mincawgxyzringholes:;%°½\x00\u200b", max_size=40) | st.text(max_size=60)
ANYTHING = TYPED | st.none() | st.booleans() | st.integers() | st.floats() | st.lists(st.integers(), max_size=3)


@given(name=NAMES, typed=ANYTHING)
def test_nothing_typed_raises(table: AttributeTable, fits: Fits, caliper: Source, name: str, typed: object) -> None:
    one = Reader(table, fits, caliper).attribute(name)
    reading, problems = read(typed, one, table, fits, caliper)
    assert reading is None or problems == ()
    if isinstance(reading, Number | Designation):
        assert reading.low <= reading.nominal <= reading.high
        assert math.isfinite(reading.low) and math.isfinite(reading.high)
        assert one.physical is not None and one.physical[0] <= reading.low and reading.high <= one.physical[1]
    if isinstance(reading, Count):
        assert reading.nominal in reading.values
    if isinstance(reading, Word):
        assert reading.open_vocabulary or reading.possible <= set(one.vocabulary)


@given(
    nominal=st.floats(1, 40).map(lambda value: round(value, 4)),
    minus=st.floats(0, 60).map(lambda value: round(value, 4)),
    plus=st.floats(0, 60).map(lambda value: round(value, 4)),
    comma=st.booleans(),
    sign=st.sampled_from(["±", "+-", "+/-", " ± ", " +/- "]),
)
def test_what_is_typed_comes_back(
    table: AttributeTable,
    fits: Fits,
    caliper: Source,
    nominal: float,
    minus: float,
    plus: float,
    comma: bool,
    sign: str,
) -> None:
    reader = Reader(table, fits, caliper)

    def typed(text: str) -> str:
        # A comma before exactly three digits could separate thousands, and is refused.
        return text.replace(".", ",") if comma and not any(len(number) == 3 for number in decimals) else text

    decimals = [f"{value:.4f}".rstrip("0").partition(".")[2] for value in (nominal, minus, plus)]
    as_text = [f"{value:.4f}".rstrip("0").rstrip(".") for value in (nominal, minus, plus)]
    equal = reader.good(NARROW, typed(f"{as_text[0]}{sign}{as_text[2]} mm"))
    assert equal.nominal == nominal
    assert equal.low == pytest.approx(max(nominal - plus, 1)) and equal.high == pytest.approx(min(nominal + plus, 40))
    unequal = reader.good(NARROW, typed(f"{as_text[0]} -{as_text[1]}/+{as_text[2]} mm"))
    assert unequal.low == pytest.approx(max(nominal - minus, 1))
    assert unequal.high == pytest.approx(min(nominal + plus, 40))


@given(whole=st.integers(0, 1), sixty_fourths=st.integers(1, 36))
def test_inch_fractions(table: AttributeTable, fits: Fits, caliper: Source, whole: int, sixty_fourths: int) -> None:
    # One inch is 25.4 mm, exactly (International Yard and Pound Agreement, 1959).
    typed = f"{whole} {sixty_fourths}/64 in" if whole else f"{sixty_fourths}/64 in"
    expected = (whole + sixty_fourths / 64) * 25.4
    if 1 <= expected <= 40:
        assert Reader(table, fits, caliper).good(NARROW, typed).nominal == pytest.approx(expected, rel=1e-15)


@pytest.mark.parametrize(
    "typed",
    ["1" + " " * 9000 + "x", "+" + " " * 9000 + "x", "@ " * 4000, "@" + " " * 9000 + "@", "1" * 9999, "1," * 4999,
     "±1" * 4000, "1..2" * 2000, "- " * 4000, "a|" * 4999, "1/" * 4999, "1 to " * 1999],
)  # fmt: skip
def test_long_nonsense_is_refused_quickly(reader: Reader, typed: str) -> None:
    start = time.perf_counter()
    for name in (NARROW, "window_count", "window_form", "bore", "outline"):
        read(typed, reader.attribute(name), reader.table, reader.fits, reader.source)
    assert time.perf_counter() - start < 2


def test_a_long_outline_is_compared_quickly(reader: Reader) -> None:
    # A comb: nearly every edge overlaps every other from left to right.
    corners = [point for tooth in range(249) for point in ((0, 4 * tooth), (9, 4 * tooth), (9, 4 * tooth + 1),
                                                           (1, 4 * tooth + 1))]  # fmt: skip
    start = time.perf_counter()
    drawn = {"rings": [[[x / 10, y / 10] for x, y in [*corners, (-1, 996), (-1, 0)]]]}
    assert isinstance(reader.good("outline", drawn), Outline)
    assert time.perf_counter() - start < 2


def test_a_plain_number_is_read_in_twenty_microseconds(reader: Reader) -> None:
    one = reader.attribute(NARROW)
    best = math.inf
    for _ in range(20):
        start = time.perf_counter()
        for _ in range(200):
            read("9.25", one, reader.table, reader.fits, reader.source)
        best = min(best, (time.perf_counter() - start) / 200)
    assert best < 20e-6
