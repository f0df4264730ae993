"""How much time an answer may take."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

Clock = Callable[[], float]


@dataclass(frozen=True, slots=True)
class Budget:
    """Milliseconds of this thread, so that a busy machine does not turn an answer; three times as long on the wall is
    the end as well, since the packing solver has threads of its own."""

    milliseconds: float = 2000.0
    clock: Clock = time.thread_time
    wall: Clock = time.monotonic

    def expired(self) -> Callable[[], bool]:
        seconds = self.milliseconds / 1000.0
        ends, at_the_latest = self.clock() + seconds, self.wall() + 3 * seconds
        return lambda: self.clock() >= ends or self.wall() >= at_the_latest
