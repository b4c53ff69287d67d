#!/usr/bin/python3
"""Holds `suggest` to what it says, on many faulty plans, by a patch applier of another origin.

Usage: check_suggestions.py PROGRAM [COUNT] [SEED]
For every plan: the patch, applied by python-jsonpatch, gives the mended plan that `suggest` prints
and the file that it saves, keys in the same order; so do the patches of the changes one by one;
`check` finds in that file what `suggest` said is left; nothing got worse; and asked again, nothing
is changed that was said to be done. No fact is written over: the yeast but for how many packs and how long they warm, the place,
what was measured. Tells the share of findings cleared, of those that a plan can clear, and the
slowest plan.
"""

import json
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

import jsonpatch
import jsonschema

sys.path.insert(0, str(Path(__file__).resolve().parent))
from faulty_plans import ROOT, faulty_plans  # pylint: disable=wrong-import-position

# What only another pack mends, and what is then no fault of the search: a plan never rewrites these.
OF_THE_PACK = {"viability", "pack-age", "weak-pack-first-step"}
RANK = {"note": 0, "weakens": 1, "spoils": 2, "danger": 3}
LEAST_CLEARED = 0.95


def run(program, *arguments):
    done = subprocess.run([program, *map(str, arguments)], capture_output=True, check=False, timeout=120)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def in_order(document):
    """Equal only where the keys stand in the same order, too."""
    return json.dumps(document, ensure_ascii=False)


def facts(plan):
    """What is so, whatever anybody would like."""
    yeast = {k: v for k, v in plan["yeast"].items() if k not in ("packs", "out_of_fridge")}
    return in_order([yeast, plan.get("place")])


def read_of_stages(plan, count):
    return in_order([[stage.get(k) for k in ("measured", "boil_off")] for stage in plan["stages"][:count]])


def above_note(checked):
    return [f for f in checked["findings"] if f["severity"] != "note"]


def worse(before, after):
    """In which way the findings of a mended plan are worse than before."""
    for least in ("weakens", "spoils", "danger"):
        count = [sum(RANK[f["severity"]] >= RANK[least] for f in found) for found in (before, after)]
        if count[1] > count[0]:
            yield f"{count[0]} findings at or above {least} became {count[1]}"
    total = [sum(RANK[f["severity"]] for f in found) for found in (before, after)]
    if total[1] > total[0]:
        yield f"the sum of severities rose from {total[0]} to {total[1]}"


def validator():
    folder = ROOT / "engine" / "output"
    schemas = {p.name: json.loads(p.read_text(encoding="utf-8")) for p in folder.glob("*.schema.json")}
    schema = schemas["suggest.schema.json"]
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(
        schema, resolver=jsonschema.RefResolver.from_schema(schema, store=schemas))


class Check:
    def __init__(self, program, folder):
        self.program = program
        self.folder = Path(folder)
        self.schema = validator()
        self.faults = []
        self.before = self.left = self.slowest = 0
        self.made_worse = self.changes = 0
        self.left_rules = Counter()

    def fault(self, name, says):
        self.faults.append(f"{name}: {says}")

    def plan(self, number, plan):
        name = f"plan {number}"
        file = self.folder / f"p{number}.plan.json"
        mended_file = self.folder / f"p{number}.mended.plan.json"
        file.write_text(json.dumps(plan, ensure_ascii=False), encoding="utf-8")
        _, text, _ = run(self.program, "check", "--format", "json", file)
        was = json.loads(text)
        begun = time.monotonic()
        code, text, error = run(self.program, "suggest", "--format", "json", "--write", file)
        self.slowest = max(self.slowest, time.monotonic() - begun)
        if "errors" in was:
            if code != 2:
                self.fault(name, f"cannot be used, but exit code {code}")
            return
        if error:
            self.fault(name, f"standard error: {error}")
        said = json.loads(text)
        worst = jsonschema.exceptions.best_match(self.schema.iter_errors(said))
        if worst:
            self.fault(name, f"/{'/'.join(map(str, worst.absolute_path))}: {worst.message[:200]}")
        if json.loads(file.read_text(encoding="utf-8")) != plan:
            self.fault(name, "the plan itself was changed")
        if facts(plan) != facts(said["mended"]):
            self.fault(name, "a fact of the yeast or the place was written over")
        stages = len(plan["stages"])
        if read_of_stages(plan, stages) != read_of_stages(said["mended"], stages):
            self.fault(name, "what was measured was written over")
        self.patches(name, plan, said, mended_file)
        self.findings(name, was, said, code, mended_file if said["changes"] else file)

    def patches(self, name, plan, said, mended_file):
        applied = jsonpatch.apply_patch(plan, said["patch"])
        if in_order(applied) != in_order(said["mended"]):
            self.fault(name, "the patch does not give the mended plan")
        stepwise = plan
        for change in said["changes"]:
            stepwise = jsonpatch.apply_patch(stepwise, change["patch"])
        if in_order(stepwise) != in_order(said["mended"]):
            self.fault(name, "the changes one by one do not give the mended plan")
        if mended_file.exists() != bool(said["changes"]):
            self.fault(name, "saved without changes, or not saved")
        elif said["changes"]:
            saved = json.loads(mended_file.read_text(encoding="utf-8"))
            if in_order(saved) != in_order(said["mended"]):
                self.fault(name, "the file is not the mended plan")

    def findings(self, name, was, said, code, mended_file):
        _, text, _ = run(self.program, "check", "--format", "json", mended_file)
        now = json.loads(text)
        if "errors" in now:
            self.fault(name, f"the mended plan cannot be used: {now['errors']}")
            return
        before, after = above_note(was), above_note(now)
        told = [(f["rule"], f["severity"], f["where"]) for f in said["left"]]
        if told != [(f["rule"], f["severity"], f["where"]) for f in after]:
            self.fault(name, "what is left is not what check finds")
        if said["after"]["verdict"] != now["verdict"]:
            self.fault(name, "the verdict is not that of check")
        if code != int(bool(after)):
            self.fault(name, f"exit code {code}")
        ways = list(worse(before, after))
        self.made_worse += bool(ways)
        for way in ways:
            self.fault(name, way)
        self.before += sum(f["rule"] not in OF_THE_PACK for f in before)
        self.left += sum(f["rule"] not in OF_THE_PACK for f in after)
        self.changes += len(said["changes"])
        self.left_rules.update(f["rule"] for f in after)


def main():
    program = sys.argv[1]
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 60
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else 1
    with tempfile.TemporaryDirectory() as folder:
        check = Check(program, folder)
        for number, plan in enumerate(faulty_plans(count, seed)):
            check.plan(number, plan)
    cleared = 1 - check.left / max(1, check.before)
    if cleared < LEAST_CLEARED:
        check.faults.append(f"only {100 * cleared:.1f} % of the findings are cleared")
    if check.before < 2 * count:
        check.faults.append("too few findings to clear")
    for fault in check.faults:
        print(fault)
    print(f"{count} plans, {check.before} findings, {check.left} left, {100 * cleared:.1f} % cleared by "
          f"{check.changes} changes; {check.made_worse} made worse; slowest {check.slowest:.2f} s; "
          f"{len(check.faults)} faults")
    print("left:", ", ".join(f"{rule} {n}" for rule, n in check.left_rules.most_common()))
    return 1 if check.faults else 0


if __name__ == "__main__":
    sys.exit(main())
