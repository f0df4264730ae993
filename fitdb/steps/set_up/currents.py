"""The lines of currents: out of the pack, back into it, and through each motor; and with what to begin (J54 to J63)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitdb.formulas import setting_values as sv
from fitdb.intake.units import show
from fitdb.model.finding import Range
from fitdb.model.joint import Piece
from fitdb.model.reading import Word
from fitdb.model.set_up import AT_MOST, MissingReading, SetNow, SettingLine, SettingLink
from fitdb.rules.braking_charge.bms_lets_the_charge_in import RULE as BMS_CHARGE
from fitdb.rules.braking_charge.cells_take_the_charge import RULE as CELLS_CHARGE
from fitdb.rules.current_chain.bms_carries_the_current import RULE as BMS
from fitdb.rules.motor_current.motor_bears_the_setting import RULE as MOTOR
from fitdb.rules.power_lead.carries_the_current import RULE as LEAD
from fitdb.rules.torque_lock.key_holds import RULE as KEY
from fitdb.steps.set_up.chain import links_of_the_draw
from fitdb.steps.set_up.charge import links_of_the_charge
from fitdb.steps.set_up.lines import all_together, bounded, held_against, scaled, set_now
from fitdb.steps.set_up.motor_links import links_of_the_motor
from fitdb.steps.set_up.readings import TRADE, Board, Channels, seat_words

COLD = "Do not charge below freezing: that includes braking charge in the first minutes of a winter ride."
Now = Mapping[str, Piece]


def pack_lines(board: Board, channels: Channels, now: Now) -> list[SettingLine]:
    """Most pack current while driving: of all channels together, and of each."""
    links = list(links_of_the_draw(board, channels))
    missing = board.taken()
    each = set_now(now, board.controllers(), "pack_current")
    together = bounded(
        "pack_current", "pack", "most pack current while driving, all channels together", "A", AT_MOST, links,
        missing=missing, now=all_together(each, channels.behind, board.controllers()),
        caution=f"{BMS.caution} {LEAD.caution}",
    )  # fmt: skip
    return [together, *_each(together, channels, "pack_current_each", "pack current while driving", each)]


def brake_lines(board: Board, channels: Channels, now: Now) -> list[SettingLine]:
    """Most charging current while braking: of all channels together, of each, and of each with cold cells."""
    links = list(links_of_the_charge(board))
    each = set_now(now, board.controllers(), "braking_charge_limit")
    together = bounded(
        "braking_charge", "brake", "most charging current while braking, all channels together", "A", AT_MOST, links,
        missing=board.taken(), now=all_together(each, channels.behind, board.controllers()),
        notes=(
            "Set it lower where the ride begins at the top of a hill: a full pack takes no charge.",
            "Less of it brakes weaker at speed: what stopped you before may not stop you now. Ride slower.",
        ),
        caution=f"{CELLS_CHARGE.caution} {BMS_CHARGE.caution}",
    )  # fmt: skip
    lines = [together, *_each(together, channels, "braking_charge_each", "charging current while braking", each)]
    if len(lines) > 1 and lines[1].printed is not None:
        lines.append(_cold(board, lines[1]))
    return lines


def _each(
    together: SettingLine, channels: Channels, line_id: str, what: str, each: Sequence[SetNow]
) -> list[SettingLine]:
    if not channels.used:
        return []
    over = f", over {channels.used} channels" if channels.used > 1 else ""
    return [scaled(together, channels.used, line_id, f"most {what}, each channel", over, each)]


def _cold(board: Board, warm: SettingLine) -> SettingLine:
    kinds = {word for pack, _, _ in board.packs() for word in board.words(pack, "chemistry")}
    nickel = kinds == {"nickel"}
    share = sv.practice("cold_nickel" if nickel else "cold_phosphate")
    source = sv.PRACTICE["cold_nickel" if nickel else "cold_phosphate"].source
    assert warm.printed is not None
    value = warm.printed * share
    both = "" if len(kinds) == 1 else ", for nobody said which chemistry it is"
    worked = f"{share:g} of {show(warm.printed, 'A')}{both}"
    shown = Range(value, value, value, "A")
    link = SettingLink(
        "cold_cells", "the cold of the cells", "pack", board.part("pack"), shown, worked, source, bool(both)
    )
    return bounded(
        "braking_charge_cold", "brake", "most charging current while braking, each channel, cells at 0 to 15 °C", "A",
        AT_MOST, [link], missing=(*warm.missing, *(one for one in board.taken() if one not in warm.missing)),
        notes=("Below 0 °C no charge at all: warm the pack indoors, and stop by foot until it is warm.",),
        caution=COLD,
    )  # fmt: skip


def motor_lines(board: Board, now: Now) -> list[SettingLine]:
    """Motor current of each motor and the current with which it may brake; one pair of lines where all are alike."""
    drives = set_now(now, board.controllers(), "motor_current")
    brakes = set_now(now, board.controllers(), "braking_motor_current")
    groups: dict[object, tuple[list[str], list[SettingLink], tuple[MissingReading, ...], tuple[str, ...]]] = {}
    for motor in board.motors():
        links = list(links_of_the_motor(board, motor))
        notes = _bypassed(board, motor)
        missing = board.taken()
        key = (
            tuple((one.id, one.name, one.part, one.value) for one in links),
            tuple((one.part, one.attribute, one.title) for one in missing),
        )
        groups.setdefault(key, ([], links, missing, notes))[0].append(motor)
    lines = []
    for seats, links, missing, notes in groups.values():
        of = tuple(seats) if len(groups) > 1 else ()
        mark = f"@{seats[0]}" if of else ""
        whose = f", {seat_words(seats)}" if of else ", each motor"
        if of:
            notes = (
                *notes,
                "Motors differ: a channel of which it is not certain which of them it drives takes the lower.",
            )
        line = bounded(
            f"motor_current{mark}", "motor", f"motor current{whose}", "A", AT_MOST, links, missing=missing, now=drives,
            notes=notes, caution=f"{MOTOR.caution} {KEY.caution}", seats=of,
        )  # fmt: skip
        lines += [line, _braking(line, mark, whose, brakes, of)]
    return lines


def _bypassed(board: Board, motor: str) -> tuple[str, ...]:
    sensor = board.reading(motor, "temperature_sensor", "sensors")
    if isinstance(sensor, Word) and sensor.possible == {"none"}:
        return ("This motor has no temperature sensor: nothing but this current keeps it cool. Feel it by hand.",)
    return ()


def _braking(line: SettingLine, mark: str, whose: str, now: Sequence[SetNow], seats: tuple[str, ...]) -> SettingLine:
    """60 to 100 per cent of the motor current: what the drive bears, the brake may have."""
    title, caution = f"motor current while braking{whose}", BMS_CHARGE.caution
    if line.printed is None:
        return bounded(
            f"braking_motor_current{mark}", "motor", title, "A", AT_MOST, (), missing=line.missing, now=now,
            caution=caution, seats=seats,
        )  # fmt: skip
    least, most = (sv.practice(name) * line.printed for name in ("brake_least", "brake_most"))
    begin = show(sv.typed(least, "A"), "A")
    value = Range(least, most, most, "A")
    link = SettingLink(
        "motor_current",
        "the motor current",
        "",
        "",
        Range(most, most, most, "A"),
        "what drives may brake as hard",
        TRADE,
    )
    return SettingLine(
        f"braking_motor_current{mark}", "motor", title, "A", AT_MOST, TRADE, value, line.printed, set_by=link,
        now=held_against(now, most, AT_MOST), missing=line.missing,
        notes=(f"60 to 100 per cent of the motor current is usual: begin with {begin}. Less than that brakes weakly.",),
        caution=caution, seats=seats,
    )  # fmt: skip


def first_ride_lines(lines: Sequence[SettingLine]) -> list[SettingLine]:
    """With what to begin: 40 per cent of the motor current, half of the pack current, the brake at its usual least."""
    shares = {
        "motor_current": ("first_motor_current", "motor current on the first ride"),
        "braking_motor_current": ("brake_least", "motor current while braking on the first ride"),
        "pack_current_each": ("first_pack_current", "pack current on the first ride, each channel"),
    }
    found = []
    for line in lines:
        kind, _, mark = line.id.partition("@")
        if kind not in shares or line.printed is None:
            continue
        name, title = shares[kind]
        share = sv.practice(name)
        value = share * line.printed
        whose = f", {seat_words(line.seats)}" if line.seats else ""
        link = SettingLink(
            kind, f"the {line.title.removeprefix('most ').partition(',')[0]}", "", "", Range(value, value, value, "A"),
            f"{100 * share:.0f} per cent of {show(line.printed, 'A')}", TRADE,
        )  # fmt: skip
        found.append(
            bounded(
                f"first_{kind}{'@' + mark if mark else ''}",
                "first_ride",
                f"{title}{whose}",
                "A",
                AT_MOST,
                [link],
                missing=line.missing,
                seats=line.seats,
                notes=("Raise it in small steps once the first kilometres were ridden and nothing grew hot or loose.",),
            )
        )
    return found
