"""A remedy is data: one move and its stock. What it cures and breaks is found by judging, never declared."""

from __future__ import annotations

from dataclasses import dataclass

MOVES = ("insert", "substitute", "alter", "set")


@dataclass(frozen=True, slots=True)
class Remedy:
    """insert into a seat · substitute at a seat · alter an attribute · set an attribute.

    `stock` is the part class (insert, substitute) that fills `seat`; `attribute` is what alter and set change.
    gives_up says in words what is lost; minutes and money (mu) are rough figures of common practice.
    """

    id: str
    title: str
    move: str
    seat: str
    stock: str
    attribute: str
    reversible: bool
    gives_up: str
    minutes: float
    money: float
    source: str
