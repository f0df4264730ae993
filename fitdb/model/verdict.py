"""Verdicts of a joint and of a whole question."""

from __future__ import annotations

from dataclasses import dataclass

from fitdb.model.finding import Finding
from fitdb.model.joint import Joint, NotAsked
from fitdb.model.remedy import Remedy

VERDICTS = ("fits", "fits_with", "measure", "clash")
EXIT_CODES = {"fits": 0, "clash": 1, "measure": 2, "fits_with": 3, "not_asked": 2}


@dataclass(frozen=True, slots=True)
class JointVerdict:
    """A joint takes the worst of its findings."""

    joint: Joint
    verdict: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Bridge:
    """An adapter that cures failing joints of a pair, judged: what it cures, adds and leaves open."""

    remedy: Remedy
    part: str
    title: str
    verdict: str
    cured: tuple[str, ...]
    breaks: tuple[str, ...]
    adds: tuple[str, ...]
    joints: tuple[JointVerdict, ...]


@dataclass(frozen=True, slots=True)
class Verdict:
    """The answer to a fit question. `as_asked` is fits, measure or clash; `best_allowed` adds fits_with.

    Both are not_asked where nothing meets; `offers` then says per part what it has to meet another with.
    """

    as_asked: str
    best_allowed: str
    joints: tuple[JointVerdict, ...]
    not_asked: tuple[NotAsked, ...]
    bridges: tuple[Bridge, ...]
    offers: tuple[tuple[str, tuple[str, ...]], ...]
    revision: str
    stamp: str
