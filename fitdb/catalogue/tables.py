"""The tables of the catalogue. Kinds, classes and attributes are rows: a new part class is data, no migration.

Two laws stand here as constraints: a reading cannot be stored without a source, and its span is in order
(low <= nominal <= high, all finite). `origin` says whether a row came with the shipped tables (`seed`, replaced
when those change) or from a person (`own`, never touched). `version` counts the edits of a row and is its ETag.
"""

from __future__ import annotations

from sqlalchemy import (
    Boolean,
    CheckConstraint,
    Column,
    Double,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    LargeBinary,
    SmallInteger,
    String,
    Table,
    UniqueConstraint,
)

from fitdb.catalogue import work_tables as work_tables  # they stand in the same metadata
from fitdb.catalogue.columns import (
    ENTERED,
    ID,
    JSON_TEXT,
    LARGEST,
    LIST,
    NAME,
    SENTENCE,
    TITLE,
    added,
    metadata,
    origin,
    provenance,
    required,
    source_column,
    version_column,
)

__all__ = ["LENGTHS", "metadata"]

# --- where numbers come from -------------------------------------------------------------------------------

source = Table(
    "source",
    metadata,
    Column("id", ID, primary_key=True),
    *required(SENTENCE, "title"),
    *required(String(40), "kind", "standing"),
    *origin(),
)

spread = Table(
    "spread",
    metadata,
    Column("source_kind", String(20), primary_key=True),
    Column("family", NAME, primary_key=True),
    *required(Double, "minus", "plus"),
    *required(Boolean, "percent"),
    *provenance(),
    CheckConstraint("minus >= 0 and plus >= 0", name="sides"),
)

# A designation's band: sizes over `over` up to and including `up_to` mm lie between size - minus and size + plus.
fit = Table(
    "fit",
    metadata,
    Column("fit", NAME, primary_key=True),
    Column("over", Double, primary_key=True),
    *required(Double, "up_to", "minus", "plus"),
    *provenance(),
    CheckConstraint("over < up_to and -minus <= plus", name="band"),
)

# The nominal size that a name stands for in one fit table: "608" has a bore of 8.
fit_name = Table(
    "fit_name",
    metadata,
    Column("fit", NAME, primary_key=True),
    Column("name", NAME, primary_key=True),
    *required(Double, "nominal"),
    *provenance(),
)

# --- what parts are ----------------------------------------------------------------------------------------

part_class = Table(
    "part_class",
    metadata,
    Column("id", ID, primary_key=True),
    *required(TITLE, "title"),
    *required(LIST, "like_ids"),
    *required(Boolean, "another_plan"),
    *provenance(),
    *required(Integer, "position"),
)

interface_kind = Table(
    "interface_kind",
    metadata,
    Column("id", ID, primary_key=True),
    *required(TITLE, "title"),
    *provenance(),
    *required(Integer, "position"),
)

class_port = Table(
    "class_port",
    metadata,
    Column("class_id", ID, ForeignKey("part_class.id"), primary_key=True),
    Column("port", NAME, primary_key=True),
    Column("kind_id", ID, ForeignKey("interface_kind.id"), nullable=False),
    *required(TITLE, "title"),
    *provenance(),
    *required(Integer, "position"),
)

# `owner` is a part class or an interface kind; the matching foreign key column repeats it, the other is NULL.
attribute = Table(
    "attribute",
    metadata,
    Column("owner", ID, primary_key=True),
    Column("name", NAME, primary_key=True),
    Column("class_id", ID, ForeignKey("part_class.id"), nullable=True),
    Column("kind_id", ID, ForeignKey("interface_kind.id"), nullable=True),
    *required(String(20), "reading", "unit"),
    *required(TITLE, "title"),
    Column("physical_low", Double, nullable=True),
    Column("physical_high", Double, nullable=True),
    Column("plausible_low", Double, nullable=True),
    Column("plausible_high", Double, nullable=True),
    Column("default_number", Double, nullable=True),
    Column("default_text", LIST, nullable=True),
    *required(Double, "default_minus", "default_plus"),
    *required(LIST, "vocabulary"),
    *required(Boolean, "open"),
    *required(NAME, "fit", "family"),
    *required(TITLE, "tool"),
    *required(SENTENCE, "how"),
    *provenance(),
    *required(Integer, "position"),
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
    *required(TITLE, "title"),
    *required(String(100), "signature"),
    *provenance(),
    version_column(),
    UniqueConstraint("kind_id", "signature"),  # equal signature = same interface
)

part = Table(
    "part",
    metadata,
    Column("id", ID, primary_key=True),
    Column("class_id", ID, ForeignKey("part_class.id"), nullable=False),
    *required(TITLE, "title"),
    *provenance(),
    version_column(),
    UniqueConstraint("class_id", "id"),  # pages of one class in the order of ids; what part_port refers to
)

# The class stands here too, so that "parts of this class that offer this interface" is one index.
part_port = Table(
    "part_port",
    metadata,
    Column("part_id", ID, primary_key=True),
    Column("port", NAME, primary_key=True),
    Column("interface_id", ID, ForeignKey("interface.id"), nullable=False),
    *required(ID, "class_id"),
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
        *required(String(20), "kind"),
        *required(Double, "low", "nominal", "high"),
        *required(LIST, "counts"),
        *required(String(20), "unit"),
        *required(NAME, "fit"),
        *required(ENTERED, "entered"),
        *required(Boolean, "value_assumed", "spread_assumed"),
        source_column(),
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
        *required(LIST, "possible"),
        *required(ENTERED, "entered"),
        *required(Boolean, "open", "value_assumed"),
        source_column(),
        sqlite_with_rowid=False,
    )


def _outline_table(owner: str) -> Table:
    """Drawn shapes of a part or an interface: `rings` and `holes` are JSON lists in mm, `spread` is a half width."""
    return Table(
        f"{owner}_outline",
        metadata,
        Column(f"{owner}_id", ID, ForeignKey(f"{owner}.id", ondelete="CASCADE"), primary_key=True),
        Column("attribute", NAME, primary_key=True),
        *required(JSON_TEXT, "rings", "holes"),
        *required(Double, "spread"),
        *required(ENTERED, "entered"),
        *required(Boolean, "value_assumed"),
        source_column(),
        CheckConstraint(f"spread >= 0 and spread < {LARGEST}", name="spread"),
    )


interface_reading, part_reading = _reading_table("interface"), _reading_table("part")
Index(None, part_reading.c.attribute, part_reading.c.nominal, part_reading.c.part_id)  # lists by the size of a reading
interface_word, part_word = _word_table("interface"), _word_table("part")
interface_outline, part_outline = _outline_table("interface"), _outline_table("part")

# --- boards as data ----------------------------------------------------------------------------------------

pattern = Table(
    "pattern",
    metadata,
    Column("id", ID, primary_key=True),
    *required(TITLE, "title"),
    *origin(),
    *required(Integer, "position"),
    *added(ID, "lines_of"),  # draws on the seats and lines of this pattern, or empty
    *added(LIST, "groups"),  # the groups of seats that it has of them: `deck belt@rear_left,rear_right`
    Column("source_id", ID, ForeignKey("source.id"), nullable=True),  # none for one that is known by its seats alone
)

# `per` is what a seat or line stands once for each of: end, side, place, box; its names hold {end}, {place}, ...
seat = Table(
    "seat",
    metadata,
    Column("pattern_id", ID, ForeignKey("pattern.id", ondelete="CASCADE"), primary_key=True),
    Column("id", NAME, primary_key=True),
    *required(NAME, "row"),
    *required(Integer, "place", "position"),
    *required(LIST, "classes"),
    *required(TITLE, "title"),
    source_column(),
    *added(String(10), "per"),
    *added(LIST, "groups"),
)

line = Table(
    "line",
    metadata,
    Column("pattern_id", ID, ForeignKey("pattern.id", ondelete="CASCADE"), primary_key=True),
    Column("id", NAME, primary_key=True),
    *required(NAME, "kind"),
    *required(String(10), "joint"),
    *required(TITLE, "title"),
    *required(String(20), "expansion"),
    *required(LIST, "chain_seats"),
    *required(SENTENCE, "constants"),
    source_column(),
    *required(Integer, "position"),
    *added(String(10), "per"),
    CheckConstraint("expansion in ('', 'chain', 'each', 'over')", name="expansion"),
)

line_role = Table(
    "line_role",
    metadata,
    Column("pattern_id", ID, primary_key=True),
    Column("line_id", NAME, primary_key=True),
    Column("role", NAME, primary_key=True),
    *required(LIST, "seats"),
    *required(String(20), "how"),
    *required(NAME, "port"),
    *required(Integer, "position"),
    ForeignKeyConstraint(["pattern_id", "line_id"], ["line.pattern_id", "line.id"], ondelete="CASCADE"),
    CheckConstraint("how in ('single', 'list', 'if_present')", name="how"),
)

# --- what mends, and what bounds ---------------------------------------------------------------------------

remedy = Table(
    "remedy",
    metadata,
    Column("id", ID, primary_key=True),
    *required(TITLE, "title"),
    *required(String(20), "move"),
    *required(NAME, "seat"),
    *required(ID, "stock"),
    *required(NAME, "attribute"),
    *required(Boolean, "reversible"),
    *required(SENTENCE, "gives_up"),
    *required(Double, "minutes", "money"),
    *provenance(),
    version_column(),
    *required(Integer, "position"),
    *added(String(10), "together", of="end"),
    *added(NAME, "tool"),
    *added(LIST, "only"),
    CheckConstraint("move in ('insert', 'substitute', 'alter', 'set')", name="move"),
)

# What is moved from board to board in one piece: names of seats, and the minutes to take it off (common practice).
unit = Table(
    "unit",
    metadata,
    Column("id", ID, primary_key=True),
    *required(TITLE, "title"),
    *required(LIST, "seats"),
    *required(Double, "minutes"),
    *provenance(),
    *required(Integer, "position"),
)

# One stocked size of an attribute, in the attribute's canonical unit.
stock = Table(
    "stock",
    metadata,
    Column("class_id", ID, ForeignKey("part_class.id"), primary_key=True),
    Column("attribute", NAME, primary_key=True),
    Column("size", Double, primary_key=True),
    *provenance(),
)

# A bound of the rulebook that this catalogue sets otherwise. (`limit` is a word of SQL.)
limit_override = Table(
    "limit_override",
    metadata,
    Column("key", ID, primary_key=True),
    *required(Double, "value"),
    *required(SENTENCE, "why"),
    *provenance(),
    version_column(),
)

# A board or plan that somebody keeps: the document as it was written, checked before it was taken.
saved_document = Table(
    "saved_document",
    metadata,
    Column("kind", String(10), primary_key=True),
    Column("id", ID, primary_key=True),
    *required(TITLE, "title"),
    *required(JSON_TEXT, "document"),
    *required(String(40), "saved_at"),
    version_column(),
    CheckConstraint("kind in ('board', 'plan')", name="kind"),
)

# What a rule said of a pair of interfaces, under the rulebook with that stamp. It can refuse, never confirm.
fit_answer = Table(
    "fit_answer",
    metadata,
    Column("interface_a", ID, ForeignKey("interface.id", ondelete="CASCADE"), primary_key=True),
    Column("interface_b", ID, ForeignKey("interface.id", ondelete="CASCADE"), primary_key=True),
    Column("rule", ID, primary_key=True),
    *required(String(20), "state"),
    *required(String(80), "stamp"),
    Index(None, "interface_b"),
    sqlite_with_rowid=False,
)

# What the rules said of the parts that one form of question can tell apart, packed; the stamp is of all it depends on.
asked_before = Table(
    "asked_before",
    metadata,
    Column("about", ID, primary_key=True),
    Column("form", ID, primary_key=True),
    *required(String(80), "stamp"),
    Column("answers", LargeBinary, nullable=False),
)

# One row. `number` moves with every change, `seed` is the digest of the shipped tables that were loaded last.
catalogue_revision = Table(
    "catalogue_revision",
    metadata,
    Column("id", SmallInteger, primary_key=True, autoincrement=False),
    *required(Integer, "number"),
    *required(String(80), "seed"),
    CheckConstraint("id = 1", name="one_row"),
)

# How many characters fit, by table and column. PostgreSQL refuses longer text, SQLite would not: the code asks first.
LENGTHS = {
    table.name: {column.name: column.type.length for column in table.columns if isinstance(column.type, String)}
    for table in metadata.tables.values()
}
