"""Makes RESULTS.md from the tallies that the check programs leave.

    /usr/bin/python3 page.py TALLIES               prints the page
    /usr/bin/python3 page.py TALLIES --compare     only sees whether RESULTS.md is that page
"""

import re
import sys
from itertools import zip_longest
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

A tolerance is, where the source tells one, what its own rounding or stated precision leaves open;
else what the engine's header promises, or what a method of solving loses. The rest are round figures,
small against what a brewer can weigh or read. Where one was set close above what was found, a
sentence above its table says so.

The page is made, not written: `bash reference-checks/run --write` builds the checks, runs them, and
writes what they found. `tests/run` fails when the page is not what they find. Which check catches a
wrong formula stands in [MUTANTS.md](MUTANTS.md).
"""

NOTES = {
    "extract": "The table is held to 0.02 °P. That is 0.08 g/L of density; where another table is "
               "printed to a tenth of a gram, its rounding comes on top. For syrups of more than "
               "30 °P the two authorities themselves part by 0.03 °P; there the tolerance is only "
               "what agreement was found, rounded up.",
    "water": "The formula of specific heat is the published one for foods; below 20 °C it runs low, "
             "by 1 % at 0 °C. Both tolerances are what its header states. A chill is reckoned with "
             "the value halfway between hot and cold, so it matters only in the refrigerator, where "
             "the time constant is known to a fifth. Llano's term is the engine's own source: that "
             "row shows that it is carried right, and its tolerance is what the water in it, a "
             "round 4184, allows; the calorimetry below is independent.",
    "lethality": "The trade's two figures for a minute of boiling rest on remembered boiling points: "
                 "their tolerance of 10 % is what 0.3 K makes, not a rounding.",
    "glass": "Expansion of soda-lime glass is told in one digit, 9 × 10⁻⁶/K, for it differs from "
             "works to works; half of that digit is the tolerance.",
    "cooling": "Films: the tolerance asks only that the same correlation, with water by other "
               "formulas, is solved alike. How well it fits a flask in a tub is another matter; the "
               "program reckons with about a third either way (`conductance_spread`).",
    "growth": "What is grown on a stir plate is told by its source as 2.33 − 0.67 r, which neither "
              "ends at 3.5 nor meets its own plateau at 1.4; the engine takes (7 − 2r)/3, which does "
              "both. Half a hundredth in each number leaves 0.005 (1 + r) billion a gram open, and "
              "*worst* is the part of that which is used. That is the precision of the line as it is "
              "told, not of the experiments behind it, which are known to a quarter at best "
              "(`growth_yield`). The time course is from memory, and scipy shows only that it is "
              "integrated right.",
    "yeast": "Balling's line for real extract lies 0.10 to 0.19 °P below the means of all five sets, "
             "always to the same side, and their real extract is itself calculated by the paper. Its "
             "tolerance is not the source's precision: it was set from what the line is used for, a "
             "starter of a tenth of the batch, where 0.2 °P is 0.02 °P in the beer, and with the "
             "figure known.",
    "practice": "“Near 35 °C” and the like are met within 1 K because that is what *near* is taken "
                "to mean here; no source says so.",
    "plans": "Six plans, each derived line by line in a text beside it: "
             "[meadow-pale](plans/meadow-pale.md), [quarry-lager](plans/quarry-lager.md), "
             "[summit-bitter](plans/summit-bitter.md), [ridge-lager](plans/ridge-lager.md), "
             "[plateau-porter](plans/plateau-porter.md), [harbour-lager](plans/harbour-lager.md). "
             "Every measure that the program has of a plan is in its table with a tolerance of its "
             "own, mostly 0.05 to 0.5 %, of which *worst* is the part used.",
    "ranges": "The unknowns of each plan are drawn 10,000 times and carried through the science: "
              "normal distributions with 95 % between low and high, cut off at one and a half times "
              "that, one case in 300 (ranges_check.cpp says how and why). At least 95 % of a "
              "measure's outcomes are to "
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
    for new, old in zip_longest(made.splitlines(), kept.splitlines()):
        if new != old:
            print(f"found: {new}\nkept:  {old}")
    sys.exit("RESULTS.md is not what the checks find now; bash reference-checks/run --write")


main()
