# SPDX-License-Identifier: MIT
"""evidence_killed.py PROGRAM BOOK TIMES: kills `evidence` at random instants, and fills its disk.

After each, either the whole package is there under its name, or nothing is; what is left beside it is named as
unfinished after a kill, and gone after an error. Prints a line for what is amiss; the exit status is 0 when nothing is.
"""
import os
import pathlib
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time

SILENT = {"stdin": subprocess.DEVNULL, "stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}


def command(program, book, out):
    return [program, "evidence", book, "--as-of", "2026-11-16", "--threads", "1", "--out", str(out)]


def is_whole(program, bag):
    return subprocess.run([program, "verify", str(bag)], check=False, **SILENT).returncode == 0


def killed(program, book, scratch, times):
    """Faults told, after so many kills."""
    begun = time.monotonic()
    subprocess.run(command(program, book, scratch / "first"), check=False, **SILENT)
    lasts = time.monotonic() - begun
    longest = 3 * lasts
    if not is_whole(program, scratch / "first"):
        return ["the package that nobody disturbs is not whole"]
    random.seed(20261116)
    faults, finished, left = [], 0, 0
    for number in range(times):
        out = scratch / str(number)
        process = subprocess.Popen(command(program, book, out), start_new_session=True, **SILENT)
        time.sleep(random.uniform(0, 1.2 * lasts))
        os.killpg(process.pid, signal.SIGKILL)  # gnuplot, too
        process.wait()
        beside = [path.name for path in scratch.iterdir() if path.name.startswith(f"{number}.")]
        left += len(beside)
        if any(".unfinished-" not in name for name in beside):
            faults.append(f"kill {number}: left {beside}")
        if out.exists():
            finished += 1
            if beside:
                faults.append(f"kill {number}: left {beside} beside a finished package")
            if not is_whole(program, out):
                faults.append(f"kill {number}: the package is not whole")
        for path in (out, *(scratch / name for name in beside)):
            shutil.rmtree(path, ignore_errors=True)
        if number % 10 == 9 and finished < number / 10:
            lasts = min(1.3 * lasts, longest)  # the machine has more to do now than when the first was made
    print(f"{times} kills: {finished} packages whole, {left} unfinished folders, {len(faults)} faults")
    if left == 0:
        faults.append("no kill hit a package in the making; this test has shown nothing")
    return faults


def tmpfs(folder, kib):
    return subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={kib}k", "tmpfs", str(folder)], check=False,
                          **SILENT).returncode == 0


def limit_files(most_bytes):
    """No file may grow beyond so many bytes; the signal that tells is ignored, so that writing fails instead."""
    def limit():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, most_bytes))
    return limit


def with_little_room(program, book, folder, prepare):
    """What is amiss after a run that found no room: a text, "" for nothing, None where it found room."""
    done = subprocess.run(command(program, book, folder / "bag"), check=False, preexec_fn=prepare, stdin=subprocess.DEVNULL,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    there = sorted(path.name for path in folder.iterdir())
    if there == ["bag"]:
        return None if is_whole(program, folder / "bag") else "the package is not whole"
    if there or done.returncode != 2 or b"[output/unwritable]" not in done.stdout and b"[plot/" not in done.stdout:
        return f"status {done.returncode}, left {there}, said {done.stdout.decode()!r}"
    return ""


def full_disk(program, book, scratch):
    faults, failed, fitted = [], 0, 0
    has_tmpfs = False
    for kib in (8, 16, 24, 32, 48, 64, 80, 96, 128, 160, 200, 256, 320, 400, 512, 1024, 4096):
        folder = scratch / f"room-{kib}"
        folder.mkdir()
        has_tmpfs = os.geteuid() == 0 and tmpfs(folder, kib)
        try:
            # Without a disk of its own: the largest files are far smaller than all of them together.
            result = with_little_room(program, book, folder, None if has_tmpfs else limit_files(kib * 64))
        finally:
            if has_tmpfs:
                subprocess.run(["umount", str(folder)], check=False, **SILENT)
        failed += result == ""
        fitted += result is None
        if result:
            faults.append(f"{kib} KiB: {result}")
    print(f"{'a small disk' if has_tmpfs else 'small files'}: {failed} runs without room, {fitted} with, {len(faults)} faults")
    if failed == 0 or fitted == 0:
        faults.append("the room was never too small, or always; this test has shown nothing")
    return faults


def main(program, book, times):
    with tempfile.TemporaryDirectory() as name:
        scratch = pathlib.Path(name) / "bags"
        scratch.mkdir()
        os.environ["TMPDIR"] = name  # what a killed program left there goes with it
        faults = killed(program, book, scratch, int(times)) + full_disk(program, book, scratch)
    print("\n".join(f"FAILED: {fault}" for fault in faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
