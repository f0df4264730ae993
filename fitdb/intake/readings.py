"""What a person types about one attribute, as a Reading: value, span and source. Nothing here raises.

The same syntax holds in tables, part files and on the command line: `9.0 mm`, `63,5 +-0.2 mm`, `8 -0.01/+0.00 mm`,
`2 1/2 in`, `8..10 mm`, `12 AWG`, `608`, `6`, `5|6`, `round|oval`, `unknown`, and `@caliper` at the end of any of them.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, replace

from fitdb.intake.nearest import did_you_mean, nearest, plain, shortened
from fitdb.intake.outlines import Hole, Point, Shape, checked_shape, shape_from_text
from fitdb.intake.units import AWG, label, show, to_canonical, unit_of
from fitdb.model.part import Attribute, AttributeTable
from fitdb.model.problems import Problem
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.model.source import SOURCE_KINDS, Source, Spread

MOST_CHARACTERS = 10_000
MOST_COUNTS = 1000
UNREAD = frozenset({"unknown", "unread", "?"})
MEASURED = frozenset({"caliper", "ruler", "meter", "level", "photo", "guess"})
RATING = "rating"


@dataclass(frozen=True, slots=True)
class FitBand:
    """One row of a fit table: sizes above `over`, up to and including `up_to` mm, lie in size − minus … size + plus."""

    fit: str
    over: float
    up_to: float
    minus: float
    plus: float


@dataclass(frozen=True, slots=True)
class FitName:
    """A name that a fit table knows, and the size in mm it stands for: 608 is an 8 mm bore."""

    fit: str
    name: str
    nominal: float


Fits = Mapping[str, tuple[FitBand | FitName, ...]]
Outcome = tuple[Reading | None, tuple[Problem, ...]]


class _Refused(Exception):
    """Carries the faults of one reading to `read`, which turns them into its answer."""

    def __init__(self, *problems: Problem) -> None:
        self.problems = problems
        super().__init__(str(problems[0]))


@dataclass(frozen=True, slots=True)
class _Amount:
    """One number with its unit as typed (empty if none). `exact`: typed without a decimal point."""

    value: float
    unit: str
    fraction: bool = False
    exact: bool = False


@dataclass(frozen=True, slots=True)
class _Size:
    """A size in the canonical unit. low and high are None where no spread was stated."""

    nominal: float
    low: float | None
    high: float | None
    exact: bool
    named: bool


# Ways in which people write the same sign.
SIGNS = str.maketrans({
    "−": "-", "–": "-", "‒": "-", "﹣": "-", "＋": "+", "∓": "±", "\N{NO-BREAK SPACE}": " ", "\N{THIN SPACE}": " ",
    "\N{NARROW NO-BREAK SPACE}": " ", "…": "..", "⁄": "/", "．": ".", "，": ",",
})  # fmt: skip
PLUS_MINUS = re.compile(r"\+\s*/?\s*-|-\s*/?\s*\+")
VULGAR = re.compile("[¼½¾⅐-⅞]")
SIMPLE = re.compile(r"-?[0-9]{1,12}(?:\.[0-9]{1,12})?")
DECIMAL = r"(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)(?:[eE][+-]?[0-9]+)?"
FRACTION = r"(?:(?P<whole>[0-9]+)(?:\s+|-))?(?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)"
AMOUNT = re.compile(rf"(?P<sign>[+-]?)\s*(?:{FRACTION}|(?P<decimal>{DECIMAL}))")
SIDE_STARTS = re.compile(r"[+-]\s*[0-9.,]")
RANGE = re.compile(r"\s*(?:\.\.+|\bto\b)\s*", re.IGNORECASE)
LARGE_GAUGE = re.compile(r"(?:([1-4])/0|(0{1,4}))\s*(?:awg|ga|gauge)", re.IGNORECASE)
SLASH_DIGIT = re.compile(r"\s*/\s*[0-9]")
THOUSANDS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
NOT_A_NUMBER = re.compile(r"[+-]?\.?(?:nan|inf|infinity)\b", re.IGNORECASE)
BORE_NAME = re.compile(r"[a-z][a-z ,-]{0,60}", re.IGNORECASE)
HOW_TO_WRITE = "Write it like `9.0 mm`, `63.5 +-0.2 mm`, `8 -0.01/+0.00 mm`, `2 1/2 in` or `8..10 mm`, or `unknown`."


def read(text_or_number: object, attribute: Attribute, table: AttributeTable, fits: Fits, source: Source) -> Outcome:
    """What was typed about `attribute`, as a reading in its canonical unit, or every fault found.

    `source` is where bare values come from; a trailing `@caliper` names another. A value without a stated spread
    gets that of its kind of source and family (spread_assumed); designations, counts and words get none. An
    unknown number, designation or outline is unread: (None, ()).
    """
    try:
        if type(text_or_number) is str and attribute.reading == "number" and SIMPLE.fullmatch(text_or_number):
            value = float(text_or_number)
            return _number(_Size(value, None, None, False, False), text_or_number, attribute, table, source), ()
        return _read(text_or_number, attribute, table, fits, source), ()
    except _Refused as refused:
        return None, refused.problems


def own_source(kind: str) -> Source:
    """The source of a value that somebody read, by kind (one of SOURCE_KINDS)."""
    return Source(id=f"own-{kind}", kind=kind, title=f"own reading ({kind.replace('_', ' ')})", standing="own reading")


def source_named(name: str, table: AttributeTable) -> Source | Problem:
    """A kind of source, or the id of one of the catalogue's; else the Problem `unknown_source` with the nearest."""
    kind = plain(name)
    if kind in SOURCE_KINDS:
        return own_source(kind)
    if name.strip() in table.sources:
        return table.sources[name.strip()]
    hint = did_you_mean(name, (*SOURCE_KINDS, *table.sources))
    what = f"`{shortened(name)}` is not a kind of source."
    return Problem("unknown_source", what, hint=f"{hint} The kinds are: {', '.join(SOURCE_KINDS)}.".lstrip())


def assumed(attribute: Attribute, widest: bool) -> Reading | None:
    """What stands in for a value that nobody read (value_assumed), or None if nothing is known about it.

    The default with its own spread; with `widest`, or without a default, the plausible range, the whole vocabulary,
    or every plausible whole number. Where even the plausible range is unknown the physical range is the widest;
    a default alone is never taken for the widest, because that would assume danger away.
    """
    source = attribute.source if attribute.source.kind == "default" else replace(attribute.source, kind="default")
    if attribute.reading == "word":
        return _assumed_word(attribute, widest, source)
    if attribute.reading == "outline":
        return _assumed_outline(attribute, widest, source)
    default = _default_number(attribute)
    if attribute.reading == "count":
        return _assumed_count(attribute, None if default is None else round(default), widest, source)
    if default is not None and not widest:
        low, high = default - attribute.default_spread[0], default + attribute.default_spread[1]
    else:
        span = attribute.plausible or (attribute.physical if default is not None else None)
        if span is None or not all(map(math.isfinite, span)):
            return None
        low, high = span
        default = (low + high) / 2 if default is None else min(max(default, low), high)
    if attribute.physical:
        low, high = max(low, attribute.physical[0]), min(high, attribute.physical[1])
    low, high = min(low, default), max(high, default)
    if attribute.reading == "designation":
        return Designation(low, default, high, attribute.unit, source, attribute.fit, value_assumed=True)
    return Number(low, default, high, attribute.unit, source, value_assumed=True)


def _assumed_word(attribute: Attribute, widest: bool, source: Source) -> Word | None:
    default = attribute.default
    if isinstance(default, str) and default and not widest:
        possible = frozenset(plain(word) for word in default.split("|"))
        return Word(possible, source, value_assumed=True, open_vocabulary=attribute.open_vocabulary)
    if not attribute.vocabulary and not attribute.open_vocabulary:
        return None
    vocabulary = frozenset(attribute.vocabulary)
    return Word(vocabulary, source, value_assumed=True, open_vocabulary=attribute.open_vocabulary)


def _assumed_count(attribute: Attribute, default: int | None, widest: bool, source: Source) -> Count | None:
    if default is not None and not widest:
        return Count((default,), default, source, value_assumed=True)
    span = attribute.plausible or (attribute.physical if default is not None else None)
    if span is None or not all(map(math.isfinite, span)) or span[1] - span[0] > MOST_COUNTS:
        return None
    values = tuple(range(math.ceil(span[0]), math.floor(span[1]) + 1))
    if not values:
        return None
    nominal = default if default in values else values[len(values) // 2]
    return Count(values, int(nominal or 0), source, value_assumed=True)


def _assumed_outline(attribute: Attribute, widest: bool, source: Source) -> Outline | None:
    if not isinstance(attribute.default, str) or widest:
        return None
    shape, _ = shape_from_text(_one_spelling(attribute.default))
    if shape is None:
        return None
    spread = max(attribute.default_spread) if shape.spread is None else shape.spread
    return Outline(shape.rings, shape.holes, spread, source, value_assumed=True)


def _default_number(attribute: Attribute) -> float | None:
    if isinstance(attribute.default, str):
        return float(attribute.default) if SIMPLE.fullmatch(attribute.default) else None
    return None if attribute.default is None else float(attribute.default)


def _read(typed: object, attribute: Attribute, table: AttributeTable, fits: Fits, source: Source) -> Reading | None:
    if isinstance(typed, Mapping):
        if attribute.reading == "outline":
            return _outline(_shape_from_mapping(typed), "drawn", attribute, table, source)
        raise _Refused(_not_understood("a mapping", attribute))
    text = _text(typed, attribute)
    entered = text
    before, override, source_name = text.rpartition("@")
    if override:
        found = source_named(source_name, table)
        if isinstance(found, Problem):
            raise _Refused(found)
        source, text = found, before.strip()
        if not text:
            raise _Refused(_empty(attribute))
    if attribute.reading == "word":
        return _word(text, entered, attribute, source)
    if text.casefold() in UNREAD:
        return assumed(attribute, widest=True) if attribute.reading == "count" else None
    spelled = _one_spelling(text)
    if attribute.reading == "count":
        return _count(spelled, entered, attribute, source)
    if attribute.reading == "outline":
        shape, problems = shape_from_text(spelled)
        if problems:
            raise _Refused(*problems)
        return _outline(shape, entered, attribute, table, source)
    if attribute.reading == "designation":
        return _designation(spelled, entered, attribute, table, fits, source, typed_as_measured=bool(override))
    size = _size(spelled, attribute)
    return _number(size, entered, attribute, table, source)


def _text(typed: object, attribute: Attribute) -> str:
    """The text of what was typed, with its outer blanks off; refuses what can be no reading at all."""
    if typed is None:
        raise _Refused(_empty(attribute))
    if isinstance(typed, bool):
        if attribute.reading == "word":
            word = "yes" if typed else "no"
            return word if word in attribute.vocabulary else str(typed).lower()
        raise _Refused(_not_understood("true" if typed else "false", attribute))
    if isinstance(typed, int | float):
        try:
            value = float(typed)
        except OverflowError:
            value = math.inf
        if not math.isfinite(value):
            raise _Refused(_not_finite(attribute))
        return repr(typed) if abs(value) < 1e15 else repr(value)
    if not isinstance(typed, str):
        raise _Refused(_not_understood(f"a {type(typed).__name__}", attribute))
    if len(typed) > MOST_CHARACTERS:
        what = f"{_title(attribute)} is {len(typed)} characters long; {MOST_CHARACTERS} are the most."
        raise _Refused(Problem("too_long", what, hint="A reading is one number, word or outline."))
    text = typed.strip(" ")
    unprintable = next((character for character in text if unicodedata.category(character) in ("Cc", "Cf", "Cs")), "")
    if unprintable:
        what = f"{_title(attribute)} holds the invisible character U+{ord(unprintable):04X}."
        raise _Refused(Problem("control_character", what, hint="Type the value again instead of pasting it."))
    if not text:
        raise _Refused(_empty(attribute))
    return text


def _one_spelling(text: str) -> str:
    """The text with one spelling for each sign: ± for +-, +/-; - for every dash; `1/2` for ½; single blanks."""
    text = VULGAR.sub(lambda match: " " + unicodedata.normalize("NFKC", match.group()), text).translate(SIGNS)
    return PLUS_MINUS.sub("±", " ".join(text.split()))


def _size(text: str, attribute: Attribute, may_be_named: bool = False) -> _Size:
    if NOT_A_NUMBER.match(text):
        raise _Refused(_not_finite(attribute))
    if "|" in text:
        what = f"`{shortened(text)}` names several values, and {_title(attribute)} is one number."
        raise _Refused(Problem("not_a_number", what, hint="Write a range instead, like `8..10 mm`."))
    ends = RANGE.split(text)
    if len(ends) == 2 and all(ends):
        return _range(ends[0], ends[1], attribute)
    gauge = LARGE_GAUGE.fullmatch(text)
    if gauge:
        zeros = int(gauge.group(1)) if gauge.group(1) else len(gauge.group(2))
        return _Size(_canonical(_Amount(1.0 - zeros, AWG), attribute), None, None, True, False)
    value, rest = _amount(text, attribute)
    if "±" in rest:
        unit_text, _, side_text = rest.partition("±")
        side, side_rest = _amount(side_text.strip(), attribute)
        side = replace(side, unit=side_rest.strip())
        if side.value < 0 or side_text.strip()[:1] in "+-":
            raise _Refused(_not_understood(text, attribute))
        return _spread_size(value, unit_text.strip(), replace(side, value=-side.value), side, attribute)
    start = SIDE_STARTS.search(rest)
    if start:
        lower, upper = _sides(rest[start.start() :], text, attribute)
        return _spread_size(value, rest[: start.start()].strip(), lower, upper, attribute)
    unit, named = rest.strip(), False
    if may_be_named and unit and unit_of(unit, attribute.unit) is None:
        # `8 mm bore`, `8 bore`: what follows the unit says what is meant, not how it is measured.
        first, _, words = unit.partition(" ")
        if unit_of(first, attribute.unit) is not None and BORE_NAME.fullmatch(words.strip()):
            unit, named = first, True
        elif _names(unit, attribute):
            unit, named = "", True
    value = replace(value, unit=unit)
    return _Size(_canonical(value, attribute), None, None, value.exact, named)


def _amount(text: str, attribute: Attribute, slash_follows: bool = False) -> tuple[_Amount, str]:
    """The number at the start of `text`, and what follows it; a slash and a digit only where two sides are given."""
    match = AMOUNT.match(text)
    if not match:
        if NOT_A_NUMBER.match(text):
            raise _Refused(_not_finite(attribute))
        raise _Refused(_not_understood(text, attribute))
    sign = -1.0 if match["sign"] == "-" else 1.0
    rest = text[match.end() :]
    if rest[:1] in (".", ",") or (not slash_follows and SLASH_DIGIT.match(rest)) or rest.lstrip()[:1].isdigit():
        raise _Refused(_not_understood(text, attribute))
    if match["decimal"] is not None:
        decimal = match["decimal"]
        if THOUSANDS.fullmatch(decimal):
            whole, _, part = decimal.partition(",")
            what = f"`{decimal}` may mean {whole}.{part} or {whole}{part}."
            raise _Refused(Problem("ambiguous_comma", what, hint=f"Write {whole}.{part} or {whole}{part}."))
        value = float(decimal.replace(",", "."))
        amount = _Amount(sign * value, "", exact=decimal.isdigit())
    else:
        bottom = float(match["bottom"])
        if bottom == 0:
            raise _Refused(Problem("not_a_number", f"`{shortened(text)}` divides by zero.", hint=HOW_TO_WRITE))
        value = float(match["whole"] or 0) + float(match["top"]) / bottom
        amount = _Amount(sign * value, "", fraction=True, exact=True)
    if not math.isfinite(amount.value):
        raise _Refused(_not_finite(attribute))
    return amount, rest


def _sides(text: str, whole: str, attribute: Attribute) -> tuple[_Amount, _Amount]:
    """The two deviations of `-0.01/+0.00 mm`, lower first; both may have one sign, like -0.014/-0.005."""
    first, rest = _amount(text, attribute, slash_follows=True)
    between = rest.lstrip()
    cut = next((index for index, character in enumerate(between) if character in "+-/" and index < 12), len(between))
    first_unit, rest = between[:cut].strip(), between[cut:].lstrip("/ ").strip()
    if not rest:
        what = f"`{shortened(whole)}` gives the deviation to one side only."
        hint = "Write both sides, like `8 -0.01/+0.00 mm`, or `8 +-0.01 mm` if they are equal."
        raise _Refused(Problem("one_side_only", what, hint=hint))
    second, rest = _amount(rest, attribute)
    if second.value != 0 and between[cut:].lstrip("/ ")[:1] not in ("+", "-"):
        raise _Refused(_not_understood(whole, attribute))
    unit = rest.strip()
    sides = (replace(first, unit=first_unit or unit), replace(second, unit=unit or first_unit))
    return (sides[0], sides[1]) if sides[0].value <= sides[1].value else (sides[1], sides[0])


def _spread_size(value: _Amount, unit: str, lower: _Amount, upper: _Amount, attribute: Attribute) -> _Size:
    """A value with deviations, each in its own unit; a blank unit is that of its neighbour."""
    percent = {side.unit for side in (lower, upper) if attribute.unit != "percent" and _is_percent(side.unit)}
    said = unit or next((side.unit for side in (upper, lower) if side.unit and side.unit not in percent), "")
    nominal = _canonical(replace(value, unit=said), attribute)
    known = unit_of(said)
    if known is not None and known.id == AWG:
        hint = "Write two gauges as a range, like `12..14 AWG`."
        raise _Refused(Problem("not_a_number", "A wire gauge has no spread.", hint=hint))
    bounds = []
    for side in (lower, upper):
        if side.unit in percent:
            bounds.append(nominal + abs(nominal) * side.value / 100.0)
        else:
            bounds.append(nominal + _canonical(replace(side, unit=side.unit or said), attribute))
    low, high = min(bounds), max(bounds)
    if not low <= nominal <= high:  # both deviations to one side, as on a drawing of a running fit
        nominal = (low + high) / 2
    return _Size(nominal, low, high, value.exact, False)


def _is_percent(unit: str) -> bool:
    known = unit_of(unit)
    return known is not None and known.id == "percent"


def _range(low_text: str, high_text: str, attribute: Attribute) -> _Size:
    amounts = []
    for text in (low_text, high_text):
        amount, rest = _amount(text, attribute)
        amounts.append(replace(amount, unit=rest.strip()))
    low, high = amounts
    low, high = replace(low, unit=low.unit or high.unit), replace(high, unit=high.unit or low.unit)
    bounds = [_canonical(low, attribute), _canonical(high, attribute)]
    known = unit_of(low.unit)
    if known is not None and known.id == AWG:  # a larger gauge is a thinner wire
        bounds.sort()
    if bounds[0] > bounds[1]:
        what = f"`{shortened(low_text)}` is more than `{shortened(high_text)}`."
        raise _Refused(Problem("low_above_high", what, hint="Write the smaller end first, like `8..10 mm`."))
    return _Size((bounds[0] + bounds[1]) / 2, bounds[0], bounds[1], False, False)


def _canonical(amount: _Amount, attribute: Attribute) -> float:
    if amount.fraction and not amount.unit and attribute.unit:
        what = f"A fraction stands without its unit, and {_title(attribute)} is kept in {attribute.unit}."
        raise _Refused(Problem("fraction_needs_unit", what, hint="Write `5/16 in`, or the decimal number."))
    if not amount.unit:
        return amount.value
    value = to_canonical(amount.value, amount.unit, attribute.unit)
    if isinstance(value, Problem):
        raise _Refused(value)
    if not math.isfinite(value):
        raise _Refused(_not_finite(attribute))
    return value


def _number(size: _Size, entered: str, attribute: Attribute, table: AttributeTable, source: Source) -> Number:
    if size.low is None or size.high is None:
        minus, plus, from_table = _spread(size.nominal, attribute, table, source)
        low, high, spread_assumed = size.nominal - minus, size.nominal + plus, from_table
    else:
        low, high, spread_assumed = size.low, size.high, False
    low, nominal, high = _clipped(low, size.nominal, high, attribute)
    return Number(low, nominal, high, attribute.unit, source, entered, False, spread_assumed)


def _spread(nominal: float, attribute: Attribute, table: AttributeTable, source: Source) -> tuple[float, float, bool]:
    """minus, plus and whether they come from the spread table.

    Ratings and settings (no family, or the family `rating` without a row) have no spread. A kind of source that the
    table does not know for this family gets the widest spread of the family: unknown is never zero.
    """
    if not attribute.family:
        return 0.0, 0.0, False
    row = table.spreads.get((source.kind, attribute.family))
    if row is not None:
        return *_half_widths(row, nominal), True
    if attribute.family == RATING:
        return 0.0, 0.0, False
    rows = [_half_widths(other, nominal) for (_, family), other in table.spreads.items() if family == attribute.family]
    if not rows:
        what = f"Nothing is known about how exactly {_title(attribute)} is read ({attribute.family})."
        raise _Refused(Problem("no_spread_known", what, hint="State the spread, like `9.0 +-0.2 mm`."))
    return max(minus for minus, _ in rows), max(plus for _, plus in rows), True


def _half_widths(row: Spread, nominal: float) -> tuple[float, float]:
    if row.percent:
        return abs(nominal) * row.minus / 100.0, abs(nominal) * row.plus / 100.0
    return row.minus, row.plus


def _clipped(low: float, nominal: float, high: float, attribute: Attribute) -> tuple[float, float, float]:
    """The span within what is physically possible; refuses a nominal outside it, and whatever is not finite."""
    if not (math.isfinite(low) and math.isfinite(nominal) and math.isfinite(high)):
        raise _Refused(_not_finite(attribute))
    if attribute.physical:
        least, most = attribute.physical
        slack = 1e-9 * max(abs(least), abs(most))  # 1 in against 25.4 mm
        if not least - slack <= nominal <= most + slack:
            raise _Refused(_impossible(nominal, attribute))
        nominal = min(max(nominal, least), most)
        low, high = max(low, least), min(high, most)
    return min(low, nominal), nominal, max(high, nominal)


def _designation(
    text: str,
    entered: str,
    attribute: Attribute,
    table: AttributeTable,
    fits: Fits,
    source: Source,
    typed_as_measured: bool,
) -> Reading:
    """A name or a designated size with the one-sided span of its fit table; a measured size stays a Number.

    Measured: a spread is stated, a measuring source is named on the reading itself, or the part's source measures
    and the number has decimals. A caliper cannot vouch for hundredths that a fit table takes for granted.
    """
    rows = fits.get(attribute.fit, ())
    names = [row for row in rows if isinstance(row, FitName)]
    asked = plain(text)
    nominal = next((row.nominal for row in names if plain(row.name) == asked), None)
    if nominal is None:
        if not AMOUNT.match(text) and not NOT_A_NUMBER.match(text):
            what = f"`{shortened(text)}` names no size of {_title(attribute)}."
            hint = did_you_mean(text, [row.name for row in names]) or "Write the size, like `8 mm`."
            raise _Refused(Problem("unknown_designation", what, hint=hint))
        size = _size(text, attribute, may_be_named=True)
        measured = source.kind in MEASURED and not size.named and (typed_as_measured or not size.exact)
        if size.low is not None or measured or not attribute.fit:
            return _number(size, entered, attribute, table, source)
        nominal = size.nominal
    if not math.isfinite(nominal):
        raise _Refused(_not_finite(attribute))
    if attribute.physical and not attribute.physical[0] <= nominal <= attribute.physical[1]:
        raise _Refused(_impossible(nominal, attribute, [row.name for row in names]))
    bands = [row for row in rows if isinstance(row, FitBand)]
    band = next((row for row in bands if row.over < nominal <= row.up_to), None)
    if band is None:
        least, most = min((row.over for row in bands), default=0.0), max((row.up_to for row in bands), default=0.0)
        what = f"The fit table `{attribute.fit}` covers {least:g} to {most:g} mm, not {show(nominal, attribute.unit)}."
        raise _Refused(Problem("no_fit_band", what, hint="State the spread, like `8 -0.01/+0.00 mm`."))
    low, high = nominal - band.minus, nominal + band.plus
    middle = nominal if low <= nominal <= high else (low + high) / 2
    low, middle, high = _clipped(low, middle, high, attribute)
    return Designation(low, middle, high, attribute.unit, source, attribute.fit, entered)


def _count(text: str, entered: str, attribute: Attribute, source: Source) -> Count:
    title = _title(attribute)
    if "±" in text:
        what = f"`{shortened(entered)}` gives {title} a spread, and a count has none."
        raise _Refused(Problem("count_has_no_spread", what, hint="Write the counts that are possible, like `5|6`."))
    values: set[int] = set()
    for piece in text.split("|"):
        ends = [_whole(end, attribute) for end in RANGE.split(piece.strip())]
        if len(ends) > 2:
            raise _Refused(_not_understood(text, attribute))
        if ends[0] > ends[-1]:
            what = f"`{shortened(piece)}` has its larger end first."
            raise _Refused(Problem("low_above_high", what, hint="Write the smaller end first, like `5..8`."))
        if ends[-1] - ends[0] >= MOST_COUNTS:
            what = f"`{shortened(piece)}` leaves more than {MOST_COUNTS} counts possible."
            raise _Refused(Problem("too_many_values", what, hint="Write `unknown` if nobody has counted."))
        values.update(range(ends[0], ends[-1] + 1))
    ordered = tuple(sorted(values))
    return Count(ordered, ordered[len(ordered) // 2 if len(ordered) % 2 else len(ordered) // 2 - 1], source, entered)


def _names(text: str, attribute: Attribute) -> bool:
    """Whether `text` only repeats what is read: the `windows` of `6 windows`, the `bore` of `8 bore`."""
    own = plain(f"{attribute.name} {attribute.title}").split("_")
    words = [word for word in plain(text).split("_") if word]
    return all(len(word) > 2 and any(word.rstrip("s") == one.rstrip("s") for one in own) for word in words)


def _whole(text: str, attribute: Attribute) -> int:
    amount, rest = _amount(text, attribute)
    if rest.strip() and not _names(rest, attribute):
        unit = unit_of(rest)
        if unit is None:
            raise _Refused(_not_understood(text, attribute))
        what = f"{unit.label} measures {unit.measures}, but {_title(attribute)} is counted."
        raise _Refused(Problem("other_dimension", what, hint="Write the bare whole number."))
    if amount.value != int(amount.value):
        what = f"`{shortened(text)}` is not a whole number, and {_title(attribute)} is counted."
        hint = "Count again, or write the counts that are possible, like `5|6`."
        raise _Refused(Problem("not_whole", what, hint=hint))
    value = int(amount.value)
    if attribute.physical and not attribute.physical[0] <= value <= attribute.physical[1]:
        raise _Refused(_impossible(value, attribute))
    return value


def _word(text: str, entered: str, attribute: Attribute, source: Source) -> Word:
    if text.casefold() in UNREAD:
        if not attribute.vocabulary and not attribute.open_vocabulary:
            raise _Refused(Problem("unknown_word", f"{_title(attribute)} has no words to choose from."))
        return Word(frozenset(attribute.vocabulary), source, entered, True, attribute.open_vocabulary)
    known = {plain(word): word for word in attribute.vocabulary}
    possible: set[str] = set()
    problems: list[Problem] = []
    for piece in text.split("|"):
        word = plain(piece)
        if word in known:
            possible.add(known[word])
        elif attribute.open_vocabulary and re.fullmatch(r"[^\W_][\w.+/-]{0,79}", word):
            possible.add(word)
        else:
            problems.append(_unknown_word(piece.strip(), attribute))
    if problems:
        raise _Refused(*problems)
    return Word(frozenset(possible), source, entered, False, attribute.open_vocabulary)


def _unknown_word(word: str, attribute: Attribute) -> Problem:
    title = _title(attribute)
    alike = nearest(word, attribute.vocabulary, how_many=3)
    what = f"`{shortened(word)}` is not a word for {title}."
    listed = f"The words are: {', '.join(attribute.vocabulary)}; or unknown."
    meant = f"Did you mean {' or '.join(f'`{one}`' for one in alike)}? " if alike else ""
    return Problem("unknown_word", what, hint=meant + listed)


def _shape_from_mapping(drawn: Mapping[object, object]) -> Shape:
    """{"rings": [[[x, y], …], …], "holes": [[x, y, diameter, slot_length, slot_angle], …], "spread": …}, in mm."""
    unknown = [str(key) for key in drawn if key not in ("rings", "holes", "spread")]
    if unknown:
        hint = did_you_mean(unknown[0], ("rings", "holes", "spread"))
        raise _Refused(Problem("unknown_key", f"`{shortened(unknown[0])}` is no part of an outline.", hint=hint))
    rings = [[_coordinates(point, 2, 2) for point in _listed(ring)] for ring in _listed(drawn.get("rings", ()))]
    holes = [_coordinates(hole, 3, 5) for hole in _listed(drawn.get("holes", ()))]
    spread = None if drawn.get("spread") is None else _coordinates([drawn["spread"]], 1, 1)[0]
    corners: list[list[Point]] = [[(point[0], point[1]) for point in ring] for ring in rings]
    padded: list[Hole] = [(*hole, 0.0, 0.0)[:5] for hole in holes]  # type: ignore[misc]
    shape, problems = checked_shape(corners, padded, spread)
    if shape is None:
        raise _Refused(*problems)
    return shape


def _listed(value: object) -> list[object]:
    if isinstance(value, list | tuple):
        return list(value)
    raise _Refused(Problem("outline_not_understood", "rings and holes are lists of lists of numbers."))


def _coordinates(value: object, least: int, most: int) -> tuple[float, ...]:
    numbers: list[float] = []
    for item in _listed(value):
        try:
            if isinstance(item, bool) or not isinstance(item, int | float | str):
                raise ValueError
            numbers.append(float(item))
        except (ValueError, OverflowError):
            what = f"`{shortened(str(item)[:80])}` in the outline is not a number."
            raise _Refused(Problem("outline_not_understood", what)) from None
    if not least <= len(numbers) <= most:
        what = f"{len(numbers)} numbers stand where {least} to {most} are wanted."
        raise _Refused(Problem("outline_not_understood", what, hint="A corner is [x, y], a hole [x, y, diameter]."))
    return tuple(numbers)


def _outline(shape: Shape | None, entered: str, attribute: Attribute, table: AttributeTable, source: Source) -> Outline:
    if shape is None:
        raise _Refused(_not_understood(entered, attribute))
    points = [point for ring in shape.rings for point in ring] + [(hole[0], hole[1]) for hole in shape.holes]
    width = max(point[0] for point in points) - min(point[0] for point in points)
    height = max(point[1] for point in points) - min(point[1] for point in points)
    extent = max(width, height)
    if attribute.physical and extent > attribute.physical[1]:
        raise _Refused(_impossible(extent, attribute))
    if shape.spread is not None:
        return Outline(shape.rings, shape.holes, shape.spread, source, entered)
    minus, plus, _ = _spread(extent, attribute, table, source)
    return Outline(shape.rings, shape.holes, max(minus, plus), source, entered)


def _title(attribute: Attribute) -> str:
    return attribute.title or attribute.name


def _empty(attribute: Attribute) -> Problem:
    what = f"Nothing is written for {_title(attribute)}."
    return Problem("empty", what, hint="Leave the whole entry out, or write `unknown`.")


def _not_finite(attribute: Attribute) -> Problem:
    what = f"{_title(attribute)} is not a finite number."
    return Problem("not_finite", what, hint="Write the number, or `unknown` if nobody has read it.")


def _impossible(value: float, attribute: Attribute, names: list[str] | None = None) -> Problem:
    least, most = attribute.physical or (-math.inf, math.inf)
    unit = f" {label(attribute.unit)}" if attribute.unit else ""
    what = f"{value:g}{unit} is impossible for {_title(attribute)}, which lies between {least:g} and {most:g}{unit}."
    hint = did_you_mean(f"{value:g}", names or ())
    return Problem("impossible_value", what, hint=hint or "Check the number and its unit.")


def _not_understood(text: str, attribute: Attribute) -> Problem:
    title = _title(attribute)
    if attribute.reading == "count":
        what = f"`{shortened(text)}` is not a whole number, and {title} is counted."
        return Problem("not_a_number", what, hint="Write it like `6`, `5|6` or `5..8`, or `unknown`.")
    if attribute.reading == "word":
        return _unknown_word(text, attribute)
    if attribute.reading == "outline":
        return Problem("outline_not_understood", f"`{shortened(text)}` is not an outline.")
    if re.fullmatch(r"[A-Za-z°Ω\"″/%]+", text) and unit_of(text) is not None:
        return Problem("not_a_number", f"A unit stands without its number: `{shortened(text)}`.", hint=HOW_TO_WRITE)
    return Problem("not_a_number", f"`{shortened(text)}` is not understood as {title}.", hint=HOW_TO_WRITE)
