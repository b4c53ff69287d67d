#!/usr/bin/python3
"""Checks what `starter-plan check --format json` prints against its published schema.

Usage: check_output_schema.py PROGRAM
Every plan of the tests and lessons is checked alone, and all of them once in an array; plans that
cannot be used give the error form. Also held: the order of keys, numbers of six significant digits,
low ≤ value ≤ high, an exit code that agrees with what was printed, and patches that apply.
"""

import json
import subprocess
import sys
from pathlib import Path

import jsonschema

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = ROOT / "engine" / "output" / "check.schema.json"
FINDING_KEYS = ["rule", "severity", "certainty", "where", "says", "why", "numbers", "fix", "sources",
                "lesson", "accepted"]
PLAN_KEYS = ["plan", "title", "verdict", "assumed", "findings", "measures"]
MEASURE_KEYS = ["name", "of", "value", "low", "high", "unit", "how"]


def run(program, *arguments):
    done = subprocess.run([program, "check", "--format", "json", *map(str, arguments)],
                          capture_output=True, check=False, timeout=120)
    return done.returncode, done.stdout, done.stderr


def exit_code_of(document):
    if "errors" in document:
        return 2
    return int(any(f["severity"] != "note" for f in document["findings"]))


def measure_faults(measure):
    if list(measure) != MEASURE_KEYS:
        yield f"keys of a measure: {list(measure)}"
    for key in ("value", "low", "high"):
        if float(f"{measure[key]:.6g}") != measure[key]:
            yield f"{measure['name']} {key} {measure[key]!r} has more than six digits"
    if not measure["low"] <= measure["value"] <= measure["high"]:
        yield f"{measure['name']}: not low ≤ value ≤ high"


def order_faults(document):
    """Faults of a judged plan that the schema cannot see."""
    if list(document)[:len(PLAN_KEYS)] != PLAN_KEYS:
        yield f"keys of the plan: {list(document)}"
    rank = {"danger": 0, "spoils": 1, "weakens": 2, "note": 3}
    ranks = [rank[f["severity"]] for f in document["findings"]]
    if ranks != sorted(ranks):
        yield "findings are not worst first"
    for finding in document["findings"]:
        if list(finding)[:len(FINDING_KEYS)] != FINDING_KEYS:
            yield f"keys of a finding: {list(finding)}"
        for measure in finding["numbers"]:
            yield from measure_faults(measure)
    for measure in document["measures"]:
        yield from measure_faults(measure)


def main():
    program = sys.argv[1]
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    plans = sorted((ROOT / "tests" / "plans").rglob("*.plan.json"))
    plans += sorted((ROOT / "lessons").rglob("*.plan.json"))
    plans += [p for p in sorted((ROOT / "lessons").rglob("*.json"))
              if p.name in ("plan.json", "mended.json")]
    faults = []
    alone = []
    for plan in plans:
        code, out, err = run(program, plan)
        name = plan.relative_to(ROOT)
        try:
            document = json.loads(out)
        except ValueError as fault:
            faults.append(f"{name}: not JSON: {fault}")
            continue
        alone.append(document)
        faults += [f"{name}: /{'/'.join(map(str, e.absolute_path))}: {e.message[:200]}"
                   for e in validator.iter_errors(document)]
        if code != exit_code_of(document):
            faults.append(f"{name}: exit code {code}")
        if err:
            faults.append(f"{name}: standard error is not empty")
        if "errors" not in document:
            faults += [f"{name}: {fault}" for fault in order_faults(document)]
    code, out, _ = run(program, *plans)
    together = json.loads(out)
    faults += [f"array: {e.message[:200]}" for e in validator.iter_errors(together)]
    if together != alone:
        faults.append("plans in an array are not what they are alone")
    if code != max(map(exit_code_of, alone)):
        faults.append(f"array: exit code {code}")
    if len(plans) < 10 or not any("errors" in d for d in alone):
        faults.append("too few plans to check")
    for fault in faults:
        print(fault)
    print(f"{len(plans)} plans, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
