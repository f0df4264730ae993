"""Front door: what is in the catalogue, and which parts of a class fit a given one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fitdb.board import BoardJudge, Judged
from fitdb.catalogue import read
from fitdb.catalogue.asked import typed_question
from fitdb.catalogue.find_parts import alike_ids
from fitdb.catalogue.read import Book
from fitdb.catalogue.session import open_catalogue
from fitdb.fit import LOOSE, pieces_of
from fitdb.intake.nearest import did_you_mean
from fitdb.model.finding import Finding
from fitdb.model.interface import Interface
from fitdb.model.part import Attribute, Part
from fitdb.model.pattern import LineRole, Pattern
from fitdb.model.plan import FitQuestion
from fitdb.model.problems import Malformed, Problem
from fitdb.model.rule import Rulebook
from fitdb.model.source import Source
from fitdb.model.verdict import JointVerdict
from fitdb.rules import rulebook
from fitdb.steps.explain import Display, reading_document, reading_text, sentence, source_document

BEST_FIRST = ("fits", "measure", "clash")


def find_fitting(
    url: str | None, part_class: str, fits: str, in_roles: Sequence[str], everything: bool, display: Display
) -> dict[str, Any]:
    """Every part of a class judged against a part (id or part file), best first; those that clash only on request."""
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            question = typed_question(connection, book, [fits], in_roles)
            candidates = read.parts_of_classes(connection, classes_like(part_class, book))
    finally:
        engine.dispose()
    return fitting(question, part_class, candidates, book, rulebook(), everything, display)


def touching(board: Judged, part_id: str) -> tuple[JointVerdict, ...]:
    """The joints that a part has a piece in."""
    return tuple(
        joint
        for joint in board.joints
        if any(piece.part.id == part_id for pieces in joint.joint.pieces.values() for piece in pieces)
    )


def listed_class(url: str | None, part_class: str) -> dict[str, Any]:
    """All parts of a class and of those like it, as one document. Malformed, with the nearest, for an unknown class."""
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            parts = read.parts_of_classes(connection, classes_like(part_class, book))
    finally:
        engine.dispose()
    return {
        "class": part_class,
        "parts": [{"part": part.id, "title": part.title, "class": part.part_class} for part in parts],
        "catalogue_revision": book.revision,
    }


def fitting(
    question: FitQuestion,
    part_class: str,
    candidates: Sequence[Part],
    book: Book,
    rules: Rulebook,
    everything: bool,
    display: Display,
) -> dict[str, Any]:
    """The candidates with verdict and deciding sentence. A candidate that does not meet the part is left out."""
    found = []
    judge = BoardJudge(book.patterns[LOOSE], book, rules, {**book.limits, **question.limits})
    for part in candidates:
        asked = FitQuestion((*question.parts, ("", part)), question.readings, question.limits)
        pieces = pieces_of(asked, book)
        joints = touching(judge.judge(pieces), part.id)
        verdict = next((word for word in ("clash", "measure", "fits") if any(j.verdict == word for j in joints)), "")
        if verdict and (everything or verdict != "clash"):
            decider = deciding(joints)
            found.append(
                {
                    "part": part.id,
                    "title": part.title,
                    "class": part.part_class,
                    "verdict": verdict,
                    "rule": decider.rule.id,
                    "sentence": sentence(decider, display),
                }
            )
    found.sort(key=lambda item: (BEST_FIRST.index(item["verdict"]), item["part"]))
    name = ", ".join(part.id for _, part in question.parts)
    return {
        "class": part_class,
        "fits": [part.id for _, part in question.parts],
        "judged": len(candidates),
        "found": found,
        "sentence": f"{len(found)} of {len(candidates)} parts of class {part_class} for {name}:",
        "catalogue_revision": book.revision,
        "rulebook_stamp": rules.stamp,
    }


def shown_part(url: str | None, part_id: str, display: Display) -> dict[str, Any]:
    """One part with everything known of it; Malformed, with the nearest id, if there is none."""
    engine = open_catalogue(url)
    try:
        with engine.connect() as connection:
            book = read.book(connection)
            part = read.part(connection, part_id)
            if part is None:
                hint = did_you_mean(part_id, alike_ids(connection, part_id))
                raise Malformed([Problem("unknown_part", f"the catalogue has no part {part_id!r}.", hint=hint)])
    finally:
        engine.dispose()
    return part_document(part, book, display)


def part_document(part: Part, book: Book, display: Display) -> dict[str, Any]:
    """A part as plain data: its own readings, those of its interfaces by port, and what nobody has read."""
    ports = book.table.ports_of(part.part_class)
    own = book.table.own_attributes(part.part_class)
    groups = [
        {"port": "", "interface": None, "title": "Its own sizes", "readings": _readings(part.readings, own, display)}
    ]
    unread = [_unread("", attribute) for name, attribute in own.items() if name not in part.readings]
    for port, kind in ports.items():
        attributes = book.table.kind_attributes(kind)
        interface = part.ports.get(port)
        title = book.table.kinds[kind].title
        if interface is None:
            unread.append(
                {"port": port, "attribute": port, "title": title, "tool": "", "how": f"{title}: no interface named"}
            )
            continue
        groups.append(
            {
                "port": port,
                "interface": interface.id,
                "title": f"{port}: {interface.title} ({interface.id})",
                "readings": _readings(interface.readings, attributes, display),
            }
        )
        unread += [_unread(port, attribute) for name, attribute in attributes.items() if name not in interface.readings]
    return {
        "id": part.id,
        "class": part.part_class,
        "class_title": book.table.classes[part.part_class].title,
        "title": part.title,
        "source": source_document(part.source),
        "version": part.version,
        "ports": {port: interface.id for port, interface in part.ports.items()},
        "groups": [group for group in groups if group["readings"]],
        "unread": unread,
        "catalogue_revision": book.revision,
    }


def rules_document(wanted: str) -> dict[str, Any]:
    """The rules that a person asked for: all, one by id, a joint kind, or a J number."""
    book = rulebook()
    plain = wanted.strip().lower()
    chosen = [
        rule
        for rules in book.by_kind.values()
        for rule in rules
        if not plain or plain in (rule.id, rule.kind, book.kinds[rule.kind].joint.lower())
    ]
    if not chosen:
        known = [*book.rules, *book.kinds, *(kind.joint for kind in book.kinds.values())]
        hint = did_you_mean(wanted, known) or "`fitdb rules` lists them all."
        raise Malformed([Problem("unknown_rule", f"there is no rule {wanted!r}.", hint=hint)])
    return {"rules": [rule_document(rule.id) for rule in chosen], "rulebook_stamp": book.stamp}


def rule_document(rule_id: str) -> dict[str, Any]:
    """One rule as plain data."""
    from fitdb.steps.explain import limit_document

    book = rulebook()
    rule = book.rules[rule_id]
    display = Display()
    return {
        "id": rule.id,
        "kind": rule.kind,
        "number": book.kinds[rule.kind].joint,
        "title": book.kinds[rule.kind].title,
        "question": rule.question,
        "why": rule.why,
        "measures": rule.measures,
        "formula": rule.formula,
        "unit": rule.unit,
        "needs": list(rule.needs),
        "limit": limit_document(rule.hard, rule.unit, display),
        "comfort": limit_document(rule.comfort, rule.unit, display) if rule.comfort else None,
        "published": [{"text": item.text, "source": item.source} for item in rule.published],
        "severity": rule.severity.word,
        "caution": rule.caution,
        "excused_by": rule.excused_by,
        "examples": [
            {"title": one.title, "says": one.expect, "margin": one.margin, "two_numbers": one.two_numbers}
            for one in rule.examples
        ],
    }


def classes_like(part_class: str, book: Book) -> tuple[str, ...]:
    """The class and every class that is like it; Malformed, with the nearest name, if it is unknown."""
    if part_class not in book.table.classes:
        hint = did_you_mean(part_class, book.table.classes)
        raise Malformed([Problem("unknown_class", f"there is no part class {part_class!r}.", hint=hint)])
    return tuple(name for name in book.table.classes if part_class in book.table.line_of(name))


def stand_in(interface: Interface, part_class: str, book: Book) -> tuple[str, Part] | None:
    """A seat and a part that offers nothing but this interface, to ask which parts of a class fit the interface.

    Its class is the first that a joint line of the loose pattern looks at by a port of the interface's kind while
    another role of the line takes the wanted class; None where no line does. Nothing else of it has been read, so
    rules that read more of it cannot be decided.
    """
    pattern = book.patterns[LOOSE]
    for line in pattern.lines:
        for role in line.roles:
            if not any(_takes(pattern, other, part_class, book) for other in line.roles if other is not role):
                continue
            for seat in role.seats:
                for name in pattern.seats[seat].classes:
                    if book.table.ports_of(name).get(role.port) == interface.kind:
                        nobody = Source("no-part", "default", "a stand-in for any part with this interface", "derived")
                        return seat, Part(interface.id, name, interface.title, {}, {role.port: interface}, nobody)
    return None


def classes_document(book: Book) -> dict[str, Any]:
    """Every part class with what it is like and its ports."""
    told = [_class_line(name, book) for name in book.table.classes]
    return {"classes": told, "catalogue_revision": book.revision}


def class_document(part_class: str, book: Book) -> dict[str, Any]:
    """One class with all it has, what it has from the classes it is like included; Malformed if it is unknown."""
    classes_like(part_class, book)
    table = book.table
    ports = [
        {
            "port": port,
            "kind": kind,
            "title": table.kinds[kind].title,
            "attributes": [_attribute(one) for one in table.kind_attributes(kind).values()],
        }
        for port, kind in table.ports_of(part_class).items()
    ]
    return {
        **_class_line(part_class, book),
        "line": list(table.line_of(part_class)),
        "source": source_document(table.classes[part_class].source),
        "attributes": [_attribute(one) for one in table.own_attributes(part_class).values()],
        "offers": ports,
        "catalogue_revision": book.revision,
    }


def attributes_document(owner: str, book: Book) -> dict[str, Any]:
    """All attributes, or those of one part class or interface kind; Malformed if there is no such owner."""
    if owner and owner not in book.table.classes and owner not in book.table.kinds:
        hint = did_you_mean(owner, [*book.table.classes, *book.table.kinds])
        raise Malformed([Problem("unknown_owner", f"no class or interface kind is called {owner!r}.", hint=hint)])
    found = [_attribute(one) for one in book.table.attributes.values() if not owner or one.owner == owner]
    return {"attributes": found, "catalogue_revision": book.revision}


def interface_document(interface: Interface, book: Book, display: Display) -> dict[str, Any]:
    """An interface as plain data: its readings, what nobody has read, and the classes that have such a port."""
    attributes = book.table.kind_attributes(interface.kind)
    offering = [
        {"class": name, "port": port}
        for name in book.table.classes
        for port, kind in book.table.ports_of(name).items()
        if kind == interface.kind
    ]
    return {
        "id": interface.id,
        "kind": interface.kind,
        "kind_title": book.table.kinds[interface.kind].title,
        "title": interface.title,
        "signature": interface.signature,
        "version": interface.version,
        "readings": _readings(interface.readings, attributes, display),
        "unread": [_unread("", one) for name, one in attributes.items() if name not in interface.readings],
        "offered_by": offering,
        "catalogue_revision": book.revision,
    }


def pattern_document(pattern: Pattern, book: Book) -> dict[str, Any]:
    """A board layout as plain data: its seats, its joint lines and their roles."""
    return {
        "id": pattern.id,
        "title": pattern.title,
        "seats": [
            {"seat": seat.id, "row": seat.row, "order": seat.order, "classes": list(seat.classes), "title": seat.title}
            for seat in pattern.seats.values()
        ],
        "lines": [
            {
                "line": line.id,
                "kind": line.kind,
                "number": line.joint,
                "title": line.title,
                "expansion": line.expansion or "one",
                "chain_seats": list(line.chain_seats),
                "constants": [dict(entry) for entry in line.constants],
                "roles": [
                    {"role": role.role, "seats": list(role.seats), "how": role.how, "port": role.port}
                    for role in line.roles
                ],
            }
            for line in pattern.lines
        ],
        "catalogue_revision": book.revision,
    }


def _takes(pattern: Pattern, role: LineRole, part_class: str, book: Book) -> bool:
    """Whether a part of the class can stand in one of the role's seats."""
    line = book.table.line_of(part_class)
    return any(name in line for seat in role.seats for name in pattern.seats[seat].classes)


def _class_line(part_class: str, book: Book) -> dict[str, Any]:
    described = book.table.classes[part_class]
    return {
        "id": part_class,
        "title": described.title,
        "like": list(described.like),
        "another_plan": described.another_plan,
        "ports": book.table.ports_of(part_class),
    }


def _attribute(attribute: Attribute) -> dict[str, Any]:
    def span(limits: tuple[float, float] | None) -> dict[str, float] | None:
        return None if limits is None else {"low": limits[0], "high": limits[1]}

    minus, plus = attribute.default_spread
    return {
        "owner": attribute.owner,
        "name": attribute.name,
        "title": attribute.title,
        "reading": attribute.reading,
        "unit": attribute.unit,
        "vocabulary": list(attribute.vocabulary),
        "open_vocabulary": attribute.open_vocabulary,
        "physical": span(attribute.physical),
        "plausible": span(attribute.plausible),
        "default": None
        if attribute.default is None
        else {"value": attribute.default, "minus": minus, "plus": plus, "unit": attribute.unit},
        "fit": attribute.fit,
        "spread_family": attribute.family,
        "tool": attribute.tool,
        "how": attribute.how,
        "source": source_document(attribute.source),
    }


def deciding(joints: tuple[JointVerdict, ...]) -> Finding:
    """What decides: a failing rule, else an undecided one, the more severe first; else the tightest measured one."""
    order = ("fails", "undecided", "holds", "excused", "not_asked")
    found = [finding for joint in joints for finding in joint.findings]

    def rank(one: Finding) -> tuple[int, int, bool, float]:
        severity = -one.rule.severity if one.state in ("fails", "undecided") else 0
        return order.index(one.state), severity, one.rule.unit != "mm", _margin(one)

    return min(found, key=rank)


def _margin(finding: Finding) -> float:
    return finding.margin.nominal if finding.margin else 0.0


def _readings(readings: Any, attributes: dict[str, Attribute], display: Display) -> list[dict[str, Any]]:
    told = []
    for name, reading in readings.items():
        attribute = attributes.get(name)
        notes = [reading.source.standing]
        if reading.value_assumed:
            notes.append("assumed")
        if getattr(reading, "spread_assumed", False):
            notes.append("spread of its source")
        told.append(
            {
                "attribute": name,
                "title": attribute.title if attribute else name,
                "text": reading_text(reading, display),
                "note": ", ".join(notes),
                "reading": reading_document(reading),
            }
        )
    return told


def _unread(port: str, attribute: Attribute) -> dict[str, Any]:
    return {
        "port": port,
        "attribute": attribute.name,
        "title": attribute.title,
        "tool": attribute.tool,
        "how": attribute.how,
    }
