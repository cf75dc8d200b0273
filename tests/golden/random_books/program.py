# SPDX-License-Identifier: MIT
"""The program under test, run on one book."""
import json
import subprocess


class Program:
    def __init__(self, path, as_of):
        self.path, self.as_of = path, as_of

    def run(self, *words):
        """Standard output of a command that must end with status 0 or 1."""
        run = subprocess.run([self.path, *map(str, words)], capture_output=True, check=False)
        if run.returncode not in (0, 1):
            said = run.stderr.decode("utf-8", "replace")[:2000]
            raise RuntimeError(f"status {run.returncode} of {' '.join(map(str, words))}\n{said}")
        return run.stdout

    def screen(self, book, *options, form="json", threads=1):
        return self.run("screen", book, "--as-of", self.as_of, "--format", form, "--threads", threads, *options)

    def screened(self, book, *options):
        return json.loads(self.screen(book, *options))
