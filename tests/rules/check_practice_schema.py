#!/usr/bin/python3
"""The published JSON Schemas of practice files and of acceptances against the corpus and the program.

Usage: check_practice_schema.py PROGRAM
Every good practice file must pass the schema and be taken by the program; every bad one must be
refused by the program, with a line and what to write, and fail the schema, except those listed below,
which a schema cannot judge. A listed one that fails all the same is reported too, so the list stays
true. What the program itself writes beside a plan must pass the schema of acceptances.
"""

import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import jsonschema

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
PRACTICES = ROOT / "tests" / "practices"
ENGINE = ROOT / "engine"

REGISTERS = "which rules, measures, facts and values there are grows with the program"
NUMBERS = "a schema cannot compare two numbers"
KIND = "what a rule may change depends on the catalogue's rule"
SAFETY = "which rules can tell of danger stands in the catalogue"
PARSED_AWAY = "a JSON reader merges it before a schema sees the document"
IN_TEXT = "a pattern sees digits and braces, not what they mean"

BEYOND_A_SCHEMA = {
    "duplicate-name": PARSED_AWAY,
    "default-too-high": IN_TEXT,
    "unknown-rule": REGISTERS,
    "severity-of-unknown-value": REGISTERS,
    "by-unknown-value": REGISTERS,
    "own-unknown-measure": REGISTERS,
    "own-unknown-fact": REGISTERS,
    "own-unknown-lesson": REGISTERS,
    "own-unknown-value": REGISTERS,
    "own-unknown-yield": REGISTERS,
    "own-unknown-condition": REGISTERS,
    "own-catalogue-id": REGISTERS,
    "own-twice": "a schema cannot compare a value with another's",
    "low-above-high": NUMBERS,
    "comfortable-outside-hard": NUMBERS,
    "hard-inside-comfortable": NUMBERS,
    "bound-never-kept": NUMBERS,
    "own-low-above-high": NUMBERS,
    "own-hard-inside": NUMBERS,
    "gap-above-hard": NUMBERS,
    "hard-milder": "a schema cannot compare two severities",
    "bound-no-number": KIND,
    "no-bound-left": KIND,
    "new-bound-without-message": KIND,
    "by-where-none": KIND,
    "unknown-place": IN_TEXT,
    "message-without-number": IN_TEXT,
    "own-unknown-place": IN_TEXT,
    "own-no-message": "which message is needed depends on the bounds",
    "danger-off": SAFETY,
    "danger-milder": SAFETY,
    "danger-order-milder": SAFETY,
    "danger-range-milder": SAFETY,
    "danger-wider": SAFETY,
    "danger-without-bound": SAFETY,
    "danger-reworded": SAFETY,
}


def validator_of(name):
    schemas = {p.name: json.loads(p.read_text(encoding="utf-8"))
               for folder in ("rules", "plan") for p in (ENGINE / folder).glob("*.schema.json")}
    schema = schemas[name]
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(
        schema, resolver=jsonschema.RefResolver.from_schema(schema, store=schemas))


def document(path):
    try:
        return json.loads(path.read_bytes().decode("utf-8-sig"))
    except ValueError:
        return None


def run(*arguments):
    return subprocess.run([*map(str, arguments)], capture_output=True, text=True, check=False,
                          timeout=120)


def good_faults(program, validator):
    files = sorted(PRACTICES.glob("good/*.json")) + sorted((ROOT / "lessons").rglob("*.practice.json"))
    if len(files) < 12:
        yield "too few good files"
    for path in files:
        for error in validator.iter_errors(document(path)):
            yield (f"{path.name}: is good, but /{'/'.join(map(str, error.path))}: "
                   f"{error.message[:200]}")
        told = run(program, "explain", "--all", "--practice", path)
        if told.returncode != 0:
            yield f"{path.name}: is good, but the program says {told.stderr}"


def bad_faults(program, validator):
    files = sorted(PRACTICES.glob("bad/*.json"))
    names = {p.name.replace(".practice.json", "") for p in files}
    if len(files) < 70:
        yield "too few bad files"
    for path in files:
        name = path.name.replace(".practice.json", "")
        told = run(program, "explain", "--all", "--practice", path)
        if told.returncode != 2 or told.stdout or path.name not in told.stderr:
            yield f"{name}: is bad, but the program says {told.returncode} {told.stderr[:200]}"
        if not re.search(r"line \d+", told.stderr) or "Write" not in told.stderr:
            yield f"{name}: no line, or nothing to write: {told.stderr}"
        parsed = document(path)
        fails = parsed is None or not validator.is_valid(parsed)
        if name in BEYOND_A_SCHEMA and fails:
            yield f"{name}: is listed as beyond a schema, but the schema refuses it"
        if name not in BEYOND_A_SCHEMA and not fails:
            yield f"{name}: is bad, but the schema lets it pass"
    for name in sorted(set(BEYOND_A_SCHEMA) - names):
        yield f"{name}: is listed as beyond a schema, but there is no such file"


def acceptance_faults(program):
    """Accepts everything in a plan, and reads what is kept and what is told then."""
    validator = validator_of("accepted.schema.json")
    with tempfile.TemporaryDirectory() as folder:
        plan = pathlib.Path(folder) / "many.plan.json"
        shutil.copy(ROOT / "tests/plans/faulty/many-at-once.plan.json", plan)
        findings = json.loads(run(program, "check", "--format", "json", plan).stdout)["findings"]
        for finding in findings:
            done = run(program, "accept", plan, finding["rule"], "--at", finding["where"],
                       "--by", "Moss", "--because", "it may", "--on", "2027-03-10")
            if done.returncode != 0:
                yield f"accept {finding['rule']}: {done.stderr}"
        kept = json.loads((pathlib.Path(folder) / "many.accepted.json").read_text(encoding="utf-8"))
        for error in validator.iter_errors(kept):
            yield f"acceptances: {error.message[:200]}"
        if len(kept["findings"]) != len(findings) or len(findings) < 5:
            yield f"{len(kept['findings'])} acceptances of {len(findings)} findings"
        told = run(program, "check", "--format", "json", plan)
        judged = json.loads(told.stdout)
        schema = json.loads((ENGINE / "output/check.schema.json").read_text(encoding="utf-8"))
        for error in jsonschema.Draft202012Validator(schema).iter_errors(judged):
            yield f"check: {error.message[:200]}"
        dangers = [f for f in judged["findings"] if f["severity"] == "danger"]
        if any(f["accepted"] is None for f in judged["findings"]):
            yield "something accepted is not told as accepted"
        if any(f["accepted"]["counts"] != (f in dangers) for f in judged["findings"]):
            yield "what counts is not what is a danger"
        if told.returncode != (1 if dangers else 0):
            yield f"exit code {told.returncode} with {len(dangers)} dangers"


def main():
    program = sys.argv[1]
    validator = validator_of("practice.schema.json")
    faults = [*good_faults(program, validator), *bad_faults(program, validator),
              *acceptance_faults(program)]
    for fault in faults:
        print(fault, file=sys.stderr)
    print(f"{len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
