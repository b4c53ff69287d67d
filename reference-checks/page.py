"""Makes RESULTS.md from the tallies that the check programs leave.

    /usr/bin/python3 page.py TALLIES               prints the page
    /usr/bin/python3 page.py TALLIES --compare     only sees whether RESULTS.md is that page
"""

import re
import sys
from pathlib import Path

HERE = Path(__file__).parent
SUBJECTS = {
    "quantity": "Units",
    "extract": "Extract and gravity",
    "water": "Water and specific heat",
    "atmosphere": "Air pressure",
    "boiling": "Boiling",
    "lethality": "What heat kills",
    "glass": "Glass",
    "cooling": "Chilling and cooling",
    "growth": "Growth of yeast",
    "settling": "Settling, vessels, slurry",
    "yeast": "Demand, supply, dilution",
    "practice": "What the trade expects",
    "plans": "Whole plans",
    "ranges": "Ranges",
}
DIFFERENCE, SHARE, SPAN, AT_LEAST, AT_MOST = map(str, range(5))

HEAD = """# How far the numbers are from an authority

Every number that `starter-plan` tells comes out of the formulas in `engine/science`. This page holds
them against the outside world: other programs, published tables, conservation laws, whole plans
worked by hand. One row is one comparison over some points. *Worst* is the largest difference found;
beyond *tolerance* the check fails, and with it `tests/run`. No formula was fitted to these checks.

The label says what stands behind the reference, not how good it is:

- **published** – a source that can be looked up, or another program that carries it;
- **practice** – common practice of the trade, no source;
- **memory** – a source is named, but its figures are from memory and were not confirmed;
- **identity** – arithmetic or a conservation law, which needs no source.

An agreement under *practice* or *memory* shows that the program does what it says, not that nature
does the same. What has no better authority is listed at the end.

The page is made, not written: `bash reference-checks/run --write` builds the checks, runs them, and
writes what they found. `tests/run` fails when the page is not what they find. Which check catches a
wrong formula stands in [MUTANTS.md](MUTANTS.md).
"""

NOTES = {
    "plans": "Six plans, each derived line by line in a text beside it: "
             "[meadow-pale](plans/meadow-pale.md), [quarry-lager](plans/quarry-lager.md), "
             "[summit-bitter](plans/summit-bitter.md), [ridge-lager](plans/ridge-lager.md), "
             "[plateau-porter](plans/plateau-porter.md), [harbour-lager](plans/harbour-lager.md). "
             "Every measure that the program has of a plan is in its table with a tolerance of its "
             "own, mostly 0.05 to 0.5 %, of which *worst* is the part used.",
    "ranges": "The unknowns of each plan are drawn 10,000 times and carried through the science; how "
              "is said at the head of ranges_check.cpp. At least 95 % of a measure's outcomes are to "
              "lie inside its low..high, and low..high is to be no wider than twice the span of 99 % "
              "of the outcomes. Points are the measures that have a range. This tests how spans are "
              "put together, not the spans themselves: those are practice.",
}


def number(text, digits=2):
    x = float(text)
    shown = f"{x:.{digits}g}"
    if "e" not in shown:
        return shown
    base, power = shown.split("e")
    return f"{base} × 10^{int(power)}".replace("^-", "^−")


def with_unit(text, unit):
    return f"{text} {unit}".strip()


def worst_and_tolerance(worst, kind, tolerance, unit):
    if kind == SPAN:
        return "inside", "inside the span"
    if kind in (AT_LEAST, AT_MOST):
        shown = f"{float(worst):.2f}" if float(worst) < 10 else f"{float(worst):.1f}"
        bound = "at least" if kind == AT_LEAST else "at most"
        return with_unit(shown, unit), with_unit(f"{bound} {float(tolerance):g}", unit)
    if kind == SHARE:
        worst, tolerance, unit = 100 * float(worst), 100 * float(tolerance), "%"
    else:
        worst, tolerance = float(worst), float(tolerance)
    if tolerance == 0:
        return ("none" if worst == 0 else with_unit(number(worst), unit)), "none"
    # Far below the tolerance only the rounding of compilers and solvers shows.
    shown = ("under " + number(tolerance / 1000) if worst < tolerance / 1000 else number(worst))
    return with_unit(shown, unit), with_unit(number(tolerance), unit)


def table(folder, subject):
    path = folder / f"{subject}.tsv"
    if not path.exists():
        sys.exit(f"no tally of {subject} in {folder}: run its check first")
    yield f"## {SUBJECTS[subject]}"
    yield ""
    if subject in NOTES:
        yield NOTES[subject]
        yield ""
    yield "| compared | source | label | points | worst | tolerance |"
    yield "|---|---|---|---|---|---|"
    rows = [line.split("\t") for line in path.read_text().splitlines()]
    rows.sort(key=lambda row: int(row[0]))
    for _, _, what, source, label, points, worst, kind, tolerance, unit in rows:
        worst, tolerance = worst_and_tolerance(worst, kind, tolerance, unit)
        yield f"| {what} | {source} | {label} | {points} | {worst} | {tolerance} |"
    yield ""


def constants():
    """Coefficients whose own comment says that they are practice or from memory."""
    for header in sorted((HERE.parent / "engine/science").glob("*.h")):
        comment, group, said, in_group = [], "", "", False
        lines = header.read_text().splitlines()
        for i, line in enumerate(lines):
            text = line.strip()
            if text.startswith("///"):
                comment.append(text[3:].strip())
                if text == "/// @{":
                    in_group, group, comment = True, " ".join(comment), []
                elif text == "/// @}":
                    in_group, comment = False, []
                continue
            found = re.match(r"inline constexpr (\w+) (\w+)", text)
            if found:
                # Several in a row share the comment above the first.
                said = " ".join(comment) or (group if in_group else said)
                whole = text
                while ";" not in whole:
                    i += 1
                    whole += " " + lines[i].strip()
                value = whole[found.end():].split(";")[0].strip().lstrip("=").strip()
                label = ("practice" if "ommon practice, no source" in said else
                         "memory" if re.search("from memory", said, re.I) else "")
                if label:
                    yield f"| {found[2]} | {value.strip('{}')} | {label} | {header.name} |"
            if not text:
                said = ""
            comment = []


def page(folder):
    yield HEAD
    for subject in SUBJECTS:
        yield from table(folder, subject)
    yield "## Where there is no authority"
    yield ""
    yield ("Coefficients that rest on practice or memory alone; their units and reasons stand in the "
           "headers. Three numbers are low, likely and high.")
    yield ""
    yield "| coefficient | value | label | header |"
    yield "|---|---|---|---|"
    yield from constants()
    yield ""
    yield ("The living share of old yeast, what a stirred, shaken or still starter grows and how long "
           "it takes, how yeast clumps and what decanting keeps have no published law that fits a "
           "kitchen. There the program tells a range, and asks for the member's own count.")


def main():
    made = "\n".join(page(Path(sys.argv[1]))) + "\n"
    if "--compare" not in sys.argv:
        sys.stdout.write(made)
        return
    kept = (HERE / "RESULTS.md").read_text() if (HERE / "RESULTS.md").exists() else ""
    if made == kept:
        return
    for new, old in zip(made.splitlines(), kept.splitlines()):
        if new != old:
            print(f"found: {new}\nkept:  {old}")
    sys.exit("RESULTS.md is not what the checks find now; bash reference-checks/run --write")


main()
