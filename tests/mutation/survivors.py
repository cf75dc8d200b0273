# SPDX-License-Identifier: MIT
"""Reads survivors.txt: source, its lines that bear a fault, the faults, and why; each a step further to the right."""


def read_survivors(path):
    """(source, line, fault) -> "equivalent" or "left"."""
    known, above, waiting = {}, ["", ""], []
    with open(path, encoding="utf-8") as file:
        for number, line in enumerate(file, 1):
            text, depth = line.strip(), (len(line) - len(line.lstrip(" "))) // 2
            if not text or text.startswith("#"):
                continue
            if depth < 2:
                above[depth] = text
            elif depth == 2:
                waiting.append((*above, text))
            else:
                word, _, why = text.partition(": ")
                if word in ("equivalent", "left") and why:
                    known.update({place: word for place in waiting})
                    waiting = []
                elif waiting or word in ("equivalent", "left"):
                    raise SystemExit(f"{path}:{number}: neither 'equivalent: why' nor 'left: why'")
    if waiting:
        raise SystemExit(f"{path}: no reason for {waiting[0]}")
    return known
