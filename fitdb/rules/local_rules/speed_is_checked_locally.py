"""Whether, where and how fast such a board may be ridden differs from place to place, and changing its power or speed
may change its class, its insurance and the age at which it may be ridden. Nothing here knows the rules of a place.
"""

from fitdb.model.rule import AtMost, Bound, Example, Published, Rule, Severity


def quantity(fastest: float) -> float:
    return fastest


RULE = Rule(
    question="Have you asked what your local rules say about this speed?",
    needs=("drive.fastest_speed",),
    quantity=quantity,
    measures="fastest speed of the board, just off the charger",
    formula="v",
    unit="km/h",
    # A reminder, no limit: `.none` tells it so. Beyond walking pace the reminder is printed.
    hard=AtMost(Bound("local_rules.speed_is_checked_locally.none", 1000.0, "common practice, no source")),
    comfort=AtMost(
        Bound("local_rules.speed_is_checked_locally.comfort", 6.0, "Regulation (EU) 168/2013, article 2, from memory")
    ),
    severity=Severity.INFO,
    published=(
        Published("personal light electric vehicles: up to 25 km/h and 100 V direct current", "EN 17128:2020, scope"),
        Published(
            "small electric vehicles: at most 20 km/h, with a steering bar",
            "German ordinance on small electric vehicles (eKFV)",
        ),
        Published("vehicles of at most 6 km/h are left out", "Regulation (EU) 168/2013, article 2, from memory"),
    ),
    caution=(
        "Whether, where and how fast you may ride such a board differs from place to place, and changing power or "
        "speed may change its class, insurance and age limit. Check locally before you build."
    ),
    two_numbers_suffice="nothing is decided here: the finding prints a reminder",
    examples=(
        Example("walking pace", {"drive.fastest_speed": 5.0}, "holds", 995.0),
        Example("38 km/h: the reminder is printed", {"drive.fastest_speed": (34.0, 38.0, 42.0)}, "holds", 962.0),
        Example("no board", {"drive.fastest_speed": 1001.0}, "fails", -1.0),
        Example("exactly on the limit", {"drive.fastest_speed": 1000.0}, "holds", 0.0),
        Example("speed not worked out", {}, "undecided"),
    ),
)
