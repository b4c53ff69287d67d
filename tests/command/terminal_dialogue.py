#!/usr/bin/python3
"""Answers `new` on a pseudo-terminal, as a person would.

Usage: terminal_dialogue.py PROGRAM
Holds that a wrong answer is told and asked again, that an empty line takes what is usual, that the
plan and the text beside it are written and check clean, that a file in the way is asked about
again, and that an end of input or an interrupt writes nothing.
"""

import json
import os
import pty
import select
import subprocess
import sys
import tempfile
import time

PROMPT = "> "


class Dialogue:
    """The program at the other end of a terminal."""

    def __init__(self, program, folder, *arguments):
        self.child, self.terminal = pty.fork()
        if self.child == 0:
            os.chdir(folder)
            os.environ.update(TERM="dumb")
            os.execv(program, [program, "new", *arguments])
        self.shown = ""

    def read(self, until, seconds=60):
        """What is shown up to `until`; all of it when the program ends first."""
        end = time.monotonic() + seconds
        seen = ""
        while time.monotonic() < end:
            if not select.select([self.terminal], [], [], 0.2)[0]:
                continue
            try:
                piece = os.read(self.terminal, 4096).decode("utf-8", "replace")
            except OSError:
                break
            if not piece:
                break
            seen += piece.replace("\r", "")
            if until and seen.endswith(until):
                break
        else:
            raise TimeoutError(f"no {until!r} after: {seen[-300:]}")
        self.shown += seen
        return seen

    def answer(self, text):
        """Types a line and waits for the next question, or for the end."""
        os.write(self.terminal, (text + "\n").encode())
        return self.read(PROMPT)

    def end(self):
        self.read(None)
        _, status = os.waitpid(self.child, 0)
        os.close(self.terminal)
        return os.waitstatus_to_exitcode(status)


def expect(condition, what):
    if not condition:
        raise AssertionError(what)


def whole_dialogue(program, folder):
    # The usual name is taken already.
    taken = os.path.join(folder, "plum-porter.plan.txt")
    with open(taken, "w", encoding="utf-8") as file:
        file.write("mine\n")
    talk = Dialogue(program, folder)
    expect("What do you call" in talk.read(PROMPT), "the first question")
    talk.answer("Plum porter")
    talk.answer("")  # who
    expect("Did you mean" in (said := talk.answer("aile")) or "ale" in said, f"a wrong word: {said}")
    expect("How much beer" in talk.answer("ale"), "asked again, then on")
    said = talk.answer("20")
    expect("20 L" in said and "How much beer" in said, f"a bare number is asked again: {said}")
    talk.answer("20 L")
    said = talk.answer("")
    expect("is needed" in said and "How strong" in said, f"what is needed is asked again: {said}")
    talk.answer("1.050 SG")
    expect("On which day" in talk.answer("10.4.2027"), "a day in another order is asked again")
    talk.answer("2027-04-10")
    talk.answer("")  # liquid
    talk.answer("1")
    talk.answer("2027-03-20")
    talk.answer("")  # nothing to keep
    for _ in range(3):
        talk.answer("")  # the place
    talk.answer("")  # gas
    talk.answer("")  # conical flask
    talk.answer("5 L")
    talk.answer("20 L")
    said = talk.answer("stir plate")
    expect("Which file" in said and "[plum-porter.plan.json]" in said, f"the file: {said}")
    said = talk.answer("")
    expect("is there already" in said, f"a file in the way: {said}")
    os.write(talk.terminal, b"other.plan.json\n")
    code = talk.end()
    expect(code == 0, f"ends with {code}: {talk.shown[-600:]}")
    with open(taken, encoding="utf-8") as file:
        expect(file.read() == "mine\n", "a file that was there is written over")
    plan = os.path.join(folder, "other.plan.json")
    with open(plan, encoding="utf-8") as file:
        written = json.load(file)
    expect(written["title"] == "Plum porter", written)
    expect(written["beer"]["brew_day"] == "2027-04-10", written["beer"])
    with open(os.path.join(folder, "other.plan.txt"), encoding="utf-8") as file:
        expect("Plum porter" in file.read(), "the notes")
    expect(subprocess.run([program, "check", plan], capture_output=True, check=False).returncode == 0,
           "the plan does not check clean")


def stopped(program, folder):
    for keys in (b"\x04", b"\x03"):
        before = sorted(os.listdir(folder))
        talk = Dialogue(program, folder, "-o", "never.plan.json")
        talk.read(PROMPT)
        os.write(talk.terminal, keys)
        code = talk.end()
        expect(code != 0, f"{keys!r} ends with {code}")
        expect(sorted(os.listdir(folder)) == before, f"{keys!r} leaves something behind")


def nothing_to_ask(program, folder):
    """With all that is needed given, nobody is asked."""
    talk = Dialogue(program, folder, "--volume", "20 L", "--gravity", "1.050 SG", "--brew-day",
                    "2027-04-10", "--flask", "5 L", "--agitation", "stir plate", "-o", "given.plan.json")
    code = talk.end()
    expect(code == 0 and "is written" in talk.shown, f"ends with {code}: {talk.shown[-400:]}")
    expect(PROMPT not in talk.shown, "somebody is asked")


def main():
    program = os.path.abspath(sys.argv[1])
    for part in (whole_dialogue, stopped, nothing_to_ask):
        with tempfile.TemporaryDirectory() as folder:
            part(program, folder)
    print("3 dialogues as they should be")
    return 0


if __name__ == "__main__":
    sys.exit(main())
