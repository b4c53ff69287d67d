#!/usr/bin/python3
"""Checks what `check`, `schedule` and `compare` print with `--format json` against their published schemas.

Usage: check_output_schema.py PROGRAM
Every plan of the tests and lessons is checked alone, and all of them once in an array; plans that
cannot be used give the error form. Also held: the order of keys, numbers of six significant digits,
low ≤ value ≤ high, an exit code that agrees with what was printed, and of a calendar that its times
go forward and that every step is in it.
"""

import json
import subprocess
import sys
from pathlib import Path

import jsonschema

ROOT = Path(__file__).resolve().parents[2]
OUTPUT = ROOT / "engine" / "output"
FINDING_KEYS = ["rule", "severity", "certainty", "where", "says", "why", "numbers", "fix", "sources",
                "lesson", "accepted"]
PLAN_KEYS = ["plan", "title", "verdict", "assumed", "findings", "measures"]
MEASURE_KEYS = ["name", "of", "value", "low", "high", "unit", "how"]


def run(program, command, *arguments):
    done = subprocess.run([program, command, "--format", "json", *map(str, arguments)],
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


def validator_of(command):
    schemas = {p.name: json.loads(p.read_text(encoding="utf-8")) for p in OUTPUT.glob("*.schema.json")}
    schema = schemas[f"{command}.schema.json"]
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(
        schema, resolver=jsonschema.RefResolver.from_schema(schema, store=schemas))


def schema_faults(validator, document):
    worst = jsonschema.exceptions.best_match(validator.iter_errors(document))
    return [f"/{'/'.join(map(str, worst.absolute_path))}: {worst.message[:200]}"] if worst else []


def calendar_faults(calendar, plan):
    rows = calendar["times"]
    starts = [row["start_hours"] for row in rows]
    if starts != sorted(starts):
        yield "rows are not by start"
    for row in [*rows, *calendar["visits"]]:
        if row["end_hours"] < row["start_hours"] or (row["start"] or "") > (row["end"] or ""):
            yield f"{row} ends before it starts"
        if (row["start"] is None) != (calendar["start"] is None):
            yield f"{row} has a clock where the plan has none, or none where it has"
    steps = sorted(row["step"] for row in rows if row["step"] is not None)
    if steps != list(range(1, len(steps) + 1)):
        yield f"steps {steps}"
    written = len(plan.get("steps", []))
    if written and len(steps) != written:
        yield f"{len(steps)} of {written} steps"
    if calendar["due"] is None and calendar["slack"] is not None:
        yield "time to spare before no hour"


def schedule_faults(program, plans):
    validator = validator_of("schedule")
    told = 0
    for plan in plans:
        name = f"schedule {plan.relative_to(ROOT)}"
        code, out, err = run(program, "schedule", plan)
        try:
            document = json.loads(out)
        except ValueError as fault:
            yield f"{name}: not JSON: {fault}"
            continue
        yield from (f"{name}: {fault}" for fault in schema_faults(validator, document))
        if code != (2 if "errors" in document else 0):
            yield f"{name}: exit code {code}"
        if err:
            yield f"{name}: standard error is not empty"
        if "times" in document:
            told += 1
            written = json.loads(plan.read_bytes().decode("utf-8-sig"))
            yield from (f"{name}: {fault}" for fault in calendar_faults(document, written))
    if told < 10:
        yield "too few calendars to check"


def comparison_faults(compared, first, second):
    """Faults of a comparison against what `check` says of both plans."""
    for side, alone in (("first", first), ("second", second)):
        told = sorted((f["rule"], f[side]["where"], f[side]["severity"])
                      for f in compared["findings"] if f[side])
        if told != sorted((f["rule"], f["where"], f["severity"]) for f in alone["findings"]):
            yield f"findings of the {side} plan are not those of check"
        numbers = [{"name": m["name"], "of": m["of"], **m[side]}
                   for m in compared["measures"] if m[side]]
        if numbers != [{k: m[k] for k in ("name", "of", "value", "low", "high")}
                       for m in alone["measures"]]:
            yield f"numbers of the {side} plan are not those of check"
    rank = {"danger": 3, "spoils": 2, "weakens": 1, "note": 0}
    for f in compared["findings"]:
        if f["first"] and f["second"]:
            step = rank[f["second"]["severity"]] - rank[f["first"]["severity"]]
            if (step > 0 and f["change"] != "worse") or (step < 0 and f["change"] != "milder"):
                yield f"{f['rule']} is told as {f['change']}"


def compare_faults(program, plans, checked):
    validator = validator_of("compare")
    told = 0
    usable = [p for p in plans if "errors" not in checked[p]]
    refused = [p for p in plans if "errors" in checked[p]]
    pairs = [*zip(usable, usable[1:]), *zip(usable[::4], usable[::-4]),
             *((p, p) for p in usable[::3]), (usable[0], refused[0]), (refused[1], usable[0]),
             (refused[2], refused[3])]
    for first, second in pairs:
        name = f"compare {first.relative_to(ROOT)} {second.relative_to(ROOT)}"
        code, out, err = run(program, "compare", first, second)
        try:
            document = json.loads(out)
        except ValueError as fault:
            yield f"{name}: not JSON: {fault}"
            continue
        yield from (f"{name}: {fault}" for fault in schema_faults(validator, document))
        if err:
            yield f"{name}: standard error is not empty"
        unusable = "errors" in checked[first] or "errors" in checked[second]
        if ("unusable" in document) != unusable:
            yield f"{name}: usable or not, otherwise than check says"
            continue
        if code != (2 if unusable else exit_code_of(checked[second])):
            yield f"{name}: exit code {code}"
        if not unusable:
            told += 1
            yield from (f"{name}: {fault}"
                        for fault in comparison_faults(document, checked[first], checked[second]))
            if first == second and (document["fields"] or
                                    any(f["change"] != "same" for f in document["findings"])):
                yield f"{name}: a plan differs from itself"
    if told < 10:
        yield "too few comparisons to check"


def main():
    program = sys.argv[1]
    validator = validator_of("check")
    plans = sorted((ROOT / "tests" / "plans").rglob("*.plan.json"))
    plans += sorted((ROOT / "lessons").rglob("*.plan.json"))
    plans += [p for p in sorted((ROOT / "lessons").rglob("*.json"))
              if p.name in ("plan.json", "mended.json")]
    faults = []
    alone = []
    for plan in plans:
        code, out, err = run(program, "check", plan)
        name = plan.relative_to(ROOT)
        try:
            document = json.loads(out)
        except ValueError as fault:
            faults.append(f"{name}: not JSON: {fault}")
            continue
        alone.append(document)
        faults += [f"{name}: {fault}" for fault in schema_faults(validator, document)]
        if code != exit_code_of(document):
            faults.append(f"{name}: exit code {code}")
        if err:
            faults.append(f"{name}: standard error is not empty")
        if "errors" not in document:
            faults += [f"{name}: {fault}" for fault in order_faults(document)]
    code, out, _ = run(program, "check", *plans)
    together = json.loads(out)
    faults += [f"array: {fault}" for fault in schema_faults(validator, together)]
    if together != alone:
        faults.append("plans in an array are not what they are alone")
    if code != max(map(exit_code_of, alone)):
        faults.append(f"array: exit code {code}")
    if len(plans) < 10 or not any("errors" in d for d in alone):
        faults.append("too few plans to check")
    faults += schedule_faults(program, plans)
    if len(alone) == len(plans):
        faults += compare_faults(program, plans, dict(zip(plans, alone)))
    for fault in faults:
        print(fault)
    print(f"{len(plans)} plans, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
