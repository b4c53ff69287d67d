#!/usr/bin/python3
"""The published JSON Schema of plans against the corpus that the reader is tested with.

Every good plan must pass the schema and every bad one must fail it, except those listed below, which
a schema cannot judge. A listed plan that fails all the same is reported too, so the list stays true.
"""

import json
import pathlib
import sys

from jsonschema import Draft202012Validator

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
PLANS = HERE.parent / "plans"

# What a schema sees is the parsed document: neither its bytes, nor numbers inside texts, nor names
# that must be declared elsewhere.
PARSED_AWAY = "Python's JSON reader lets it pass or merges it before a schema sees the document"
NUMBER_IN_TEXT = "a pattern sees digits, not how large the quantity is"
NAMES = "a schema cannot look up a name that is declared elsewhere in the document"
CALENDAR = "a pattern cannot count the days of a month"

BEYOND_A_SCHEMA = {
    "duplicate-name": PARSED_AWAY,
    "huge-volume": NUMBER_IN_TEXT,
    "huge-mass": NUMBER_IN_TEXT,
    "below-absolute-zero": NUMBER_IN_TEXT,
    "too-hot": NUMBER_IN_TEXT,
    "too-high": NUMBER_IN_TEXT,
    "heavy-gravity": NUMBER_IN_TEXT,
    "heavy-plato": NUMBER_IN_TEXT,
    "share-over-hundred": NUMBER_IN_TEXT,
    "too-many-cells": NUMBER_IN_TEXT,
    "over-ten-years": NUMBER_IN_TEXT,
    "undeclared-vessel": NAMES,
    "undeclared-tub": NAMES,
    "undeclared-stage-vessel": NAMES,
    "move-to-undeclared": NAMES,
    "two-possible-vessels": NAMES,
    "only-a-tub": NAMES,
    "stage-out-of-range": "a schema cannot count the stages that a step may name",
    "duplicate-step-id": "a schema cannot compare a value with another step's",
    "no-such-day": CALENDAR,
}


def document(path):
    """The parsed plan, or None when it is no JSON text by RFC 8259."""

    def refuse(word):
        raise ValueError(word)

    try:
        text = path.read_bytes().decode("utf-8-sig")
        return json.loads(text, parse_constant=refuse)
    except (ValueError, RecursionError):
        return None


def main():
    schema = json.loads((ROOT / "engine/plan/plan.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    wrong = []
    judged = 0

    for path in sorted(PLANS.glob("good/*.json")) + sorted(PLANS.glob("*.plan.json")):
        judged += 1
        for error in validator.iter_errors(document(path)):
            wrong.append(f"{path.name}: is good, but /{'/'.join(map(str, error.path))}: "
                         f"{error.message[:200]}")

    names = set()
    for path in sorted(PLANS.glob("bad/*.json")):
        judged += 1
        name = path.name.replace(".plan.json", "")
        names.add(name)
        parsed = document(path)
        fails = parsed is None or not validator.is_valid(parsed)
        if name in BEYOND_A_SCHEMA and fails:
            wrong.append(f"{path.name}: is listed as beyond a schema, but the schema refuses it")
        if name not in BEYOND_A_SCHEMA and not fails:
            wrong.append(f"{path.name}: is bad, but the schema lets it pass")

    for name in sorted(set(BEYOND_A_SCHEMA) - names):
        wrong.append(f"{name}: is listed as beyond a schema, but there is no such plan")
    if judged < 80:
        wrong.append(f"only {judged} plans were found")

    for line in wrong:
        print(line, file=sys.stderr)
    print(f"{judged} plans judged, {len(wrong)} disagreements")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
