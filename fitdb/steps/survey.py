"""Survey: follow a rule's needs down to readings, through every size that is worked out on the way.

The result is a Trace: which readings matter, and one function that works the quantity out from them. Nothing is
ranged here; `judge` pushes the box of readings through the function, so a reading that enters twice is one variable.
"""

from __future__ import annotations

import dataclasses
import functools
import operator
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from fitdb.model.joint import Joint, Piece
from fitdb.model.part import AttributeTable, Part
from fitdb.model.problems import OurFault
from fitdb.model.reading import Outline, Reading
from fitdb.model.rule import Constant, Rule, Rulebook, Shape, SurveyLine
from fitdb.model.trace import Trace, Variable
from fitdb.model.worked_out import Described, shared_steps

Getter = Callable[[Sequence[Any]], Any]
# Answers that are kept of each survey line: the same parts meet in very many boards.
MOST_REMEMBERED = 4096


def trace(
    joint: Joint, rule: Rule, book: Rulebook, table: AttributeTable, seats_take: Mapping[str, tuple[str, ...]]
) -> Trace:
    """The trace of one rule at one joint. `seats_take` gives the classes of each seat, to say what is wanted.

    OurFault if the rule needs a role that its joint line does not have: the rulebook and the pattern disagree.
    """
    walk = _Walk(joint, book, table, seats_take)
    followed = [walk.follow(need) for need in rule.needs]
    count = len(walk.variables)
    described = walk.described()
    places = tuple(_place(one, count) for one in followed)
    needs = tuple(_getter(count, described, place) for place in places)
    quantity = (_with_constants(rule.quantity, rule.constants), places)
    steps = shared_steps(count, (*described, quantity), count + len(described))
    wanted = tuple(walk.wanted.items())
    reads = tuple(walk.followed[need][1] for need in rule.needs)
    turns = tuple(need in walk.turning for need in rule.needs)
    return Trace(
        rule,
        joint.id,
        tuple(walk.variables),
        needs,
        _keywords(rule.constants),
        wanted,
        tuple(walk.lacking),
        reads,
        turns,
        steps,
    )


def reach(needs: Iterable[str], book: Rulebook) -> dict[str, tuple[str, ...]]:
    """By role the attributes that these needs may lead to through survey lines, in order; more than one joint follows.

    Attributes of the joint's own place (`over`) are left out.
    """
    found: dict[str, dict[str, None]] = {}
    waiting, seen = list(needs), set[str]()
    while waiting:
        need = waiting.pop()
        if need in seen:
            continue
        seen.add(need)
        role, attribute = need.split(".", 1)
        if role != "over":
            found.setdefault(role.removesuffix("*"), {})[attribute] = None
            line = book.survey.get(need)
            waiting += line.needs if line is not None else ()
    return {role: tuple(sorted(names)) for role, names in found.items()}


@dataclass(frozen=True, slots=True)
class Walked:
    """A trace, and by variable the role and place of its piece in the joint, with the reading's port and attribute.

    alike: the same number for walks that go by the same readings to the same sizes, in other seats.
    """

    trace: Trace
    places: tuple[tuple[str, int, str, str], ...]
    alike: int

    def pieces(self, joint: Joint) -> list[Piece]:
        """The pieces that the variables are read at, of a joint of the same shape."""
        return [joint.pieces[role][at] for role, at, _, _ in self.places]

    def readings(self, pieces: Sequence[Piece]) -> list[Reading | None]:
        """What these pieces have at the places of the variables."""
        return [
            piece.part.reading_at(port, attribute)
            for piece, (_, _, port, attribute) in zip(pieces, self.places, strict=True)
        ]

    def trace_at(self, joint: Joint, pieces: Sequence[Piece], readings: Sequence[Reading | None]) -> Trace:
        """The trace with these pieces and readings."""
        variables = tuple(
            dataclasses.replace(one, seat=piece.seat, part=piece.part.id, reading=reading)
            for one, piece, reading in zip(self.trace.variables, pieces, readings, strict=True)
        )
        return dataclasses.replace(self.trace, joint=joint.id, variables=variables)


class Walks:
    """Traces walked once for all joints of one shape: the same seats, filled with parts of the same classes that have
    the same readings taken, of those that the rule can follow. Which sizes it follows depends on that, not on what the
    readings say."""

    def __init__(self, book: Rulebook, table: AttributeTable, seats_take: Mapping[str, tuple[str, ...]]) -> None:
        self.book, self.table, self.seats_take = book, table, seats_take
        self._walked: dict[tuple[Any, ...], Walked] = {}
        self._alike: dict[Any, int] = {}
        self._shapes: dict[Any, int] = {}
        self._of_part: dict[int, int] = {}
        self._followed: dict[str, dict[str, tuple[str, ...]]] = {}
        self._seen: dict[tuple[int, tuple[str, ...]], int] = {}
        self._kept: list[Part] = []  # what is remembered by identity has to stay alive

    def shape(self, joint: Joint) -> tuple[Any, ...]:
        """Equal for joints whose traces differ in the sizes of readings alone."""
        return (
            joint.line.id,
            tuple(sorted(joint.constants.items())),
            tuple((role, *((one.seat, self._shape(one.part)) for one in some)) for role, some in joint.pieces.items()),
        )

    def walked(self, joint: Joint, rule: Rule, shape: tuple[Any, ...]) -> Walked:
        """The walk of a rule at a joint of that shape; the trace in it may be another such joint's."""
        key = (rule.id, shape)
        found = self._walked.get(key)
        if found is None:
            narrow = (rule.id, joint.line.id, shape[1], self._narrowed(joint, rule))
            found = self._walked.get(narrow) or self._walk(joint, rule, shape)
            if not found.trace.lacking:  # what is lacking is told with the part's name
                self._walked[key] = self._walked[narrow] = found
        return found

    def _walk(self, joint: Joint, rule: Rule, shape: tuple[Any, ...]) -> Walked:
        followed = trace(joint, rule, self.book, self.table, self.seats_take)
        where = {
            (piece.seat, piece.part.id): (role, at)
            for role, some in joint.pieces.items()
            for at, piece in enumerate(some)
        }
        places = tuple((*where[one.seat, one.part], one.place, one.attribute) for one in followed.variables)
        follows = tuple((one.needed_as, one.place, one.attribute, id(one.described)) for one in followed.variables)
        alike = self._alike.setdefault((rule.id, shape[1], follows), len(self._alike))
        return Walked(followed, places, alike)

    def _narrowed(self, joint: Joint, rule: Rule) -> tuple[Any, ...]:
        """The shape of the joint as one rule can see it."""
        if rule.id not in self._followed:
            self._followed[rule.id] = reach(rule.needs, self.book)
        names = self._followed[rule.id]
        return tuple(
            (role, *((one.seat, self._as_seen(one.part, names.get(role, ()))) for one in some))
            for role, some in joint.pieces.items()
        )

    def _as_seen(self, part: Part, names: tuple[str, ...]) -> int:
        """A number for what the part has of these readings; the same for parts of one class that have the same."""
        if not names:
            return -1
        key = (self._shape(part), names)
        if key not in self._seen:
            taken = (
                part.part_class,
                names,
                tuple(form for form in map(_form, part.readings.items()) if form[0] in names),
                tuple(
                    (port, tuple(form for form in map(_form, one.readings.items()) if form[0] in names))
                    for port, one in part.ports.items()
                ),
            )
            self._seen[key] = self._shapes.setdefault(taken, len(self._shapes))
        return self._seen[key]

    def _shape(self, part: Part) -> int:
        found = self._of_part.get(id(part))
        if found is None:
            self._kept.append(part)
            taken = (
                part.part_class,
                tuple(map(_form, part.readings.items())),
                tuple((port, tuple(map(_form, one.readings.items()))) for port, one in part.ports.items()),
            )
            found = self._of_part[id(part)] = self._shapes.setdefault(taken, len(self._shapes))
        return found


def _form(named: tuple[str, Reading]) -> tuple[str, bool]:
    """A reading's name, and whether it is a drawing: sizes worked out from drawings are not remembered."""
    return named[0], isinstance(named[1], Outline)


class _Walk:
    """One walk from a rule's needs to readings; collects variables and steps as it goes.

    What is followed is numbered: a variable by its index, a step by -1, -2 and so on, since it is not known before the
    end how many variables there are.
    """

    def __init__(
        self, joint: Joint, book: Rulebook, table: AttributeTable, seats_take: Mapping[str, tuple[str, ...]]
    ) -> None:
        self.joint, self.book, self.table, self.seats_take = joint, book, table, seats_take
        self.variables: list[Variable] = []
        self.index: dict[tuple[str, str, str], int] = {}
        self.steps: list[tuple[Callable[..., Any], tuple[int, ...]]] = []
        self.wanted: dict[str, tuple[str, ...]] = {}
        self.lacking: list[str] = []
        self.followed: dict[str, tuple[int, tuple[int, ...]]] = {}  # a size is worked out once, with what it reads
        self.reads: list[int] = []
        self.turning: set[str] = set()  # sizes that may turn back inside their box

    def described(self) -> tuple[Described, ...]:
        """The steps, the places in the row that they take put behind those of the variables."""
        count = len(self.variables)
        return tuple((quantity, tuple(_place(one, count) for one in takes)) for quantity, takes in self.steps)

    def follow(self, need: str) -> int:
        if need not in self.followed:
            before = len(self.reads)
            followed = self._follow(need)
            self.followed[need] = (followed, tuple(dict.fromkeys(self.reads[before:])))
        else:
            self.reads.extend(self.followed[need][1])
        return self.followed[need][0]

    def _follow(self, need: str) -> int:
        role, attribute = need.split(".", 1)
        if role == "over":
            return self._step(_Given(self.joint.constants[attribute]))
        if role.endswith("*"):
            return self._all_of(role[:-1], attribute, need)
        return self._one_of(role, attribute, need)

    def _step(self, quantity: Callable[..., Any], takes: tuple[int, ...] = ()) -> int:
        self.steps.append((quantity, takes))
        return -len(self.steps)

    def _one_of(self, role: str, attribute: str, need: str) -> int:
        described = self.joint.line.role(role)
        if described is None:
            raise OurFault(f"the line {self.joint.line.id} has no role {role!r}, which {need} needs")
        pieces = self.joint.pieces.get(role, ())
        if not pieces:
            self.wanted.setdefault(role, tuple(name for seat in described.seats for name in self.seats_take[seat]))
            return self._step(NOTHING)
        read = self._offered(pieces[0], attribute, described.port)[1]
        line = self.book.survey.get(f"{role}.{attribute}")
        readable = self.table.attribute_of(pieces[0].part.part_class, attribute, described.port) is not None
        if line is not None and read is None and (not readable or self._can_work_out(line)):
            return self._worked_out(line)
        if read is None and not readable:
            self.lacking.append(f"{pieces[0].part.id} has no {attribute}")
            return self._step(NOTHING)
        return self._reading(pieces[0], attribute, described.port, need)

    def _all_of(self, role: str, attribute: str, need: str, *, only_read: bool = False) -> int:
        described = self.joint.line.role(role)
        if described is None:  # a front wheel carries no pulley: what its line does not list is not there
            return self._step(NONE_OF_THEM)
        positions = []
        for piece in self.joint.pieces.get(role, ()):
            offered = self._offered(piece, attribute, described.port)[1] is not None
            if only_read and not offered:
                continue
            if offered or self.table.attribute_of(piece.part.part_class, attribute, described.port) is not None:
                positions.append(self._reading(piece, attribute, described.port, need))
        return self._step(_all_together, tuple(positions)) if positions else self._step(NONE_OF_THEM)

    def _worked_out(self, line: SurveyLine) -> int:
        before = len(self.reads)
        takes = tuple(self._where_read(need) if need in line.where_read else self.follow(need) for need in line.needs)
        read = tuple(dict.fromkeys(self.reads[before:]))
        if line.shape is Shape.SAMPLED or self.turning.intersection(line.needs):
            self.turning.add(line.target)
        drawn = any(isinstance(self.variables[index].reading, Outline) for index in read)
        return self._step((_with_constants if drawn else _remembering)(line.quantity, line.constants), takes)

    def _can_work_out(self, line: SurveyLine) -> bool:
        """False where a piece is of a class that lacks a size of the line: then the target itself is asked for."""
        for need in line.needs:
            role, attribute = need.split(".", 1)
            described, pieces = self.joint.line.role(role), self.joint.pieces.get(role, ())
            if described is None or not pieces:  # a list, or a role that is wanted
                continue
            part, inner = pieces[0].part, self.book.survey.get(need)
            offered = self._offered(pieces[0], attribute, described.port)[1] is not None
            if offered or self.table.attribute_of(part.part_class, attribute, described.port) is not None:
                continue
            if inner is None or not self._can_work_out(inner):
                return False
        return True

    def _where_read(self, need: str) -> int:
        role, attribute = need.split(".", 1)
        return self._all_of(role.removesuffix("*"), attribute, need, only_read=True)

    def _offered(self, piece: Piece, attribute: str, port: str) -> tuple[str, Reading | None]:
        """Where the reading stands. What the role's own port is meant to tell is never taken from another port."""
        kind = self.table.ports_of(piece.part.part_class).get(port, "")
        if (kind, attribute) in self.table.attributes:
            interface = piece.part.ports.get(port)
            return port, interface.readings.get(attribute) if interface else None
        return piece.part.offers(attribute, port)

    def _reading(self, piece: Piece, attribute: str, port: str, need: str) -> int:
        place, reading = self._offered(piece, attribute, port)
        key = (piece.seat, place, attribute)
        if key not in self.index:
            self.index[key] = len(self.variables)
            described = self.table.attribute_of(piece.part.part_class, attribute, place or port)
            self.variables.append(Variable(piece.seat, piece.part.id, place, attribute, described, reading, need))
        position = self.index[key]
        self.reads.append(position)
        return position


@dataclass(frozen=True, slots=True)
class _Given:
    """A step that takes nothing: what it says is given with the joint."""

    value: Any

    def __call__(self) -> Any:
        return self.value


NOTHING, NONE_OF_THEM = _Given(None), _Given(())


def _all_together(*values: Any) -> tuple[Any, ...]:
    return values


def _place(followed: int, variables: int) -> int:
    """Where in the row stands what was followed: the variables are first, then the steps."""
    return followed if followed >= 0 else variables - followed - 1


def _getter(variables: int, described: tuple[Described, ...], place: int) -> Getter:
    return operator.itemgetter(place) if place < variables else shared_steps(variables, described, place)


@functools.lru_cache(maxsize=4096)
def _with_constants(quantity: Callable[..., Any], constants: tuple[Constant, ...]) -> Callable[..., Any]:
    """The same object for the same rule or line, so that traces can share their steps."""
    return functools.partial(quantity, **_keywords(constants)) if constants else quantity


@functools.lru_cache(maxsize=4096)
def _remembering(quantity: Callable[..., Any], constants: tuple[Constant, ...]) -> Callable[..., Any]:
    """The size, remembered by what it is worked out from: the same parts meet again and again."""
    return functools.lru_cache(MOST_REMEMBERED, typed=True)(_with_constants(quantity, constants))


def _keywords(constants: tuple[Constant, ...]) -> dict[str, Any]:
    return {constant.name: constant.value for constant in constants}
