"""Every link of the pack's current, and what it leaves to all channels together: driving (J54 to J57, J65, J72)."""

from __future__ import annotations

from collections.abc import Iterator

from fitdb.formulas import setting_values as sv
from fitdb.formulas.packs import full_volts, pack_shares
from fitdb.formulas.power_leads import lead_current
from fitdb.intake.units import show
from fitdb.model.reading import Word
from fitdb.model.set_up import SettingLink
from fitdb.rules.current_chain.fuse_leaves_the_current import RULE as FUSE
from fitdb.rules.current_connector.connector_carries_the_current import RULE as CONNECTOR
from fitdb.rules.main_switch.current_leaves_a_fifth import RULE as SWITCH
from fitdb.rules.power_lead.carries_the_current import RULE as LEAD
from fitdb.rules.power_lead.little_is_lost import RULE as LOSS
from fitdb.rules.survey.pack_full_volts import LINE as FULL
from fitdb.steps.set_up.readings import PACKS, Board, Channels, Values, constant, linked, over_box, span

CONNECTORS = {"pack_plug": "plug of the pack", "power_adapter": "adapter lead", "rail_plug": "plug of the rail"}
BRANCHES = {"branch_lead": "controller", "branch_lead_2": "controller_2"}
RESISTANCES = ("series", "parallel", "cell_resistance", "link_resistance")


def links_of_the_draw(board: Board, channels: Channels) -> Iterator[SettingLink]:
    """What every link leaves to all controllers together, A. What is unread, or not named, is noted on the board."""
    for seats in board.packs():
        yield from _pack(board, *seats)
    if not board.packs():
        board.absent("pack", "no pack is named")
    yield from _switch(board)
    yield from _connectors(board)
    yield from _leads(board, channels)


def second(seat: str) -> str:
    return " of the second pack" if seat.endswith("_2") else ""


def draw_share(board: Board, pack: str) -> tuple[Values, bool]:
    """What this pack gives of a current, 0 to 1, and whether a resistance that nobody read stands behind it."""
    others = [seats[0] for seats in board.packs() if seats[0] != pack]
    if not others:
        return (1.0,), False
    columns: list[Values] = []
    stands_in = False
    for seat in (pack, *others):
        for attribute in RESISTANCES:
            found = board.at_its_widest(seat, attribute)
            if found is None:
                return (1.0,), True
            columns.append(found[0])
            stands_in |= found[1]

    def share(*sizes: float) -> float:
        own, other = sizes[:4], sizes[4:]
        return pack_shares(_each(own), _each(other))

    return span(over_box("", share, *columns)), stands_in


def _each(sizes: tuple[float, ...]) -> tuple[tuple[float], tuple[float], tuple[float], tuple[float]]:
    return (sizes[0],), (sizes[1],), (sizes[2],), (sizes[3],)


def _shared(share: Values) -> str:
    return "" if max(share) >= 1.0 else f", for it carries up to {100 * max(share):.0f} per cent of the whole"


def _pack(board: Board, pack: str, bms: str, fuse: str) -> Iterator[SettingLink]:
    share, stands_in = draw_share(board, pack)
    parallel = board.at_its_widest(pack, "parallel")
    current = board.at_its_widest(pack, "cell_continuous_current")
    drawn = sv.practice("cells_drawn")
    if parallel and current:
        value = over_box("A", lambda p, i, s: sv.cells_leave(p, i, drawn, s), parallel[0], current[0], share)
        worked = f"{parallel[0][-1]:g} in parallel of {show(current[0][-1], 'A')}, {drawn:g} of it{_shared(share)}"
        name, unread = f"the cells{second(pack)}", parallel[1] or current[1]
        yield linked(board, "cells", name, pack, value, worked, doubt=stands_in, unread=unread)
    sold = board.reading(pack, "continuous_current") and board.values(pack, "continuous_current")
    if sold:
        value = over_box("A", lambda i, s: sv.link_leaves(i, drawn, s), sold, share)
        worked = f"sold for {show(sold[-1], 'A')}, {drawn:g} of it{_shared(share)}"
        yield linked(board, "pack", f"the label{second(pack) or ' of the pack'}", pack, value, worked, doubt=stands_in)
    yield from _bms(board, bms, share, stands_in)
    yield from _fuse(board, fuse, share, stands_in)


def _own_share(board: Board, seat: str, share: Values) -> Values:
    """The whole current goes through a BMS or a fuse, unless the other pack has one as well."""
    kind = 1 if "bms" in seat else 2
    return share if all(board.has(seats[kind]) for seats in PACKS) else (1.0,)


def _bms(board: Board, seat: str, share: Values, stands_in: bool) -> Iterator[SettingLink]:
    if not board.has(seat):
        if seat == "bms":
            board.absent(seat, "no BMS is named")
        return
    if board.words(seat, "discharge_bypassed") == {"yes"}:
        return
    own, used = _own_share(board, seat, share), sv.practice("bms_drawn")
    doubt = stands_in and own != (1.0,)
    for link, attribute, port, words in (
        ("bms", "link_current", "link", "carries"),
        ("bms_trip", "trip_current", "", "opens at"),
    ):
        rated = board.at_its_widest(seat, attribute, port)
        if rated:
            value = over_box("A", lambda i, s: sv.link_leaves(i, used, s), rated[0], own)
            worked = f"it {words} {show(rated[0][-1], 'A')}, {used:g} of it{_shared(own)}"
            name = f"the BMS{second(seat)}" if link == "bms" else f"the current at which the BMS{second(seat)} opens"
            yield linked(board, link, name, seat, value, worked, doubt=doubt, unread=rated[1])


def _fuse(board: Board, seat: str, share: Values, stands_in: bool) -> Iterator[SettingLink]:
    if not board.has(seat):
        if seat == "fuse":
            board.absent(seat, "no main fuse is named")
        return
    rated = board.at_its_widest(seat, "rated_current")
    if rated:
        own, over = _own_share(board, seat, share), constant(FUSE, "over")
        value = over_box("A", lambda i, s: sv.link_leaves(i, 1.0 / over, s), rated[0], own)
        worked = f"{show(rated[0][-1], 'A')} over {over:g}{_shared(own)}"
        doubt, name = stands_in and own != (1.0,), f"the main fuse{second(seat)}"
        yield linked(board, "fuse", name, seat, value, worked, doubt=doubt, unread=rated[1])


def _switch(board: Board) -> Iterator[SettingLink]:
    form = board.reading("switch", "switch_form")
    if not board.has("switch") or (isinstance(form, Word) and form.possible == {"pre_charge_lead"}):
        board.absent("switch", "no main switch is named")
        return
    rated = board.at_its_widest("switch", "link_current", "link")
    if rated:
        share = constant(SWITCH, "share")
        value = over_box("A", lambda i: sv.link_leaves(i, share), rated[0])
        worked = f"{show(rated[0][-1], 'A')}, {share:g} of it"
        yield linked(board, "switch", "the main switch", "switch", value, worked, unread=rated[1])


def _connectors(board: Board) -> Iterator[SettingLink]:
    share = board.most(CONNECTOR.comfort) / 100.0
    for seat, name in CONNECTORS.items():
        if not board.has(seat):
            if seat != "power_adapter":
                board.absent(seat, f"no {name} is named")
            continue
        rated = board.at_its_widest(seat, "link_current", "link")
        if rated:
            value = over_box("A", lambda i: sv.link_leaves(i, share), rated[0])
            worked = f"named for {show(rated[0][-1], 'A')}, {share:g} of it in a closed box"
            yield linked(board, "plug", f"the {name}", seat, value, worked, unread=rated[1])


def _leads(board: Board, channels: Channels) -> Iterator[SettingLink]:
    volts = full_pack_volts(board)
    if board.has("main_lead"):
        yield from _lead(board, "main_lead", "the main lead", volts, channels.used, channels.used)
    else:
        board.absent("main_lead", "no main lead is named")
        density = constant(LEAD, "enclosed_bundle")
        for pack, _, _ in board.packs():
            area = board.reading(pack, "main_lead_area") and board.values(pack, "main_lead_area")
            if area:
                value = over_box(
                    "A", lambda a, s: sv.link_leaves(a * density, 1.0, s), area, draw_share(board, pack)[0]
                )
                worked = f"{show(area[-1], 'mm2')} at {density:g} A/mm², as in a bundle, for nobody said how it lies"
                name = f"the leads{second(pack) or ' of the pack'}"
                yield linked(board, "main_lead", name, pack, value, worked, doubt=True)
    for seat, controller in BRANCHES.items():
        if board.has(seat) and channels.behind.get(controller):
            name = f"the lead to the {controller.replace('controller_2', 'second controller')}"
            yield from _lead(board, seat, name, volts, channels.used, channels.behind[controller])


def _lead(board: Board, seat: str, name: str, volts: float | None, used: int, behind: int) -> Iterator[SettingLink]:
    """The lead's current, told for all channels together, and what its length leaves."""
    if not used:
        return
    area = board.at_its_widest(seat, "area")
    if not area:
        return
    laid = board.words(seat, "laying")
    open_air, enclosed = constant(LEAD, "open_air"), constant(LEAD, "enclosed_bundle")
    laying = "open_air" if laid == {"open_air"} else "enclosed_bundle"
    both = ", for nobody said whether it lies in a bundle" if len(laid) > 1 else ""
    of_all = f", which feeds {behind} of {used} channels" if behind < used else ""
    value = over_box(
        "A", lambda a: sv.branch_leaves(lead_current(a, laying, open_air, enclosed), used, behind), area[0]
    )
    density = open_air if laying == "open_air" else enclosed
    worked = f"{show(area[0][-1], 'mm2')} at {density:g} A/mm²{both}{of_all}"
    link = "main_lead" if seat == "main_lead" else "branch_lead"
    yield linked(board, link, name, seat, value, worked, doubt=len(laid) > 1, unread=area[1])
    length = board.at_its_widest(seat, "length")
    if length and volts:
        lost, rho = board.most(LOSS.hard), constant(LOSS, "resistivity")

        def current(copper: float, long: float) -> float:
            return sv.branch_leaves(sv.loss_leaves(lost, volts, copper, long, rho), used, behind)

        value = over_box("A", current, area[0], length[0])
        worked = f"{show(length[0][-1], 'mm')} of it lose {lost:g} per cent of {show(volts, 'V')}{of_all}"
        name = f"the volts lost along {name}"
        yield linked(board, f"{link}_loss", name, seat, value, worked, unread=area[1] or length[1])


def full_pack_volts(board: Board) -> float | None:
    """The least that the full packs may stand at, V; None where cells in series or chemistry are not known."""
    found = []
    for pack, _, _ in board.packs():
        series, chemistry = board.values(pack, "series"), board.words(pack, "chemistry")
        if series is None:
            return None
        cell = (constant(FULL, "nickel_full"), constant(FULL, "phosphate_full"))
        found += [full_volts(count, one, *cell) for count in series for one in chemistry]
    return min(found, default=None)
