# SPDX-License-Identifier: MIT
"""Screens the parts of a split book on the workers of a Dask cluster: parts_dask.py PROGRAM PARTS OUT

Here the cluster is two processes of this machine; with Client("tcp://scheduler:8786") it is any other, where every
worker sees the folders and has the program.
"""
import pathlib
import subprocess
import sys

from distributed import Client, LocalCluster


def screen(program, part, result):
    """Status 1 says that something is void or undecided: that is a result too."""
    command = [program, "screen", part, "--as-of", "2026-11-16", "--threads", "1", "--format", "csv", "--out", result]
    return subprocess.run(command, stderr=subprocess.DEVNULL).returncode


def main():
    program, parts, out = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
    names = sorted(part.name for part in parts.glob("part-*"))
    with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster, Client(cluster) as client:
        tasks = [client.submit(screen, program, str(parts / name), str(out / f"{name}.csv")) for name in names]
        statuses = client.gather(tasks)
    sys.exit(0 if set(statuses) <= {0, 1} else 1)


if __name__ == "__main__":
    main()
