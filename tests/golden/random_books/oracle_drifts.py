# SPDX-License-Identifier: MIT
"""How far each pump's flow moved over its uses (docs/uncertainty.md, "The flow between the checks")."""
import math

from oracle_sets import counting


class PumpDrifts:
    def __init__(self, book, sets):
        self.uses = {}
        for row in book.samples:
            if (row.kind or "sample") != "sample" or row.pump is None or row.fault == "yes":
                continue
            pre, post = counting(sets.leaned_on(row), row)
            if not pre or not post or pre.mean is None or post.mean is None:
                continue
            moved = abs(post.mean - pre.mean) / ((pre.mean + post.mean) / 2)
            of_pump = self.uses.setdefault(row.pump, {})
            of_pump[post.last] = max(moved, of_pump.get(post.last, 0))

    def before(self, pump, moment):
        """Number of uses whose post set had been read, and the root mean square of their drifts."""
        moved = [d for closed, d in self.uses.get(pump, {}).items() if closed < moment]
        return len(moved), math.sqrt(math.fsum(d * d for d in moved) / len(moved)) if moved else None
