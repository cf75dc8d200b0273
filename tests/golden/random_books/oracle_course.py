# SPDX-License-Identifier: MIT
"""The flow between the checks (docs/uncertainty.md): how it went by way of the field sets, and how far a pump strays that
nobody watched."""
import math

ENOUGH_USES = 5


class Course:
    """Straight lines from the pre to the post set by way of the field sets; `mean` is weighted with time."""

    def __init__(self, sample):
        self.stops, self.mean = [], None
        started, stopped = sample.row.started, sample.row.stopped
        if not sample.pre or not sample.post or started is None or stopped is None:
            return
        middle = lambda s: (s.first + s.last) / 2
        fields = [s for s in sample.sets if s.stage == "field" and s.kept and started <= middle(s) <= stopped]
        if not fields:
            return
        groups = self.compared([sample.pre, *sorted(fields, key=middle), sample.post])
        times = [sum(middle(s) for s in group) / len(group) for group in groups]
        times = [started, *times[1:-1], stopped]
        self.stops = [(at, self.flow(group)) for at, group in zip(times, groups)]
        if all(flow is not None for _, flow in self.stops):
            self.mean = sum(share * (a + b) / 2 for share, a, b in self.spans())

    def compared(self, sets):
        """Sets of two calibrators, the one begun within 30 minutes of the other's end, are one moment."""
        groups = [[sets[0]]]
        for one in sets[1:]:
            is_near = one.first - groups[-1][-1].last <= 30 * 60 and one.calibrator not in {s.calibrator for s in groups[-1]}
            is_whole = one is sets[-1] and len(groups) == 1
            if is_near and not is_whole:
                groups[-1].append(one)
            else:
                groups.append([one])
        return groups

    def flow(self, group):
        return None if any(s.mean is None for s in group) else sum(s.mean for s in group) / len(group)

    def spans(self):
        """Each with its share of the time and its two flows."""
        whole = self.stops[-1][0] - self.stops[0][0]
        return [((t2 - t1) / whole, q1, q2) for (t1, q1), (t2, q2) in zip(self.stops, self.stops[1:])]


def drift_of_uses(sample, book, sets_of):
    """How far the pump's flow moved in its uses whose post set was read before this sample's: their number, and the root
    mean square relative to the mean of both flows. Two samples within one bracket are one use."""
    uses = {}
    for row in book.samples:
        if row.pump != sample.row.pump or (row.kind or "sample") != "sample" or row.fault == "yes":
            continue
        pre, post = sets_of(row)
        if not pre or not post or pre.mean is None or post.mean is None:
            continue
        moved = ((post.mean - pre.mean) / ((post.mean + pre.mean) / 2)) ** 2
        if post.last < sample.post.first:
            uses[post.last] = max(moved, uses.get(post.last, 0))
    return len(uses), math.sqrt(sum(uses.values()) / len(uses)) if uses else None


def strays(sample, spans, stated, uses, moved):
    """Standard uncertainty of the mean flow by what nobody saw, and its degrees of freedom."""
    has_history = uses >= ENOUGH_USES
    half_width = (sample.pre_flow + sample.post_flow) / 2 * (moved / 2 if has_history else stated)
    by_distance = by_drift = 0
    for share, a, b in spans:
        seen, expected = share * abs(b - a) / 2, share ** 1.5 * half_width
        if seen >= expected:
            by_distance += seen ** 2 / 3
        else:
            by_drift += expected ** 2 / 3
    both = by_distance + by_drift
    return math.sqrt(both), uses * (both / by_drift) ** 2 if has_history and by_drift else math.inf
