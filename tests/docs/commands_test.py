# SPDX-License-Identifier: MIT
"""That commands.py finds the commands of a document and sees an output that is not as shown."""
import unittest

from commands import matches, shown_commands

DOCUMENT = """\
$ driftwarden in running text
```sh
$ driftwarden one
a
b
$ driftwarden two; echo $?
2
$ ls
not of ours
```
```sh
bash tests/run.sh
```
```text
$ driftwarden three
```
""".splitlines()


class ShownCommands(unittest.TestCase):
    def test_are_those_of_shell_blocks(self):
        commands = shown_commands(DOCUMENT)
        self.assertEqual([c.command for c in commands], ["driftwarden one", "driftwarden two; echo $?"])
        self.assertEqual([c.printed for c in commands], [["a", "b"], ["2"]])
        self.assertEqual([c.line for c in commands], [2, 5])


class Matching(unittest.TestCase):
    def test_is_exact_without_an_ellipsis(self):
        self.assertTrue(matches(["a", "b"], ["a", "b"]))
        for other in ([], ["a"], ["a", "b", ""], ["a", "b "], ["b", "a"]):
            self.assertFalse(matches(["a", "b"], other), other)

    def test_lets_an_ellipsis_stand_for_any_lines(self):
        for actual in (["a", "z"], ["a", "b", "z"], ["a", "z", "z"]):
            self.assertTrue(matches(["a", "…", "z"], actual), actual)
        for actual in (["a"], ["z"], ["a", "z", "b"], ["b", "a", "z"]):
            self.assertFalse(matches(["a", "…", "z"], actual), actual)

    def test_takes_two_ellipses_in_their_order(self):
        self.assertTrue(matches(["…", "b", "…", "c", "…"], ["a", "b", "b", "c", "d"]))
        self.assertFalse(matches(["…", "c", "…", "b"], ["b", "c"]))


if __name__ == "__main__":
    unittest.main()
