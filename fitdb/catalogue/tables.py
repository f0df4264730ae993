"""The tables of the catalogue. Kinds, classes and attributes are rows: a new part class is data, no migration.

Two laws stand here as constraints: a reading cannot be stored without a source, and its span is in order
(low <= nominal <= high, all finite). `origin` says whether a row came with the shipped tables (`seed`, replaced
when those change) or from a person (`own`, never touched). `version` counts the edits of a row and is its ETag.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import (
    Boolean,
    CheckConstraint,
    Column,
    Double,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    MetaData,
    SmallInteger,
    String,
    Table,
    UniqueConstraint,
)
from sqlalchemy.schema import SchemaItem
from sqlalchemy.types import TypeEngine

ID = String(80)
NAME = String(80)
TITLE = String(240)
SENTENCE = String(1000)
ENTERED = String(10_000)  # the longest reading that intake accepts
LIST = String(10_000)  # entries separated by one space
JSON_TEXT = String(200_000)
# The largest size that any column takes. NaN compares greater than every number on PostgreSQL and becomes NULL on
# SQLite, so one upper bound refuses NaN and infinity on both.
LARGEST = "1e30"

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)


def _required(kind: TypeEngine[Any] | type[TypeEngine[Any]], *names: str) -> list[Column[Any]]:
    return [Column(name, kind, nullable=False) for name in names]


def _origin() -> list[SchemaItem]:
    column: Column[str] = Column("origin", String(8), nullable=False, server_default="seed")
    return [column, CheckConstraint("origin in ('seed', 'own')", name="origin")]


def _added(kind: Any, *names: str, of: str = "") -> list[SchemaItem]:
    """Columns that came later: rows written before say `of` there."""
    return [Column(name, kind, nullable=False, server_default=of) for name in names]


def _version() -> Column[int]:
    return Column("version", Integer, nullable=False, server_default="1")


def _source() -> Column[str]:
    return Column("source_id", ID, ForeignKey("source.id"), nullable=False)


def _provenance() -> list[SchemaItem]:
    """What every row of the catalogue has but those that belong to another row."""
    return [_source(), *_origin()]


# --- where numbers come from -------------------------------------------------------------------------------

source = Table(
    "source",
    metadata,
    Column("id", ID, primary_key=True),
    *_required(SENTENCE, "title"),
    *_required(String(40), "kind", "standing"),
    *_origin(),
)

spread = Table(
    "spread",
    metadata,
    Column("source_kind", String(20), primary_key=True),
    Column("family", NAME, primary_key=True),
    *_required(Double, "minus", "plus"),
    *_required(Boolean, "percent"),
    *_provenance(),
    CheckConstraint("minus >= 0 and plus >= 0", name="sides"),
)

# A designation's band: sizes over `over` up to and including `up_to` mm lie between size - minus and size + plus.
fit = Table(
    "fit",
    metadata,
    Column("fit", NAME, primary_key=True),
    Column("over", Double, primary_key=True),
    *_required(Double, "up_to", "minus", "plus"),
    *_provenance(),
    CheckConstraint("over < up_to and -minus <= plus", name="band"),
)

# The nominal size that a name stands for in one fit table: "608" has a bore of 8.
fit_name = Table(
    "fit_name",
    metadata,
    Column("fit", NAME, primary_key=True),
    Column("name", NAME, primary_key=True),
    *_required(Double, "nominal"),
    *_provenance(),
)

# --- what parts are ----------------------------------------------------------------------------------------

part_class = Table(
    "part_class",
    metadata,
    Column("id", ID, primary_key=True),
    *_required(TITLE, "title"),
    *_required(LIST, "like_ids"),
    *_required(Boolean, "another_plan"),
    *_provenance(),
    *_required(Integer, "position"),
)

interface_kind = Table(
    "interface_kind",
    metadata,
    Column("id", ID, primary_key=True),
    *_required(TITLE, "title"),
    *_provenance(),
    *_required(Integer, "position"),
)

class_port = Table(
    "class_port",
    metadata,
    Column("class_id", ID, ForeignKey("part_class.id"), primary_key=True),
    Column("port", NAME, primary_key=True),
    Column("kind_id", ID, ForeignKey("interface_kind.id"), nullable=False),
    *_required(TITLE, "title"),
    *_provenance(),
    *_required(Integer, "position"),
)

# `owner` is a part class or an interface kind; the matching foreign key column repeats it, the other is NULL.
attribute = Table(
    "attribute",
    metadata,
    Column("owner", ID, primary_key=True),
    Column("name", NAME, primary_key=True),
    Column("class_id", ID, ForeignKey("part_class.id"), nullable=True),
    Column("kind_id", ID, ForeignKey("interface_kind.id"), nullable=True),
    *_required(String(20), "reading", "unit"),
    *_required(TITLE, "title"),
    Column("physical_low", Double, nullable=True),
    Column("physical_high", Double, nullable=True),
    Column("plausible_low", Double, nullable=True),
    Column("plausible_high", Double, nullable=True),
    Column("default_number", Double, nullable=True),
    Column("default_text", LIST, nullable=True),
    *_required(Double, "default_minus", "default_plus"),
    *_required(LIST, "vocabulary"),
    *_required(Boolean, "open"),
    *_required(NAME, "fit", "family"),
    *_required(TITLE, "tool"),
    *_required(SENTENCE, "how"),
    *_provenance(),
    *_required(Integer, "position"),
    CheckConstraint("coalesce(class_id, '') || coalesce(kind_id, '') = owner", name="one_owner"),
    CheckConstraint("reading in ('number', 'count', 'word', 'designation', 'outline')", name="reading"),
    CheckConstraint("(physical_low is null) = (physical_high is null)", name="physical"),
    CheckConstraint("(plausible_low is null) = (plausible_high is null)", name="plausible"),
    CheckConstraint("physical_low <= physical_high and plausible_low <= plausible_high", name="ranges"),
)

# --- what parts offer --------------------------------------------------------------------------------------

interface = Table(
    "interface",
    metadata,
    Column("id", ID, primary_key=True),
    Column("kind_id", ID, ForeignKey("interface_kind.id"), nullable=False),
    *_required(TITLE, "title"),
    *_required(String(100), "signature"),
    *_provenance(),
    _version(),
    UniqueConstraint("kind_id", "signature"),  # equal signature = same interface
)

part = Table(
    "part",
    metadata,
    Column("id", ID, primary_key=True),
    Column("class_id", ID, ForeignKey("part_class.id"), nullable=False),
    *_required(TITLE, "title"),
    *_provenance(),
    _version(),
    UniqueConstraint("class_id", "id"),  # pages of one class in the order of ids; what part_port refers to
)

# The class stands here too, so that "parts of this class that offer this interface" is one index.
part_port = Table(
    "part_port",
    metadata,
    Column("part_id", ID, primary_key=True),
    Column("port", NAME, primary_key=True),
    Column("interface_id", ID, ForeignKey("interface.id"), nullable=False),
    *_required(ID, "class_id"),
    ForeignKeyConstraint(["class_id", "part_id"], ["part.class_id", "part.id"], ondelete="CASCADE"),
    Index(None, "interface_id", "class_id", "part_id"),
    sqlite_with_rowid=False,
)


def _reading_table(owner: str) -> Table:
    """Numbers, counts and designations of a part or an interface. `counts` lists the whole numbers still possible."""
    return Table(
        f"{owner}_reading",
        metadata,
        Column(f"{owner}_id", ID, ForeignKey(f"{owner}.id", ondelete="CASCADE"), primary_key=True),
        Column("attribute", NAME, primary_key=True),
        *_required(String(20), "kind"),
        *_required(Double, "low", "nominal", "high"),
        *_required(LIST, "counts"),
        *_required(String(20), "unit"),
        *_required(NAME, "fit"),
        *_required(ENTERED, "entered"),
        *_required(Boolean, "value_assumed", "spread_assumed"),
        _source(),
        CheckConstraint("low <= nominal and nominal <= high", name="order"),
        CheckConstraint(f"low > -{LARGEST} and high < {LARGEST}", name="finite"),
        CheckConstraint("kind in ('number', 'count', 'designation')", name="kind"),
        sqlite_with_rowid=False,
    )


def _word_table(owner: str) -> Table:
    """Words of a part or an interface: the values still possible, in alphabetical order."""
    return Table(
        f"{owner}_word",
        metadata,
        Column(f"{owner}_id", ID, ForeignKey(f"{owner}.id", ondelete="CASCADE"), primary_key=True),
        Column("attribute", NAME, primary_key=True),
        *_required(LIST, "possible"),
        *_required(ENTERED, "entered"),
        *_required(Boolean, "open", "value_assumed"),
        _source(),
        sqlite_with_rowid=False,
    )


def _outline_table(owner: str) -> Table:
    """Drawn shapes of a part or an interface: `rings` and `holes` are JSON lists in mm, `spread` is a half width."""
    return Table(
        f"{owner}_outline",
        metadata,
        Column(f"{owner}_id", ID, ForeignKey(f"{owner}.id", ondelete="CASCADE"), primary_key=True),
        Column("attribute", NAME, primary_key=True),
        *_required(JSON_TEXT, "rings", "holes"),
        *_required(Double, "spread"),
        *_required(ENTERED, "entered"),
        *_required(Boolean, "value_assumed"),
        _source(),
        CheckConstraint(f"spread >= 0 and spread < {LARGEST}", name="spread"),
    )


interface_reading, part_reading = _reading_table("interface"), _reading_table("part")
interface_word, part_word = _word_table("interface"), _word_table("part")
interface_outline, part_outline = _outline_table("interface"), _outline_table("part")

# --- boards as data ----------------------------------------------------------------------------------------

pattern = Table(
    "pattern",
    metadata,
    Column("id", ID, primary_key=True),
    *_required(TITLE, "title"),
    *_origin(),
    *_required(Integer, "position"),
    *_added(ID, "lines_of"),  # draws on the seats and lines of this pattern, or empty
    *_added(LIST, "groups"),  # the groups of seats that it has of them: `deck belt@rear_left,rear_right`
    Column("source_id", ID, ForeignKey("source.id"), nullable=True),  # none for one that is known by its seats alone
)

# `per` is what a seat or line stands once for each of: end, side, place, box; its names hold {end}, {place}, ...
seat = Table(
    "seat",
    metadata,
    Column("pattern_id", ID, ForeignKey("pattern.id", ondelete="CASCADE"), primary_key=True),
    Column("id", NAME, primary_key=True),
    *_required(NAME, "row"),
    *_required(Integer, "place", "position"),
    *_required(LIST, "classes"),
    *_required(TITLE, "title"),
    _source(),
    *_added(String(10), "per"),
    *_added(LIST, "groups"),
)

line = Table(
    "line",
    metadata,
    Column("pattern_id", ID, ForeignKey("pattern.id", ondelete="CASCADE"), primary_key=True),
    Column("id", NAME, primary_key=True),
    *_required(NAME, "kind"),
    *_required(String(10), "joint"),
    *_required(TITLE, "title"),
    *_required(String(20), "expansion"),
    *_required(LIST, "chain_seats"),
    *_required(SENTENCE, "constants"),
    _source(),
    *_required(Integer, "position"),
    *_added(String(10), "per"),
    CheckConstraint("expansion in ('', 'chain', 'each', 'over')", name="expansion"),
)

line_role = Table(
    "line_role",
    metadata,
    Column("pattern_id", ID, primary_key=True),
    Column("line_id", NAME, primary_key=True),
    Column("role", NAME, primary_key=True),
    *_required(LIST, "seats"),
    *_required(String(20), "how"),
    *_required(NAME, "port"),
    *_required(Integer, "position"),
    ForeignKeyConstraint(["pattern_id", "line_id"], ["line.pattern_id", "line.id"], ondelete="CASCADE"),
    CheckConstraint("how in ('single', 'list', 'if_present')", name="how"),
)

# --- what mends, and what bounds ---------------------------------------------------------------------------

remedy = Table(
    "remedy",
    metadata,
    Column("id", ID, primary_key=True),
    *_required(TITLE, "title"),
    *_required(String(20), "move"),
    *_required(NAME, "seat"),
    *_required(ID, "stock"),
    *_required(NAME, "attribute"),
    *_required(Boolean, "reversible"),
    *_required(SENTENCE, "gives_up"),
    *_required(Double, "minutes", "money"),
    *_provenance(),
    _version(),
    *_required(Integer, "position"),
    *_added(String(10), "together", of="end"),
    *_added(NAME, "tool"),
    *_added(LIST, "only"),
    CheckConstraint("move in ('insert', 'substitute', 'alter', 'set')", name="move"),
)

# What is moved from board to board in one piece: names of seats, and the minutes to take it off (common practice).
unit = Table(
    "unit",
    metadata,
    Column("id", ID, primary_key=True),
    *_required(TITLE, "title"),
    *_required(LIST, "seats"),
    *_required(Double, "minutes"),
    *_provenance(),
    *_required(Integer, "position"),
)

# One stocked size of an attribute, in the attribute's canonical unit.
stock = Table(
    "stock",
    metadata,
    Column("class_id", ID, ForeignKey("part_class.id"), primary_key=True),
    Column("attribute", NAME, primary_key=True),
    Column("size", Double, primary_key=True),
    *_provenance(),
)

# A bound of the rulebook that this catalogue sets otherwise. (`limit` is a word of SQL.)
limit_override = Table(
    "limit_override",
    metadata,
    Column("key", ID, primary_key=True),
    *_required(Double, "value"),
    *_required(SENTENCE, "why"),
    *_provenance(),
    _version(),
)

# A board or plan that somebody keeps: the document as it was written, checked before it was taken.
saved_document = Table(
    "saved_document",
    metadata,
    Column("kind", String(10), primary_key=True),
    Column("id", ID, primary_key=True),
    *_required(TITLE, "title"),
    *_required(JSON_TEXT, "document"),
    *_required(String(40), "saved_at"),
    _version(),
    CheckConstraint("kind in ('board', 'plan')", name="kind"),
)

# What a rule said of a pair of interfaces, under the rulebook with that stamp. It can refuse, never confirm.
fit_answer = Table(
    "fit_answer",
    metadata,
    Column("interface_a", ID, ForeignKey("interface.id", ondelete="CASCADE"), primary_key=True),
    Column("interface_b", ID, ForeignKey("interface.id", ondelete="CASCADE"), primary_key=True),
    Column("rule", ID, primary_key=True),
    *_required(String(20), "state"),
    *_required(String(80), "stamp"),
    Index(None, "interface_b"),
    sqlite_with_rowid=False,
)

# One row. `number` moves with every change, `seed` is the digest of the shipped tables that were loaded last.
catalogue_revision = Table(
    "catalogue_revision",
    metadata,
    Column("id", SmallInteger, primary_key=True, autoincrement=False),
    *_required(Integer, "number"),
    *_required(String(80), "seed"),
    CheckConstraint("id = 1", name="one_row"),
)

# How many characters fit, by table and column. PostgreSQL refuses longer text, SQLite would not: the code asks first.
LENGTHS = {
    table.name: {column.name: column.type.length for column in table.columns if isinstance(column.type, String)}
    for table in metadata.tables.values()
}
