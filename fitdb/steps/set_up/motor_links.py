"""What motor, controllers, bullets, belt, lugs and shaft lock leave of the motor current.

J15, J22, J25, J58, J59 and J71.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from fitdb.formulas import setting_values as sv
from fitdb.formulas.belt_choice import centre_distance_or_shortfall, whole_teeth_in_mesh_or_none
from fitdb.formulas.belts import mesh_factor
from fitdb.formulas.box_heat import share_left_in_box
from fitdb.formulas.motors import torque_constant
from fitdb.formulas.phase_bullets import bullet_current
from fitdb.formulas.shaft_locks import BUSH, lock_in_use
from fitdb.intake.units import show
from fitdb.model.rule import Rule
from fitdb.model.set_up import SettingLink
from fitdb.rules.belt_pull.pull_leaves_reserve import RULE as RESERVE
from fitdb.rules.controller_heat.current_suits_the_box import RULE as IN_BOX
from fitdb.rules.core_windows.lugs_bear_the_pull import RULE as LUGS
from fitdb.rules.motor_current.motor_bears_the_setting import RULE as PEAK
from fitdb.rules.torque_lock.bonded_hub_holds import RULE as BONDED
from fitdb.rules.torque_lock.bush_holds import RULE as WHOLE_BUSH
from fitdb.rules.torque_lock.flat_bore_holds import RULE as FLAT
from fitdb.rules.torque_lock.key_holds import RULE as KEY
from fitdb.rules.torque_lock.set_screw_on_flat_holds import RULE as SCREW_ON_FLAT
from fitdb.rules.torque_lock.set_screw_on_round_holds import RULE as SCREW_ON_ROUND
from fitdb.rules.torque_lock.slit_bush_holds import RULE as SLIT_BUSH
from fitdb.steps.set_up.readings import ENCLOSURES, Board, Values, beside, constant, linked, over_box

LOCKS: dict[str, Rule] = {
    "key_on_key": KEY,
    "flat_on_flat": FLAT,
    "set_screw_on_flat": SCREW_ON_FLAT,
    "set_screw_on_round": SCREW_ON_ROUND,
    "set_screw_on_key": SCREW_ON_ROUND,
    "bonded_on_round": BONDED,
    "bonded_on_flat": BONDED,
    "bonded_on_key": BONDED,
}
LOCK_WORDS = {
    "key_on_key": "the key",
    "flat_on_flat": "the flat of the bore",
    "set_screw_on_flat": "the set screw on its flat",
    "set_screw_on_round": "the set screw on a round shaft",
    "set_screw_on_key": "the set screw beside the key's slot",
    BUSH: "the bush on the shaft",
}


def links_of_the_motor(board: Board, motor: str) -> Iterator[SettingLink]:
    """What every link leaves to one motor, A. What is unread is noted on the board."""
    peak = board.at_its_widest(motor, "peak_current")
    if peak:
        share = board.most(PEAK.hard)
        value = over_box("A", lambda i: sv.link_leaves(i, share), peak[0])
        worked = f"its sheet claims {show(peak[0][-1], 'A')} for seconds, {share:g} of it"
        yield linked(board, "motor", "the motor", motor, value, worked, unread=peak[1])
    for seat in board.controllers():
        yield from _controller(board, seat)
    if not board.controllers():
        board.absent("controller", "no controller is named")
    yield from _bullets(board, motor)
    kt = _torque_constant(board, motor)
    if board.has(beside(motor, "drive_pulley")) or beside(motor, "belt") in (*board.layout, *board.seated):
        yield from _belt(board, motor, kt)
        yield from _lock(board, motor, kt)
        yield from _lugs(board, motor, kt)


def _torque_constant(board: Board, motor: str) -> Values | None:
    """K_t by the larger convention, N m/A: a lower speed constant means more torque for the same current.

    A speed constant that nobody read is counted from the least to the greatest that such motors have.
    """
    kv = board.at_its_widest(motor, "velocity_constant")
    return tuple(torque_constant(one, "block") for one in kv[0]) if kv else None


def _unread_speed(board: Board, motor: str) -> bool:
    return board.reading(motor, "velocity_constant") is None


def _controller(board: Board, seat: str) -> Iterator[SettingLink]:
    rated = board.values(seat, "phase_continuous_current")
    if not rated:
        return
    name = "the controller" if seat == "controller" else "the second controller"
    value = over_box("A", lambda i: i, rated)
    yield linked(board, "controller", name, seat, value, f"{show(rated[-1], 'A')} without end")
    box = next((one for one in ENCLOSURES if board.has(one)), None)
    if box is None:
        return
    shells, air = board.words(box, "shell"), constant(IN_BOX, "in_still_air")
    pads = board.words("thermal_pad", "pad_form") if board.has("thermal_pad") else frozenset()
    forms = [(pad,) for pad in sorted(pads)] if pads else [()]
    share = min(share_left_in_box(shell, pad, air) for shell, pad in itertools.product(sorted(shells), forms))
    if share < 1.0:
        value = over_box("A", lambda i: sv.link_leaves(i, share), rated)
        worked = f"{show(rated[-1], 'A')} on a cool bench, {share:g} of it with air between it and the wall"
        doubt = len(shells) > 1 or len(pads) > 1
        yield linked(board, "controller_in_box", f"{name} shut in its box", seat, value, worked, doubt=doubt)


def _bullets(board: Board, motor: str) -> Iterator[SettingLink]:
    lead = beside(motor, "phase_lead")
    ends = [(motor, "phases", "the bullets of the motor")]
    if board.has(lead):
        ends += [(lead, "phase_socket", "the bullets of the phase leads"), (lead, "phases", "their far bullets")]
    ends += [
        (
            seat,
            "phase_socket",
            "the bullets of the second controller" if "2" in seat else "the bullets of the controller",
        )
        for seat in board.controllers()
    ]
    for seat, port, name in ends:
        read = board.reading(seat, "bullet_current", port) and board.values(seat, "bullet_current", port)
        if read:
            value, worked = over_box("A", lambda i: i, read), f"their sheet says {show(read[-1], 'A')}"
        else:
            diameter = board.values(seat, "bullet_diameter", port)
            if not diameter or bullet_current(min(diameter)) <= 0.0:
                if diameter:
                    board.miss(seat, "bullet_current", port)
                continue
            value = over_box("A", bullet_current, diameter)
            worked = f"{show(diameter[-1], 'mm')} carry {show(value.nominal, 'A')} as a rule"
        yield linked(board, "bullets", name, seat, value, worked)


def _belt(board: Board, motor: str, kt: Values | None) -> Iterator[SettingLink]:
    belt, drive, driven = (beside(motor, what) for what in ("belt", "drive_pulley", "driven_pulley"))
    for seat, what in (
        (belt, "no belt is named"),
        (drive, "no motor pulley is named"),
        (driven, "no driven pulley is named"),
    ):
        if not board.has(seat):
            board.absent(seat, what)
    wanted = (
        (belt, "width", ""),
        (belt, "allowed_pull_per_width", ""),
        (belt, "length", ""),
        (drive, "tooth_pitch", "teeth"),
        (drive, "teeth", "teeth"),
        (driven, "teeth", "teeth"),
    )
    sizes = [board.at_its_widest(*one) for one in wanted]
    taken, added = _idlers(board, motor)
    if kt is None or any(size is None for size in (*sizes, taken, added)):
        return
    width, pull, length, pitch, small, large = (size[0] for size in sizes if size)
    up, more = (size[0] for size in (taken, added) if size)
    unread = any(size[1] for size in (*sizes, taken, added) if size)
    reserve = board.least(RESERVE.comfort)

    def meshed(own: float, other: float, of_pitch: float, long: float, taken_up: float, extra: float) -> float:
        centre = centre_distance_or_shortfall(other, own, of_pitch, max(long - taken_up, of_pitch))
        return whole_teeth_in_mesh_or_none(other, own, of_pitch, centre) + extra

    mesh = over_box("", meshed, small, large, pitch, length, up, more)

    def current(wide: float, per: float, in_mesh: float, own: float, of_pitch: float, k: float) -> float:
        return sv.belt_leaves(wide, per, mesh_factor(in_mesh), reserve, own, of_pitch, k)

    value = over_box("A", current, width, pull, (mesh.low, mesh.high, mesh.nominal), small, pitch, kt)
    worked = (
        f"{show(width[-1], 'mm')} wide at {show(pull[-1], 'N/mm')}, {mesh.low:g} teeth in mesh, "
        f"a reserve of {reserve:g}, on {small[-1]:g} teeth"
    )
    doubt = _unread_speed(board, motor)
    yield linked(board, "belt", "the belt", belt, value, worked, doubt=doubt, unread=unread)


def _idlers(board: Board, motor: str) -> tuple[tuple[Values, bool] | None, tuple[Values, bool] | None]:
    """Belt length that idlers take up, mm, and the teeth that they add, and whether nobody read one of them."""
    found: list[tuple[Values, bool] | None] = []
    for attribute in ("take_up", "added_mesh"):
        together: tuple[Values, bool] | None = ((0.0,), False)
        for seat in (beside(motor, "idler"), beside(motor, "second_idler")):
            if board.has(seat) and together is not None:
                one = board.at_its_widest(seat, attribute)
                sums = tuple(a + b for a, b in itertools.product(together[0], one[0])) if one else ()
                together = (sums, together[1] or one[1]) if one else None
        found.append(together)
    return found[0], found[1]


def _lock(board: Board, motor: str, kt: Values | None) -> Iterator[SettingLink]:
    pulley, bush, key = (beside(motor, what) for what in ("drive_pulley", "bush", "key"))
    if not board.has(pulley) or kt is None:
        return
    locks = board.words(pulley, "lock", "bore")
    forms = board.words(motor, "shaft_form", "shaft")
    if board.has(bush):
        slit = board.words(bush, "slit")
        torques = [(BUSH, board.most((SLIT_BUSH if word == "yes" else WHOLE_BUSH).hard)) for word in sorted(slit)]
        seat = bush
    else:
        stepped = board.has(key) and "stepped" in board.words(key, "key_form")
        pairs = [lock_in_use(lock, form) for lock, form in itertools.product(sorted(locks), sorted(forms))]
        torques = [
            (
                pair,
                board.most(LOCKS[pair].hard)
                * (constant(KEY, "stepped_share") if stepped and pair == "key_on_key" else 1.0),
            )
            for pair in pairs
            if pair in LOCKS
        ]
        seat = pulley
    if not torques:
        return
    pair, torque = min(torques, key=lambda one: one[1])
    name = LOCK_WORDS.get(pair, "the bond on the shaft")
    several = f", the weakest of {len(torques)} that it may be" if len(torques) > 1 else ""
    doubt = len(torques) > 1 or _unread_speed(board, motor)
    value = over_box("A", lambda k: sv.torque_leaves(torque, k), kt)
    worked = f"it bears {show(torque, 'N_m')}, at {show(kt[-1], 'N_m')} per ampere{several}"
    yield linked(board, "shaft_lock", name, seat, value, worked, doubt=doubt)


def _lugs(board: Board, motor: str, kt: Values | None) -> Iterator[SettingLink]:
    drive, driven, wheel = (beside(motor, what) for what in ("drive_pulley", "driven_pulley", "wheel"))
    kinds = board.table.ports_of(board.seated[driven].part.part_class) if board.has(driven) else {}
    if kinds.get("lugs") != "lug_ring" or not board.has(drive) or not board.has(wheel) or kt is None:
        return
    wanted = (
        (driven, "lug_count", "lugs"),
        (driven, "lug_circle_radius", "lugs"),
        (drive, "teeth", "teeth"),
        (driven, "teeth", "teeth"),
    )
    sizes = [board.at_its_widest(*one) for one in wanted]
    if any(size is None for size in sizes):
        return
    lugs, radius, small, large = (size[0] for size in sizes if size)
    unread = any(size[1] for size in sizes if size)
    cores = board.words(wheel, "core_material", "core")
    counted = constant(LUGS, "alloy_share") if cores == {"alloy"} else 1.0
    force = board.most(LUGS.hard)

    def current(n: float, r: float, own: float, other: float, k: float) -> float:
        return sv.lugs_leave(force, n, r, own, other, counted, k)

    value = over_box("A", current, lugs, radius, small, large, kt)
    core = "alloy" if cores == {"alloy"} else "plastic"
    worked = f"{lugs[-1]:g} lugs in a core counted as {core}, {show(force / counted, 'N')} each"
    doubt = len(cores) > 1 or _unread_speed(board, motor)
    yield linked(board, "lugs", "the lugs in the wheel's core", driven, value, worked, doubt=doubt, unread=unread)
