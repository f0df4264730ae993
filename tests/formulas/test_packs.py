"""Packs: volts, resistance, shares of the current and the current of a dead short."""

from __future__ import annotations

import pytest

from fitdb.formulas.packs import (
    asked_current,
    full_volts,
    pack_resistance,
    pack_share,
    pack_shares,
    shared_current,
    short_circuit_current,
)


def test_full_volts_follow_the_chemistry() -> None:
    assert full_volts(13, "nickel", 4.20, 3.65) == pytest.approx(54.6)
    assert full_volts(16, "phosphate", 4.20, 3.65) == pytest.approx(58.4)
    with pytest.raises(ValueError, match="chemistry"):
        full_volts(13, "lead", 4.20, 3.65)


def test_resistance_is_that_of_cells_wired_by_hand() -> None:
    cell, links = 18.0, 15.0
    one_group = 1.0 / sum(1.0 / cell for _ in range(4))
    assert pack_resistance(12, 4, cell, links) == pytest.approx(sum([one_group] * 12) + links)
    with pytest.raises(ValueError, match="parallel"):
        pack_resistance(12, 0, cell, links)


def test_two_controllers_of_one_motor_ask_as_much_as_one_of_two() -> None:
    assert asked_current((30.0, 30.0), (1, 1)) == asked_current((30.0,), (2,)) == 60.0
    assert asked_current((), ()) == 0.0
    with pytest.raises(ValueError):
        asked_current((30.0, 30.0), (2,))


def test_shares_of_like_packs_add_up_to_what_is_asked() -> None:
    shares = [shared_current(50.0, own, others) for own, others in ((3, (2, 1)), (2, (3, 1)), (1, (3, 2)))]
    assert sum(shares) == pytest.approx(50.0)
    assert shared_current(50.0, 3, ()) == 50.0
    with pytest.raises(ValueError, match="parallel"):
        shared_current(50.0, 0, ())


def test_like_packs_share_as_their_resistances_do() -> None:
    """Without links the current divides by conductance: Kirchhoff, worked out without the shortcut over counts."""
    first, second = pack_resistance(12, 3, 20.0, 0.0), pack_resistance(12, 2, 20.0, 0.0)
    by_conductance = 40.0 * second / (first + second)
    assert shared_current(40.0, 3, (2,)) == pytest.approx(by_conductance)


def test_unlike_packs_share_so_that_each_loses_the_same_volts() -> None:
    """Kirchhoff's law of volts: packs side by side at like open-circuit volts sag alike; shares make the whole."""
    ohms = (55.0, 155.0, 95.0)
    shares = [pack_share(3, own, [(3, other) for j, other in enumerate(ohms) if j != i]) for i, own in enumerate(ohms)]
    assert sum(shares) == pytest.approx(1.0)
    assert [share * own for share, own in zip(shares, ohms, strict=True)] == pytest.approx([shares[0] * 55.0] * 3)
    assert pack_share(3, 55.0, ()) == 1.0
    with pytest.raises(ValueError, match="resistance"):
        pack_share(3, 0.0, [(3, 95.0)])


def test_without_a_resistance_cells_count_as_equal() -> None:
    assert pack_share(3, 95.0, [(2, None)]) == pytest.approx(0.6)
    assert pack_shares(((), (3,), (), ()), ((12,), (2,), (20.0,), (15.0,))) == pytest.approx(0.6)
    assert pack_shares(((12,), (3,), (20.0,), (15.0,)), ((12,), (2,), (20.0,), (15.0,))) == pytest.approx(135 / 230)


def test_short_circuit_current_is_volts_over_resistance() -> None:
    assert short_circuit_current(50.4, 69.0) == pytest.approx(730.43, abs=0.01)
    with pytest.raises(ValueError, match="resistance"):
        short_circuit_current(50.4, 0.0)
