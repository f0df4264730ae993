"""Verdicts as drawings: geometry in the board's frame as data, and the same as SVG.

A joint kind with a shape of its own has a file here; every other finding is drawn as its range on a scale.
"""

from __future__ import annotations

from collections.abc import Callable

from fitdb.drawings.belt_line import belt_drawing
from fitdb.drawings.box_contents import box_contents_drawing
from fitdb.drawings.core_windows import core_windows_drawing
from fitdb.drawings.hole_patterns import pattern_drawing
from fitdb.drawings.scale import scale_drawing
from fitdb.drawings.shapes import Drawing
from fitdb.drawings.svg import svg
from fitdb.drawings.wheel_bite import wheel_bite_drawing
from fitdb.model.finding import Finding
from fitdb.model.joint import Joint
from fitdb.model.verdict import Verdict

JOINT_DRAWINGS: dict[str, Callable[[Joint], Drawing | None]] = {
    "core_windows": core_windows_drawing,
    "deck_holes": pattern_drawing("baseplate", "deck_side", "Holes of plate and deck"),
    "motor_face": pattern_drawing("motor", "motor_mount", "Holes of motor face and mount"),
    "box_holes": pattern_drawing("enclosure", "deck", "Holes of the box and inserts of the deck"),
    "wheel_bite": wheel_bite_drawing,
    "belt_length": belt_drawing,
    "belt_pull": belt_drawing,
    "box_contents": box_contents_drawing,
}
DECIDING_FIRST = ("fails", "undecided", "holds", "excused", "not_asked")


def drawing_of(joint: Joint, finding: Finding) -> Drawing:
    """The drawing of one finding: of its joint's shapes where there are any, else its range on a scale."""
    of_shapes = JOINT_DRAWINGS.get(finding.rule.kind)
    try:
        drawn = of_shapes(joint) if of_shapes else None
    except ValueError:  # sizes that the rules refuse, such as a window of no width, cannot be drawn either
        drawn = None
    return drawn or scale_drawing(finding)


def draw_finding(joint: Joint, finding: Finding) -> str:
    """The same as an SVG document."""
    return svg(drawing_of(joint, finding))


def deciding(verdict: Verdict) -> tuple[Joint, Finding] | None:
    """The finding that decides: a failing one before an undecided one, the more severe first."""
    found = [(joint.joint, finding) for joint in verdict.joints for finding in joint.findings]
    return min(found, key=lambda pair: (DECIDING_FIRST.index(pair[1].state), -pair[1].rule.severity), default=None)


def draw_verdict(verdict: Verdict) -> str | None:
    """The SVG of the deciding finding; None if no rule was asked."""
    found = deciding(verdict)
    return draw_finding(*found) if found else None
