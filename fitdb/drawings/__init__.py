"""Verdicts as drawings: geometry in the board's frame as data, and the same as SVG.

A joint kind with a shape of its own has a file here; every other finding is drawn as its range on a scale.
"""

from __future__ import annotations

from collections.abc import Callable

from fitdb.drawings.core_windows import core_windows_drawing
from fitdb.drawings.scale import scale_drawing
from fitdb.drawings.shapes import Drawing
from fitdb.drawings.svg import svg
from fitdb.model.finding import Finding
from fitdb.model.joint import Joint
from fitdb.model.verdict import Verdict

JOINT_DRAWINGS: dict[str, Callable[[Joint], Drawing | None]] = {
    "core_windows": core_windows_drawing,
}
DECIDING_FIRST = ("fails", "undecided", "holds", "excused", "not_asked")


def drawing_of(joint: Joint, finding: Finding) -> Drawing:
    """The drawing of one finding: of its joint's shapes where there are any, else its range on a scale."""
    of_shapes = JOINT_DRAWINGS.get(finding.rule.kind)
    drawn = of_shapes(joint) if of_shapes else None
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
