"""What must be true between the tables of a seed directory. Each check returns every fault it finds."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from fitdb.catalogue.layouts import PER, PLACEHOLDER, filled, seats_of
from fitdb.catalogue.seed_cells import Field, Sheet
from fitdb.catalogue.seed_files import Key, Placed, record_fault, unknown_id
from fitdb.intake.nearest import did_you_mean
from fitdb.intake.units import known_units
from fitdb.model.part import AttributeTable
from fitdb.model.problems import Problem

BEFORE = "before:"  # a role with this prefix looks at the board as it stood
WHAT = {
    "source": "source",
    "part_class": "part class",
    "interface_kind": "interface kind",
    "work_caution": "caution",
    "work_step": "step",
    "work_fastening": "fastening",
}


def repeated(sheet: Sheet, placed: Sequence[Placed], in_catalogue: set[Key]) -> Iterator[Problem]:
    """Rows whose key another row, or the catalogue that is imported into, already has."""
    first: dict[tuple[object, ...], Placed] = {}
    for item in placed:
        key = tuple(item.row[column] for column in sheet.key)
        named = " ".join(str(value) for value in key)
        column = next(field.heading for field in sheet.fields if field.column == sheet.key[-1])
        if key in first:
            other = first[key]
            message = f"`{named}` stands in {other.file}, row {other.number} already."
            yield record_fault("duplicate_id", message, item, column, "Give it another id, or take one of them out.")
        elif key in in_catalogue:
            yield record_fault("duplicate_id", f"`{named}` is in the catalogue already.", item, column)
        first.setdefault(key, item)


def unknown_references(item: Placed, fields: Sequence[Field], named: Mapping[str, set[Key]]) -> Iterator[Problem]:
    """Cells that name a source, class or kind that no table has."""
    for field in fields:
        if field.refers and field.column in item.row:
            for entry in str(item.row[field.column]).split():
                if (entry,) not in named[field.refers]:
                    known = [key[0] for key in named[field.refers]]
                    yield unknown_id(item, field.heading, WHAT[field.refers], entry, known)


def classes_like_themselves(placed: Iterable[Placed], table: AttributeTable) -> Iterator[Problem]:
    """A class may not be like itself, not by way of others either."""
    for item in placed:
        own = item.row["id"]
        for named in item.row["like_ids"].split():
            if own == named or own in table.line_of(named):
                yield record_fault("circular_like", f"`{own}` is like itself by way of `{named}`.", item, "like")


def owners(item: Placed, named: Mapping[str, set[Key]]) -> Iterator[Problem]:
    """The owner of an attribute is a part class or an interface kind, never both."""
    owner = (item.row["owner"],)
    is_class, is_kind = owner in named["part_class"], owner in named["interface_kind"]
    if is_class and is_kind:
        message = f"`{owner[0]}` is the id of a part class and of an interface kind."
        yield record_fault("ambiguous_owner", message, item, "owner", "Rename one of the two.")
    if not is_class and not is_kind:
        known = [key[0] for key in named["part_class"] | named["interface_kind"]]
        yield unknown_id(item, "owner", "part class or interface kind", owner[0], known)


def attributes(item: Placed, fits: Iterable[str], families: Iterable[str]) -> Iterator[Problem]:
    """Units, ranges, vocabularies, fit tables and spread families of one attribute."""
    row = item.row
    if row["unit"] and row["unit"] not in known_units():
        hint = did_you_mean(row["unit"], known_units())
        yield record_fault("unknown_unit", f"`{row['unit']}` is not a canonical unit.", item, "unit", hint)
    for name in ("physical", "plausible"):
        low, high = row[f"{name}_low"], row[f"{name}_high"]
        if (low is None) != (high is None):
            yield record_fault("half_a_range", f"The {name} range has one end only.", item, f"{name}_low")
        elif low is not None and low > high:
            yield record_fault("low_above_high", f"{low:g} is above {high:g}.", item, f"{name}_low")
    if None not in (row["physical_low"], row["physical_high"], row["plausible_low"], row["plausible_high"]) and not (
        row["physical_low"] <= row["plausible_low"] and row["plausible_high"] <= row["physical_high"]
    ):
        message = "The plausible range reaches outside the physical one."
        yield record_fault("range_outside", message, item, "plausible_low")
    if row["reading"] == "word":
        if not row["vocabulary"] and not row["open"]:
            yield record_fault("no_vocabulary", "A word needs a vocabulary, or open = yes.", item, "vocabulary")
    elif row["vocabulary"]:
        yield record_fault("bad_cell", f"A {row['reading']} has no vocabulary.", item, "vocabulary")
    if row["fit"] and row["fit"] not in fits:
        yield unknown_id(item, "fit", "fit table", row["fit"], fits)
    if row["family"] and row["family"] not in families:
        yield unknown_id(item, "family", "spread family", row["family"], families)
    yield from _default(item)


def _default(item: Placed) -> Iterator[Problem]:
    row, words = item.row, item.row["default_text"]
    if row["reading"] == "word":
        for word in (words or "").split("|") if words else ():
            if word not in row["vocabulary"].split() and not row["open"]:
                yield record_fault("unknown_word", f"`{word}` is not in the vocabulary.", item, "default")
    elif row["reading"] != "outline" and words is not None:
        yield record_fault("bad_cell", f"`{words}` is not a number.", item, "default")
    number, low, high = row["default_number"], row["physical_low"], row["physical_high"]
    if number is not None and low is not None and high is not None and not low <= number <= high:
        yield record_fault("impossible_value", "The default lies outside the physical range.", item, "default")


class Boards:
    """Seats of all patterns, spread over their places, with the classes that fill each and what those offer."""

    def __init__(
        self, seats: Iterable[Mapping[str, str]], patterns: Iterable[Mapping[str, str]], table: AttributeTable
    ):
        self.table = table
        self.classes: dict[tuple[str, str], set[str]] = {}  # by (pattern, seat)
        self.row_of: dict[tuple[str, str], str] = {}
        self.rows: defaultdict[str, set[str]] = defaultdict(set)  # by any name of a seat, over all patterns
        self.draws_on = {row["id"]: row["lines_of"] for row in patterns}
        for row in seats:
            for _, seat in seats_of(row):
                fitting = {own for own in table.classes if set(seat.classes) & set(table.line_of(own))}
                self.classes[row["pattern_id"], seat.id] = fitting
                self.row_of[row["pattern_id"], seat.id] = seat.row
                for name in {*seat.names, seat.id, seat.row} - {""}:
                    self.rows[name] |= fitting

    def lines(self, item: Placed, roles: Sequence[Mapping[str, str]]) -> Iterator[Problem]:
        """The chain of a line, and whether it has the roles and constants that its expansion needs."""
        row = item.row
        chain = row["chain_seats"].split()
        yield from self._seats(item, row["pattern_id"], "chain_seats", row["per"], chain)
        if (row["expansion"] == "chain") != bool(chain) or len(chain) == 1:
            message = "`chain` goes with two chain_seats or more, and chain_seats with `chain`."
            yield record_fault("bad_chain", message, item, "chain_seats")
        if (row["expansion"] == "over") != bool(row["constants"]):
            message = "`over` goes with constants, and constants with `over`."
            yield record_fault("bad_constants", message, item, "constants")
        least = 2 if row["expansion"] == "chain" else 1
        if len(roles) < least:
            message = f"`{row['id']}` has {len(roles)} roles; {least} are the least."
            yield record_fault("too_few_roles", message, item, "line")

    def roles(self, item: Placed, per: Mapping[tuple[str, str], str]) -> Iterator[Problem]:
        """The line, seats and port that a role names. `per` is what each line stands once for each of."""
        row = item.row
        pattern, seats = row["pattern_id"], row["seats"].split()
        if (pattern, row["line_id"]) not in per:
            known = [line for own, line in per if own == pattern]
            yield unknown_id(item, "line", f"line of pattern `{pattern}`", row["line_id"], known)
        each = per.get((pattern, row["line_id"]), "")
        faults = list(self._seats(item, pattern, "seats", each, seats))
        yield from faults
        if not seats:
            yield record_fault("no_seat", "A role names at least one seat.", item, "seats")
        if faults:
            return
        spread = [filled(seat, PER[each][0]).removeprefix(BEFORE) for seat in seats]
        rows = {self.row_of[self._key(pattern, seat)] for seat in spread}
        one_place = "{" in row["seats"] and len({seat.partition("}")[0] for seat in seats}) == 1
        if row["how"] == "single" and len(rows) > 1 and not one_place:
            hint = "Make it a list, or write one line for each seat."
            message = "A single role names seats of one row or of one place."
            yield record_fault("several_seats", message, item, "seats", hint)
        fitting: set[str] = set().union(*(self.classes[self._key(pattern, seat)] for seat in spread))
        ports = {port for own in fitting for port in self.table.ports_of(own)}
        if row["port"] and fitting and row["port"] not in ports:
            yield unknown_id(item, "port", f"port of {', '.join(sorted(fitting))}", row["port"], ports)

    def _seats(self, item: Placed, pattern: str, column: str, per: str, seats: Sequence[str]) -> Iterator[Problem]:
        """Seats that the pattern, or the one whose lines it draws on, does not have; each told once."""
        patterns = (pattern, self.draws_on.get(pattern, ""))
        known = [seat for own, seat in self.classes if own in patterns]
        for seat in seats:
            lacking = [name for name in PLACEHOLDER.findall(seat) if name not in PER[per][0]]
            if lacking:
                message = f"`{{{lacking[0]}}}` has no value: the line stands once for each {per or 'board'}."
                yield record_fault("no_value", message, item, column)
                continue
            for values in PER[per]:
                named = filled(seat, values).removeprefix(BEFORE)
                if named not in known:
                    yield unknown_id(item, column, f"seat of pattern `{pattern}`", named, known)
                    break

    def _key(self, pattern: str, seat: str) -> tuple[str, str]:
        return (pattern, seat) if (pattern, seat) in self.classes else (self.draws_on.get(pattern, ""), seat)

    def remedies(self, item: Placed) -> Iterator[Problem]:
        """The seat, stock and attribute of one remedy."""
        row, table = item.row, self.table
        if row["seat"] not in self.rows:
            yield unknown_id(item, "seat", "seat or row of seats", row["seat"], list(self.rows))
        if row["stock"] and row["stock"] not in table.classes:
            yield unknown_id(item, "stock", "part class", row["stock"], table.classes)
        if row["move"] in ("insert", "substitute") and not row["stock"]:
            yield record_fault("no_stock", f"What is there to {row['move']}? Name a part class.", item, "stock")
        if row["move"] in ("alter", "set") and not row["attribute"]:
            yield record_fault("no_attribute", f"What is there to {row['move']}? Name an attribute.", item, "attribute")
        classes = self.rows.get(row["seat"], set())
        described = [one for own in classes if (one := table.attribute_of(own, row["attribute"]))]
        if row["move"] == "insert":
            allowed = set(self.rows)
        else:
            allowed = {"up", "down"} | {word for one in described for word in one.vocabulary}
        for word in row["only"].split():
            if word not in allowed:
                yield unknown_id(item, "only", "seat, direction or word that this remedy may choose", word, allowed)
        if row["attribute"] and classes and not described:
            names = {name for own in classes for name in table.own_attributes(own)}
            yield unknown_id(item, "attribute", "attribute of what sits there", row["attribute"], names)


def bands(item: Placed) -> Iterator[Problem]:
    """A fit band has its ends in order; minus is what is taken off, so a deviation of -0.008 is written 0.008."""
    row = item.row
    if row["over"] >= row["up_to"]:
        yield record_fault("low_above_high", f"{row['over']:g} is not below {row['up_to']:g}.", item, "over")
    if -row["minus"] > row["plus"]:
        message = f"Sizes from {-row['minus']:+g} to {row['plus']:+g} are in no order."
        hint = "The band reaches from size - minus to size + plus: a lower deviation of -0.008 is written 0.008."
        yield record_fault("low_above_high", message, item, "minus", hint)


def stock(item: Placed, table: AttributeTable) -> Iterator[Problem]:
    """A stocked size is that of an attribute which the class has."""
    own, name = item.row["class_id"], item.row["attribute"]
    if table.attribute_of(own, name) is None:
        yield unknown_id(item, "attribute", f"attribute of `{own}`", name, table.own_attributes(own))
