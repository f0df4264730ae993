"""Two plugs of one form go together. Two of different forms want an adapter lead, or a soldering iron."""

from fitdb.model.rule import Example, Rule, Same, Severity


def quantity(near_form: str, far_form: str) -> tuple[str, str]:
    return near_form, far_form


RULE = Rule(
    question="Are both plugs of one form?",
    needs=("near.plug_form", "far.plug_form"),
    quantity=quantity,
    measures="form of the plug on the side of the pack, and of the one that goes into it",
    formula="form_pack side = form_other",
    unit="",
    hard=Same("power_plugs.form_equal", "common practice, no source"),
    severity=Severity.DAMAGE,
    remedy_hint="an adapter lead, or the same connector on both sides",
    examples=(
        Example("two blocks", {"near.plug_form": "two_pole_block", "far.plug_form": "two_pole_block"}, "holds"),
        Example("block and blades", {"near.plug_form": "two_pole_block", "far.plug_form": "bladed_block"}, "fails"),
        Example(
            "one of two",
            {"near.plug_form": "two_pole_block|bladed_block", "far.plug_form": "bladed_block"},
            "undecided",
        ),
        Example("far side unread", {"near.plug_form": "two_pole_block"}, "undecided"),
    ),
)
