# SPDX-License-Identifier: MIT
"""The mean flow along the line through the field sets, as docs/uncertainty.md has it ("Readings during sampling")."""
from oracle_book import mean

CLOSE = 30 * 60  # seconds within which sets of two calibrators compare them


def middle(one_set):
    return one_set.first + (one_set.last - one_set.first) // 2


def stops_of(sets, sample, pre, post):
    """Sets by stop, in order of time; none where the flow has no course."""
    if not pre or not post or sample.started is None or sample.stopped is None or sample.stopped <= sample.started:
        return []
    fields = [s for s in sets if s.stage == "field" and s.kept and sample.started <= middle(s) <= sample.stopped]
    if not fields:
        return []
    stops = [[pre]]
    for one in sorted(fields, key=middle):
        is_new = all(one.calibrator != other.calibrator for other in stops[-1])
        if is_new and one.first - stops[-1][-1].last <= CLOSE:
            stops[-1].append(one)
        else:
            stops.append([one])
    last = stops[-1]
    compares_the_end = len(stops) > 1 and post.first - last[-1].last <= CLOSE and all(
        post.calibrator != other.calibrator for other in last)
    if compares_the_end:
        last.append(post)
    else:
        stops.append([post])
    return stops


def course_mean(sets, sample, pre, post):
    """(whether there is a course, its mean flow)"""
    stops = stops_of(sets, sample, pre, post)
    if not stops:
        return False, None
    if any(s.mean is None for stop in stops for s in stop):
        return True, None
    at = [mean(middle(s) for s in stop) for stop in stops]
    at[0], at[-1] = sample.started, sample.stopped
    flows = [mean(s.mean for s in stop) for stop in stops]
    area = sum((b - a) * (p + q) / 2 for a, b, p, q in zip(at, at[1:], flows, flows[1:]))
    return True, area / (at[-1] - at[0])
