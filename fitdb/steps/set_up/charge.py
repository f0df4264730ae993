"""What cells and BMS leave of the braking charge, all channels together (J63, J72)."""

from __future__ import annotations

from collections.abc import Iterator

from fitdb.formulas import setting_values as sv
from fitdb.intake.units import show
from fitdb.model.finding import Range
from fitdb.model.reading import Word
from fitdb.model.set_up import SettingLink
from fitdb.steps.set_up.chain import draw_share, second
from fitdb.steps.set_up.readings import PACKS, Board, Values, linked, over_box


def links_of_the_charge(board: Board) -> Iterator[SettingLink]:
    """What every link leaves of the braking charge, A. What is unread, or not named, is noted on the board."""
    for pack, bms, _ in board.packs():
        share, stands_in = charge_share(board, pack)
        if share:
            yield from _cells(board, pack, share, stands_in)
        yield from _bms(board, bms, share, stands_in)
    if not board.packs():
        board.absent("pack", "no pack is named")
    elif all(_behind_diodes(board, pack) for pack, _, _ in board.packs()):
        worked = "every pack stands behind diodes, so that no charge finds a way back"
        yield linked(board, "diodes", "the diodes of the packs", "pack", Range(0.0, 0.0, 0.0, "A"), worked)


def _behind_diodes(board: Board, pack: str) -> bool:
    """Whether somebody saw that it stands behind diodes; unread it is taken for leads, for most packs have them."""
    read = board.reading(pack, "coupling")
    return isinstance(read, Word) and read.possible == {"diodes"}


def charge_share(board: Board, pack: str) -> tuple[Values, bool]:
    """What this pack may take of a braking charge, above 0 to 1; nothing where it stands behind diodes for certain.

    Where nobody said whether one of two packs stands behind diodes, both are counted: the other may have to take all.
    """
    others = [seats[0] for seats in board.packs() if seats[0] != pack]
    if not others:
        return (1.0,), False
    own, other = board.words(pack, "coupling"), board.words(others[0], "coupling")
    if own == {"diodes"}:
        return (), False
    share, stands_in = draw_share(board, pack)
    shares = share if "leads" in other else ()
    unsure = len(own) > 1 or len(other) > 1
    return (*shares, 1.0) if "diodes" in other else shares, stands_in or unsure


def _cells(board: Board, pack: str, share: Values, stands_in: bool) -> Iterator[SettingLink]:
    in_use, name = sv.practice("cells_charged"), f"the cells{second(pack)}"
    parallel = board.at_its_widest(pack, "parallel")
    current = board.at_its_widest(pack, "cell_charge_current")
    if parallel and current:
        value = over_box("A", lambda p, i, s: sv.cells_leave(p, i, in_use, s), parallel[0], current[0], share)
        takes = f"{parallel[0][-1]:g} in parallel take {show(current[0][-1], 'A')} each"
        worked, unread = f"{takes}, {in_use:g} of it{_shared(share)}", parallel[1] or current[1]
        yield linked(board, "cells", name, pack, value, worked, doubt=stands_in, unread=unread)
    label = board.reading(pack, "charge_current") and board.values(pack, "charge_current")
    if label:
        value = over_box("A", lambda i, s: sv.link_leaves(i, in_use, s), label, share)
        worked = f"it says {show(label[-1], 'A')}, {in_use:g} of it{_shared(share)}"
        yield linked(board, "pack", f"the label{second(pack) or ' of the pack'}", pack, value, worked, doubt=stands_in)
    capacity = board.reading(pack, "capacity_ah") and board.values(pack, "capacity_ah")
    if current and current[1] and capacity:
        rate = sv.practice("unread_charge_rate")
        value = over_box("A", lambda c, s: sv.capacity_charges(c, rate, in_use, s), capacity, share)
        worked = f"nobody read what they take: half of {show(capacity[-1], 'Ah')} in an hour, {in_use:g} of it"
        yield linked(board, "cells_by_habit", name, pack, value, worked + _shared(share), doubt=True)


def _bms(board: Board, seat: str, share: Values, stands_in: bool) -> Iterator[SettingLink]:
    if not board.has(seat):
        if seat == "bms":
            board.absent(seat, "no BMS is named")
        return
    if board.words(seat, "discharge_bypassed") == {"yes"}:
        return
    own = share if all(board.has(seats[1]) for seats in PACKS) else (1.0,)  # a board alone lets in all of it
    if not own:
        return
    layout, in_use = board.words(seat, "port_layout"), sv.practice("bms_charged")
    both = ", for nobody said whether charge and discharge share a port" if len(layout) > 1 else ""
    ways = (
        ("common_port", "bms_charge", "charge_current", "", "its charge path takes"),
        ("separate_ports", "bms_discharge", "link_current", "link", "the charge goes back the way it came, through"),
    )
    for word, link, attribute, port, words in ways:
        rated = board.at_its_widest(seat, attribute, port) if word in layout else None
        if rated:
            value = over_box("A", lambda i, s: sv.link_leaves(i, in_use, s), rated[0], own)
            worked = f"{words} {show(rated[0][-1], 'A')}, {in_use:g} of it{_shared(own)}{both}"
            doubt = bool(both) or (stands_in and own != (1.0,))
            yield linked(board, link, f"the BMS{second(seat)}", seat, value, worked, doubt=doubt, unread=rated[1])


def _shared(share: Values) -> str:
    return "" if share == (1.0,) else f", for it may have to take {100 * max(share):.0f} per cent of the whole"
