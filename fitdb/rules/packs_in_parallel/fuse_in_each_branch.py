"""When a lead or a cell of one pack shorts, the other pack feeds the fault with hundreds of amperes. One fuse for both
stands on the wrong side of that fault. Packs of unequal size, age or cells share every load unequally as well, so that
one of them is overloaded while the total looks fine: a fuse in each branch ends that.
"""

from fitdb.model.rule import Example, OneOf, Rule, Severity


def quantity(own_fuse: str, fuses: tuple[float, ...]) -> str:
    return "yes" if fuses else own_fuse


RULE = Rule(
    question="Has this pack a fuse of its own?",
    needs=("pack.own_fuse", "fuse*.rated_current"),
    quantity=quantity,
    measures="a fuse in the branch of this pack, named beside it or built in",
    formula="yes where one is named for this pack, else what is said of the pack",
    unit="",
    hard=OneOf("packs_in_parallel.fuse_in_each_branch", ("yes",), "common practice, no source"),
    severity=Severity.FIRE,
    caution="Each pack its own fuse, 100 mm or less from its plus.",
    remedy_hint="a fuse in each branch",
    examples=(
        Example("a fuse in this branch", {"pack.own_fuse": "yes|no", "fuse*.rated_current": (30.0,)}, "holds"),
        Example("built into the pack", {"pack.own_fuse": "yes"}, "holds"),
        Example(
            "two packs, one fuse behind both, nothing in this branch",
            {"pack.own_fuse": "no"},
            "fails",
            two_numbers="12 cells in series on both packs: two numbers say yes",
        ),
        Example("nobody looked", {"pack.own_fuse": "yes|no"}, "undecided"),
        Example("unread", {}, "undecided"),
    ),
)
