# SPDX-License-Identifier: MIT
"""A copy of a source with every fault behind its switch."""
from places import BINARY, EXTREME, LOGICAL


class Fault:
    def __init__(self, text, begin, words):
        self.line_number = text.count(b"\n", 0, begin) + 1
        self.column = begin - text.rfind(b"\n", 0, begin)
        self.line = " ".join(text.splitlines()[self.line_number - 1].decode(errors="replace").split())
        self.words = words


class Copy:
    """Numbers the places, outer ones first, and puts a switch around each. Of the declarations that are constexpr, those
    named are plain constants in the copy; in the others nothing is planted."""

    def __init__(self, places, constants, first=1):
        self.text, self.faults = places.text, {}
        self.puts, self.skips = [], []
        for begin in constants:
            end, instead, _ = places.constants[begin]
            self.skips.append((begin, end))
            self.puts.append((begin, 0, 0, instead))
        ordered = sorted(places.found.items(), key=lambda item: (item[0][0], -item[0][1], RANK[item[0][2]]))
        kept = [span for begin, (_, _, span) in places.constants.items() if begin not in constants]
        for (begin, end, kind), what in ordered:
            if any(span[0] <= begin and end <= span[1] for span in kept):
                continue
            number = first + len(self.faults)
            words = PUT[kind](self, number, (begin, end), what)
            self.faults[number] = Fault(self.text, begin, words)

    def shown(self, span):
        return " ".join(self.text[span[0]:span[1]].decode(errors="replace").split())[:90].strip()

    def around(self, span, before, after):
        """Outer switches open first and close last."""
        depth = len(self.puts)
        self.puts.append((span[0], 2, depth, before))
        self.puts.append((span[1], 0, -depth, after))

    def instead(self, begin, end, text):
        self.skips.append((begin, end))
        self.puts.append((begin, 1, len(self.puts), text))

    def binary(self, number, span, parts):
        sign, left_end, right_begin = parts
        name, other = BINARY[sign]
        self.around(span, f"mutation::{name}({number}, ", ")")
        self.instead(left_end, right_begin, ", ")
        return f"{sign} to {other}: {self.shown(span)}"

    def logical(self, number, span, parts):
        sign, left_end, right_begin = parts
        self.around(span, f"mutation::turned({number}, ", ")")
        self.around((span[0], left_end), f"mutation::turned({number}, ", ")")
        self.around((right_begin, span[1]), f"mutation::turned({number}, ", ")")
        return f"{sign} to {LOGICAL[sign]}: {self.shown(span)}"

    def part(self, number, span, sign):
        self.around(span, f"mutation::{'held' if sign == '&&' else 'dropped'}({number}, ", ")")
        return f"no part of {sign}: {self.shown(span)}"

    def figure(self, number, span, _):
        self.around(span, f"mutation::off({number}, ", ")")
        return f"figure off: {self.shown(span)}"

    def turned(self, number, span, _):
        self.around(span, f"mutation::turned({number}, ", ")")
        return f"turned round: {self.shown(span)}"

    def sign(self, number, span, _):
        self.around(span, f"mutation::opposite({number}, ", ")")
        return f"other sign: {self.shown(span)}"

    def extreme(self, number, span, what):
        name, other = EXTREME[what[0]]
        self.skips.append(span)
        self.puts.append((span[0], 2, len(self.puts), f"mutation::{name}({number}, "))
        return f"{what[0]} to {other}: {self.shown(what[1])}"

    def left_out(self, number, span, _):
        self.around(span, f"if (mutation::on({number})) {{}} else ", "")
        return f"left out: {self.shown(span)}"

    def written(self):
        out, at = [], 0
        events = sorted([(put[0], put[1], put[2], put[3]) for put in self.puts] + [(b, 3, 0, e) for b, e in self.skips],
                        key=lambda event: event[:3])
        for where, what, _, value in events:
            if where > at:
                out.append(self.text[at:where])
                at = where
            if what == 3:
                at = max(at, value)
            else:
                out.append(value.encode())
        return b"".join([*out, self.text[at:]])


PUT = {"left out": Copy.left_out, "turned": Copy.turned, "left part": Copy.part, "right part": Copy.part,
       "logical": Copy.logical, "binary": Copy.binary, "extreme": Copy.extreme, "sign": Copy.sign, "figure": Copy.figure}
RANK = {kind: rank for rank, kind in enumerate(PUT)}
