"""What has to be done before what: the least that a goal takes, and an order that keeps to it. Nodes are anything."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from typing import Any, TypeVar

from fitdb.model.problems import OurFault

Node = TypeVar("Node")
Needs = Mapping[Node, Collection[Node]]


def passed_through(needs: Needs[Node], present: Collection[Node]) -> dict[Node, frozenset[Node]]:
    """The needs among `present` alone: what is not there hands on what it needs itself."""
    return {node: among(needs.get(node, ()), needs, present) for node in present}


def among(wanted: Iterable[Node], needs: Needs[Node], present: Collection[Node]) -> frozenset[Node]:
    """These nodes as far as they are present, and in place of each that is not, what it needs."""
    found, seen, waiting = set[Node](), set[Node](), list(wanted)
    while waiting:
        node = waiting.pop()
        if node in present:
            found.add(node)
        elif node not in seen:
            seen.add(node)
            waiting.extend(needs.get(node, ()))
    return frozenset(found)


def closure(goals: Iterable[Node], needs: Needs[Node]) -> frozenset[Node]:
    """The goals and all that comes before them: nothing else, so it is the least that reaches the goals."""
    found, waiting = set[Node](), list(goals)
    while waiting:
        node = waiting.pop()
        if node not in found:
            found.add(node)
            waiting.extend(needs.get(node, ()))
    return frozenset(found)


def in_order(
    nodes: Iterable[Node], needs: Needs[Node], prefers: Callable[[Node, Node | None], Any]
) -> tuple[Node, ...]:
    """Every node after all that it needs; among those that are free the one that `prefers` puts lowest.

    prefers: (node, the node before it or None) -> something to sort by; ties are broken by the order of `nodes`.
    Raises OurFault when the needs go in a circle, which the checks of the tables rule out.
    """
    left = list(dict.fromkeys(nodes))
    done: list[Node] = []
    here = set(left)
    while left:
        placed = set(done)
        free = [node for node in left if all(one in placed for one in needs.get(node, ()) if one in here)]
        if not free:
            raise OurFault(f"These steps each wait for another: {', '.join(map(str, left))}.")
        before = done[-1] if done else None
        chosen = min(free, key=lambda node: prefers(node, before))
        done.append(chosen)
        left.remove(chosen)
    return tuple(done)
