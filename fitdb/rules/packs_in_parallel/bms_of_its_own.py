"""Each pack has its own weakest cell. A board that watches the cells of one pack knows nothing of those of the other,
which then go over full or under empty unseen. Packs of unequal size and age drift apart the faster.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(own_bms: str, boards: tuple[int, ...]) -> str:
    return "yes" if boards else own_bms


RULE = Rule(
    question="Has this pack a BMS of its own?",
    needs=("pack.own_bms", "bms*.series"),
    quantity=quantity,
    measures="a BMS that watches this pack, named beside it or built in",
    formula="yes where one is named for this pack, else what is said of the pack",
    unit="",
    hard=OneOf("packs_in_parallel.bms_of_its_own", ("yes",), "common practice, no source"),
    severity=Severity.FIRE,
    caution=(
        "Each pack its own BMS. Do not open, weld or repair a pack unless you are trained for it. Ask a qualified pack"
        " builder."
    ),
    remedy_hint="a pack that has its own BMS",
    examples=(
        Example("a BMS beside this pack", {"pack.own_bms": "yes|no", "bms*.series": (12,)}, "holds"),
        Example("built into the pack", {"pack.own_bms": "yes"}, "holds"),
        Example("bare cells beside a pack with a board", {"pack.own_bms": "no"}, "fails"),
        Example("nobody looked", {"pack.own_bms": "yes|no"}, "undecided"),
        Example("unread", {}, "undecided"),
    ),
)
