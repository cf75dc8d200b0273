# SPDX-License-Identifier: MIT
"""The program under test, run on one book."""
import json
import subprocess


class Program:
    def __init__(self, path, as_of, has_faults=False):
        self.path, self.as_of, self.good = path, as_of, (0, 1, 2) if has_faults else (0, 1)

    def run(self, *words):
        """Standard output of a command that must end with status 0 or 1; of a book with faults also with 2."""
        run = subprocess.run([self.path, *map(str, words)], capture_output=True, check=False)
        if run.returncode not in self.good:
            said = run.stderr.decode("utf-8", "replace")[:2000]
            raise RuntimeError(f"status {run.returncode} of {' '.join(map(str, words))}\n{said}")
        return run.stdout

    def screen(self, book, *options, form="json", threads=1):
        return self.run("screen", book, "--as-of", self.as_of, "--format", form, "--threads", threads, *options)

    def screened(self, book, *options):
        return json.loads(self.screen(book, *options))
