"""What is known of a board that is to be drawn, and the list of what is not.

Frame: x to the nose from the middle between the axles, y to the left from the middle plane, z up from the ground, mm.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import cos, isfinite, pi, radians, sin

from fitdb.model.finding import Range
from fitdb.model.joint import Piece
from fitdb.model.problems import OurFault
from fitdb.model.reading import Count, Designation, Number, Outline, Reading, Word
from fitdb.rules.survey.truck_box_distance import quantity as truck_box_distance

ENDS = ("rear", "front")
PLACES = ("rear_left", "rear_right", "front_left", "front_right")
BOXES = {"box": "box", "second_box": "second box", "pocket": "lid of the pocket"}
RISERS = ("riser", "riser_2", "wedge", "grid_adapter")


@dataclass
class BoardReadings:
    """The pieces of a board and its worked-out sizes. Whoever draws asks here, and what was asked for and is not known
    is noted: `lacking` by thing, `sketched` for what is drawn in a plain form because its shape or place is not read.
    """

    seated: Mapping[str, Piece]
    sizes: Mapping[str, Range]
    lacking: dict[str, list[str]] = field(default_factory=dict)
    sketched: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        for name, size in self.sizes.items():
            if not all(isfinite(value) for value in (size.low, size.nominal, size.high)):
                raise OurFault(f"the size {name} of a drawing is not a finite number")

    def has(self, seat: str) -> bool:
        return seat in self.seated

    def size(self, name: str) -> float | None:
        """The middle of a worked-out size."""
        found = self.sizes.get(name)
        return None if found is None else found.nominal

    def reading(self, seat: str, attribute: str, port: str = "") -> Reading | None:
        piece = self.seated.get(seat)
        return None if piece is None else piece.part.offers(attribute, port)[1]

    def mm(self, seat: str, attribute: str, port: str = "") -> float | None:
        """A size that was read, at its middle."""
        read = self.reading(seat, attribute, port)
        return read.nominal if isinstance(read, Number | Designation) else None

    def count(self, seat: str, attribute: str, port: str = "") -> int | None:
        read = self.reading(seat, attribute, port)
        return read.nominal if isinstance(read, Count) else None

    def word(self, seat: str, attribute: str) -> str | None:
        """The word, if only one is still possible."""
        read = self.reading(seat, attribute)
        return next(iter(read.possible)) if isinstance(read, Word) and len(read.possible) == 1 else None

    def outline(self, seat: str, attribute: str) -> Outline | None:
        read = self.reading(seat, attribute)
        return read if isinstance(read, Outline) and read.rings else None

    def known(self, thing: str, **asked: object) -> bool:
        """Whether all that is asked for is there; what is not is noted under the thing's name."""
        unread = [name.replace("_", " ") for name, value in asked.items() if value is None]
        for name in unread:
            noted = self.lacking.setdefault(thing, [])
            if name not in noted:
                noted.append(name)
        return not unread

    def sketch(self, what: str) -> None:
        if what not in self.sketched:
            self.sketched.append(what)

    # --- sizes of the whole board ----------------------------------------------------------------------------

    @property
    def wheelbase(self) -> float | None:
        return self.size("wheelbase") or self.mm("deck", "wheelbase")

    def axle(self, end: str) -> float:
        """x of an axle; only where the wheelbase is known."""
        wheelbase = self.wheelbase
        assert wheelbase is not None
        return -wheelbase / 2 if end == "rear" else wheelbase / 2

    def hanger_width(self, end: str) -> float | None:
        return self.mm(f"{end}_hanger", "hanger_width") or self.mm(f"{end}_truck", "hanger_width")

    def motor_at(self, place: str) -> tuple[float, float] | None:
        """How far the motor's axis stands from the axle along the board (+ to the nose) and upward; None if unread."""
        carrier = f"{place}_motor_mount" if self.has(f"{place}_motor_mount") else f"{place}_gear_drive"
        distance, angle = self.size(f"{place}_motor.centre_distance"), self.size(f"{place}_motor.angle_deg")
        side = self.word(carrier, "motor_place")
        thing = f"{spoken(place)} motor"
        if not self.known(thing, distance_from_the_axle=distance, angle=angle, side_of_the_axle=side):
            return None
        assert distance is not None and angle is not None
        toward_nose = (side == "inboard") == (end_of(place) == "rear")
        along = distance * cos(radians(angle))
        return (along if toward_nose else -along), distance * sin(radians(angle))

    def pitch_radius(self, seat: str) -> float | None:
        """Radius of a pulley's pitch circle: z·p/(2π)."""
        teeth, pitch = self.count(seat, "teeth", "teeth"), self.mm(seat, "tooth_pitch", "teeth")
        return None if teeth is None or pitch is None else teeth * pitch / (2 * pi)

    def box_span(self, box: str) -> tuple[float, float] | None:
        """x of the box's rear and front edge. Its place is read, or follows from its distance to the rear axle."""
        length, behind = self.mm(box, "length"), self.mm(box, "position_from_middle")
        if behind is None and length is not None and self.size("rear.box_distance") is not None:
            boxes = [one for one in BOXES if self.has(one)]
            if len(boxes) == 1:
                rear = self.axle("rear") + (self.size("rear.box_distance") or 0.0)
                return rear, rear + length
        if not self.known(BOXES[box], length=length, place_along_the_deck=behind):
            return None
        assert length is not None and behind is not None
        return -behind - length / 2, -behind + length / 2

    def box_distance(self, end: str) -> Range | None:
        """From an axle to the near edge of the nearest box: worked out already, or from readings as the survey does."""
        found = [self.sizes[f"{end}.box_distance"]] if f"{end}.box_distance" in self.sizes else []
        wheelbase = self.sizes.get("wheelbase") or read_range(self.reading("deck", "wheelbase"))
        for box in ("box", "second_box") if not found else ():
            length = read_range(self.reading(box, "length"))
            place = read_range(self.reading(box, "position_from_middle"))
            if wheelbase is not None and length is not None and place is not None:
                way = 1.0 if end == "rear" else -1.0
                nearer, farther = (place.high, place.low) if way > 0 else (place.low, place.high)
                found.append(
                    Range(
                        truck_box_distance(way, wheelbase.low, nearer, length.high),
                        truck_box_distance(way, wheelbase.nominal, place.nominal, length.nominal),
                        truck_box_distance(way, wheelbase.high, farther, length.low),
                        "mm",
                    )
                )
        return min(found, key=lambda one: one.nominal, default=None)

    def notes(self) -> tuple[str, ...]:
        """What is not drawn and why, and what is only sketched: a sentence each."""
        notes = []
        if self.lacking:
            alike: dict[tuple[str, ...], list[str]] = {}
            for thing, unread in self.lacking.items():
                alike.setdefault(tuple(unread), []).append(thing)
            told = [f"{', '.join(things)} ({', '.join(unread)})" for unread, things in alike.items()]
            notes.append(f"Not drawn, or not to its full shape, because nobody has read it: {'; '.join(told)}.")
        if self.sketched:
            notes.append(f"Sketched, its form or place is not among the readings: {'; '.join(self.sketched)}.")
        return tuple(notes)


def spoken(place: str) -> str:
    """`rear left` of `rear_left`."""
    return place.replace("_", " ")


def end_of(place: str) -> str:
    return place.split("_")[0]


def measure(size: Range) -> str:
    """A size with its range: `38 mm (36 to 40)`. Tenths where they tell more than noise."""
    places = 1 if abs(size.nominal) < 20 or size.high - size.low < 2 else 0
    low, middle, high = (words(value, places) for value in (size.low, size.nominal, size.high))
    return f"{middle} mm" if low == high else f"{middle} mm ({low} to {high})"


def words(value: float, places: int) -> str:
    rounded = round(value, places) + 0.0
    return f"{rounded:.{places}f}".removesuffix(".0").replace("-", "−")


def read_range(read: Reading | None) -> Range | None:
    """The range of a size that was read."""
    return Range(read.low, read.nominal, read.high, read.unit) if isinstance(read, Number | Designation) else None


def less(one: Range, other: Range) -> Range:
    """The first less the second, at its widest."""
    return Range(one.low - other.high, one.nominal - other.nominal, one.high - other.low, one.unit)
