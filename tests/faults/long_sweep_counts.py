# SPDX-License-Identifier: MIT
"""long_sweep_counts.py LOG: what a sweep has tried so far, by command and kind of call, and how much of it was amiss."""
import collections
import re
import sys

LINE = re.compile(r"  (\S+), (\S+): (\d+) tried, (\d+) amiss$")


def main(log):
    tried, amiss = collections.Counter(), collections.Counter()
    with open(log, encoding="utf-8") as lines:
        for found in filter(None, map(LINE.match, lines)):
            where = found.group(1, 2)
            tried[where] += int(found.group(3))
            amiss[where] += int(found.group(4))
    kinds = list(dict.fromkeys(kind for _, kind in tried))
    commands = list(dict.fromkeys(command for command, _ in tried))
    print(f"{'':14}" + "".join(f"{kind:>11}" for kind in [*kinds, "all"]))
    for command in commands:
        counts = [(tried[command, kind], amiss[command, kind]) for kind in kinds]
        counts.append(tuple(map(sum, zip(*counts))))
        print(f"{command:14}" + "".join(f"{f'{n}' if not bad else f'{n} ({bad}!)':>11}" for n, bad in counts))
    print(f"{sum(tried.values())} tried, {sum(amiss.values())} amiss")


if __name__ == "__main__":
    main(sys.argv[1])
