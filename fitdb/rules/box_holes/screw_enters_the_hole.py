"""The screw has to pass the rim by hand. One that cuts its own thread in the rim no longer pulls the rim down, and the
gasket leaks under a screw that feels tight.
"""

from fitdb.model.rule import AtLeast, Bound, Example, Published, Rule, Severity


def quantity(hole: float, screw: float) -> float:
    return hole - screw


RULE = Rule(
    question="Does the screw pass the hole in the rim?",
    needs=("enclosure.hole_diameter", "box_screw.major_diameter"),
    quantity=quantity,
    measures="hole diameter less screw diameter",
    formula="s = Ø_hole − Ø_screw",
    unit="mm",
    hard=AtLeast(Bound("box_holes.screw_enters_the_hole.least", 0.0, "plane geometry")),
    comfort=AtLeast(Bound("box_holes.screw_enters_the_hole.comfort", 0.3, "ISO 273: M4 in a fine hole of 4.3 mm")),
    severity=Severity.DAMAGE,
    published=(Published("clearance hole of an M4 screw: 4.3 fine, 4.5 medium, 4.8 coarse", "ISO 273"),),
    remedy_hint="drill the hole to the size of ISO 273",
    examples=(
        Example("M4 in a 4.5 mm hole", {"enclosure.hole_diameter": 4.5, "box_screw.major_diameter": 4.0}, "holds", 0.5),
        Example(
            "M5 in a 4.5 mm hole", {"enclosure.hole_diameter": 4.5, "box_screw.major_diameter": 5.0}, "fails", -0.5
        ),
        Example(
            "exactly on the limit", {"enclosure.hole_diameter": 4.0, "box_screw.major_diameter": 4.0}, "holds", 0.0
        ),
        Example("hole unread", {"box_screw.major_diameter": 4.0}, "undecided"),
    ),
)
