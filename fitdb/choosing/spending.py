"""The time of one answer, shared out among what is asked for it."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

from fitdb.options import Budget

Clock = Callable[[], float]


@dataclass
class Time:
    """The time of one answer: milliseconds of this thread. stop: says that nobody waits for the answer any more."""

    milliseconds: float
    stop: Callable[[], bool] = lambda: False
    clock: Clock = time.thread_time
    began: float = field(init=False)

    def __post_init__(self) -> None:
        self.began = self.clock()

    def left(self, share: float = 1.0) -> Budget:
        """A share of what is left; nothing once it was stopped."""
        spent = 1000.0 * (self.clock() - self.began)
        return Budget(max(0.0, (self.milliseconds - spent) * share), self.clock, self._wall)

    def _wall(self) -> float:
        return float("inf") if self.stop() else time.monotonic()
