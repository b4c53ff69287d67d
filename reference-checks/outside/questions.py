"""Rows of numbers on standard input; one row of numbers out for each."""

import sys


def answer(function):
    for line in sys.stdin:
        if line.strip():
            print(*(repr(float(n)) for n in function(*map(float, line.split()))))
