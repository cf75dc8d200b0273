# SPDX-License-Identifier: MIT
"""no_network.py PROGRAM BOOK: every command under strace, and gnuplot and the browser replaced by what tells how it was started.

Every command that the help names runs once. None may open a socket of the internet, its own machine's included, nor
start a program but gnuplot, which starts none. What is started finds no file in its home, no variable of the user's and no
network interface but its own machine's, which is down. Exit status 77 where nothing can be traced.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

AS_OF = ["--as-of", "2026-11-16"]
CALLS = "execve,execveat,socket,connect,bind,listen,accept,accept4,sendto,sendmsg"
INTERNET = re.compile(r"\((?:\d+, )?\{?(?:sa_family=)?(AF_INET6?|AF_PACKET)\b|sa_family=AF_INET6?|^\d+ +socket\(AF_(?!UNIX)")
STARTED = re.compile(r'^\d+ +execve(?:at)?\((?:AT_FDCWD, )?"([^"]*)".* = 0$')
ALLOWED = {"PATH", "LD_LIBRARY_PATH", "HOME", "TMPDIR", "LC_ALL", "TZ", "DBUS_SESSION_BUS_ADDRESS"}
MADE_BY_THE_SHELL = {"PWD", "OLDPWD", "SHLVL", "_"}
WITNESS = """#!/bin/sh
{ env | sed 's/=.*//; s/^/variable /'; ls -A "$HOME" | sed 's/^/in-home /'; echo "home $HOME"
  sed -n 's/^ *\\([a-z0-9]*\\):.*/interface \\1/p' /proc/net/dev; cat /proc/net/route | sed 1d | sed 's/^/route /'; } >"%s"
exit 3
"""


def commands(book, scratch):
    """Words by command, in an order in which each finds what it needs."""
    rows = scratch / "rows.csv"
    rows.write_text("sample,kind,batch,started\nTF46B-B9,blank,TF46B,\n", "utf-8")
    return {
        "new": ["new", scratch / "new"],
        "check": ["check", book],
        "screen": ["screen", book, *AS_OF, "--threads", "3"],
        "explain": ["explain", book, "TF46B-1", *AS_OF],
        "actions": ["actions", scratch / "book", "PUMP-03", "--who", "site hygienist", "--by", "site hygienist",
                    *AS_OF],
        "decide": ["decide", scratch / "book", "TF46B-1", "common-practice/drift", "overrule", "--by", "site hygienist",
                   "--reason", "As planned."],
        "custody": ["custody", book, "--batch", "TF46B", *AS_OF],
        "kit": ["kit", book, "--kit", "K-2", *AS_OF],
        "ahead": ["ahead", book, "--sampler", "respirable-parallel-impactor", "--minutes", "8 h", "--pump", "PUMP-09", *AS_OF],
        "sheet": ["sheet", book, "--batch", "TF46B", *AS_OF, "--out", scratch / "sheet.html"],
        "labels": ["labels", book, "--batch", "TF46B", *AS_OF, "--out", scratch / "labels.html"],
        "form": ["form", book, "--batch", "TF46B", *AS_OF, "--out", scratch / "form.html"],
        "receive": ["receive", scratch / "book", rows, "--by", "instrument keeper"],
        "letter": ["letter", book, "--batch", "TF46B", *AS_OF, "--out", scratch / "letter.html"],
        "compare": ["compare", book, *AS_OF, "--rules", "common-practice"],
        "risk": ["risk", book, *AS_OF],
        "history": ["history", book, "PUMP-07", *AS_OF, "--out", scratch / "history"],
        "split": ["split", book, "--parts", "2", "--out", scratch / "parts"],
        "join": ["join", scratch / "parts" / "order", scratch / "1.csv", scratch / "2.csv"],
        "lookback": ["lookback", book, "ROT-2", *AS_OF],
        "review": ["review", book, *AS_OF, "--out", scratch / "review.html"],
        "evidence": ["evidence", book, "--batch", "TF46B", *AS_OF, "--out", scratch / "bag"],
        "verify": ["verify", scratch / "bag"],
        "page": ["page", "--out", scratch / "page.html"],
        "rules": ["rules", "list"],
    }


def commands_of_the_help(program):
    text = subprocess.run([program, "--help"], check=True, capture_output=True, text=True).stdout
    return re.findall(r"^  ([a-z]+) {2,}\S", text.split("Subcommands:")[1].split("\n\n")[0], re.M)


def traced(program, words, trace):
    return subprocess.run(["strace", "-f", "-qq", "-s", "300", "-e", f"trace={CALLS}", "-e", "signal=none", "-o", trace,
                           program, *map(str, words)], check=False, stdin=subprocess.DEVNULL, capture_output=True)


def amiss_in(name, trace, program):
    lines = trace.read_text(errors="replace").splitlines()
    faults = [f"{name}: asks for the network: {line}" for line in lines if INTERNET.search(line)]
    started = [found.group(1) for found in filter(None, map(STARTED.match, lines))]
    others = [path for path in started if path != program and pathlib.Path(path).name != "gnuplot"]
    return faults + [f"{name}: starts {path}" for path in others], started


def run_all(program, book, scratch):
    shutil.copytree(book, scratch / "book")
    words = commands(book, scratch)
    named = commands_of_the_help(program)
    faults = [f"the command {name} is in the help and not tried" for name in named if name not in words]
    if len(named) < len(words) // 2:
        faults.append(f"only {named} were found in the help: this has shown nothing of the others")
    drew = set()
    for name, said in words.items():
        if name == "join":  # what it joins
            for n in (1, 2):
                subprocess.run([program, "screen", scratch / "parts" / f"part-{n}", *AS_OF, "--format", "csv", "--out",
                                scratch / f"{n}.csv"], check=False, capture_output=True)
        done = traced(program, said, scratch / f"{name}.trace")
        is_lacking = name == "page" and b"[page/not-there]" in done.stderr  # it is built apart
        if done.returncode not in (0, 1) and not is_lacking:
            faults.append(f"{name}: status {done.returncode}: {done.stderr.decode()[-400:]}")
        found, started = amiss_in(name, scratch / f"{name}.trace", program)
        faults += found
        if any(pathlib.Path(path).name == "gnuplot" for path in started):
            drew.add(name)
    if not {"history", "review", "evidence", "verify"} <= drew:
        faults.append(f"only {sorted(drew)} drew anything: this test has shown nothing of gnuplot")
    print(f"{len(words)} commands traced, gnuplot started by {', '.join(sorted(drew))}")
    return faults


def witnessed(name, program, words, scratch):
    """What is amiss with how a program of that name is started."""
    folder, told = scratch / f"{name}-bin", scratch / f"{name}.told"
    folder.mkdir()
    (folder / name).write_text(WITNESS % told)
    (folder / name).chmod(0o755)
    home = scratch / "home"
    home.mkdir(exist_ok=True)
    (home / "private").write_text("")
    environment = {**os.environ, "PATH": f"{folder}:{os.environ['PATH']}", "HOME": str(home), "SECRET_OF_THE_USER": "1"}
    subprocess.run([program, *map(str, words)], check=False, env=environment, capture_output=True)
    if not told.exists():
        return [f"{name} was not started"]
    lines = [line.split(" ", 1) for line in told.read_text().splitlines()]
    found = {about: {what for a, what in lines if a == about} for about in ("variable", "in-home", "home", "interface", "route")}
    faults = [f"{name} is given {v}" for v in found["variable"] - ALLOWED - MADE_BY_THE_SHELL]
    faults += [f"{name} finds {v} in its home" for v in found["in-home"]]
    faults += [f"{name} has the user's home"] if str(home) in found["home"] else []
    faults += [f"{name} has the network {v}" for v in (found["interface"] - {"lo"}) | found["route"]]
    print(f"{name}: home empty, {', '.join(sorted(found['interface']))} and no route, {len(found['variable'])} variables")
    return faults


def can_trace():
    try:
        return subprocess.run(["strace", "-o", "/dev/null", "true"], check=False, capture_output=True).returncode == 0
    except FileNotFoundError:
        return False


def can_leave_network():
    return subprocess.run(["unshare", "-n", "true"], check=False, capture_output=True).returncode == 0 or \
        subprocess.run(["unshare", "-rn", "true"], check=False, capture_output=True).returncode == 0


def skipped_unless(faults, sound=77):
    print("\n".join(f"FAILED: {fault}" for fault in faults))
    return 1 if faults else sound


def main(program, book):
    if not can_trace():
        print("skipped: nothing can be traced here (strace is missing, or not allowed)")
        return 77
    with tempfile.TemporaryDirectory() as name:
        scratch = pathlib.Path(name)
        faults = run_all(program, book, scratch)
        if can_leave_network():
            faults += witnessed("gnuplot", program, ["history", book, "PUMP-07", *AS_OF, "--out", scratch / "h2"], scratch)
            faults += witnessed("chromium", program, ["review", book, *AS_OF, "--format", "pdf", "--out", scratch / "r.pdf"], scratch)
        else:
            print("skipped in part: networks of their own, which this system lets no process have, were not seen")
            return skipped_unless(faults)
    return skipped_unless(faults, 0)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
