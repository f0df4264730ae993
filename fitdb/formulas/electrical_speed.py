"""Electrical speed of a motor, and what of it a ceiling in the settings leaves (J60)."""

import math


def unloaded_electrical_speed(velocity_constant: float, volts: float, pole_pairs: float) -> float:
    """Electrical speed of the unloaded motor at full drive, ω = K_v·V·p, in revolutions of the field per minute.

    ``velocity_constant`` K_v in rev/min per volt, ``volts`` V at the controller, ``pole_pairs`` p, half the number of
    magnets. Raises ValueError unless all are finite and above zero.
    Source: synchronous machine, mechanical speed times pole pairs; K_v as motors are labelled.
    """
    for name, value in (("speed constant", velocity_constant), ("volts", volts), ("pole pairs", pole_pairs)):
        if not 0.0 < value < math.inf:
            raise ValueError(f"{name} must be a finite number above zero, got {value!r}; read it again")
    return velocity_constant * volts * pole_pairs


def below_ceiling(speed: float, ceiling: float, overdrive: float = 1.0) -> float:
    """Greatest electrical speed that is reached in rev/min: what the volts give, cut off at the ceiling that is set.

    ``speed`` from the volts alone, ``ceiling`` as set in the controller, ``overdrive`` the factor by which it may run
    above the speed that the volts give (1.2 where it weakens the field). Source: the ceiling is a cut-off, so the
    smaller of the two is the speed.
    """
    return min(speed * overdrive, ceiling)
