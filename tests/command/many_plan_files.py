#!/usr/bin/env python3
"""Writes a club's worth of plans, each a shipped one with some values changed.

    many_plan_files.py FOLDER COUNT [SEED]

The same count and seed give the same files. A few cannot be used, as in life.
"""
import copy
import json
import pathlib
import random
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
MEMBERS = ["Wren", "Tarn", "Sorrel", "Moss", "Juniper", "Alder", "Bryony", "Linnet", "Oona", "Wilf"]
BEERS = ["harvest amber", "plum porter", "harbour bitter", "meadow pale", "first frost lager",
         "kitchen table mild", "smoke house brown", "two rivers wheat"]
SOURCES = ["tests/plans/harvest-amber.plan.json", "lessons/plans/newcomer.plan.json",
           "lessons/plans/sound.plan.json", "lessons/plans/stepped-lager.plan.json"]


def vary_steps(plan, choose):
    for step in plan.get("steps", []):
        if step["do"] == "boil" and "for" in step:
            step["for"] = f"{choose.choice([5, 8, 10, 12, 15, 20])} min"
        if step["do"] == "boil" and choose.random() < 0.2:
            step["heat"] = choose.choice(["electric coil", "induction", "gas"])
        if step["do"] == "chill" and "ice" in step and choose.random() < 0.3:
            del step["ice"]
            step.pop("ice_from", None)
        if step["do"] == "crash" and "for" in step:
            step["for"] = f"{choose.choice([12, 18, 24, 36, 48])} h"
    names = [s["do"] for s in plan.get("steps", [])]
    waits = any("after" in s or "during" in s for s in plan.get("steps", []))
    if not waits and "sanitise" in names and choose.random() < 0.3:
        plan["steps"].pop(names.index("sanitise"))


def vary(plan, choose):
    plan["member"] = f"{choose.choice(MEMBERS)}, Lantern Lane Brewers"
    plan["title"] = f"Starter for the {choose.choice(BEERS)}"
    plan.setdefault("place", {})["altitude"] = f"{choose.choice([20, 100, 310, 900, 2100])} m"
    plan["place"]["tap_water"] = f"{choose.choice([8, 12, 15, 19, 24, 27])} °C"
    beer = plan["beer"]
    beer["volume"] = f"{choose.choice([10, 19, 20, 23, 38])} L"
    beer["gravity"] = f"1.0{choose.choice([38, 45, 52, 60, 72, 85])} SG"
    stage = choose.choice(plan["stages"])
    if "mass" in stage["extract"]:
        stage["extract"]["mass"] = f"{choose.randrange(60, 260, 5)} g"
    if choose.random() < 0.3:
        stage["agitation"] = choose.choice(["shaken", "none", "stir plate"])
    if plan["yeast"].get("form") == "liquid":
        plan["yeast"]["packs"] = choose.choice([1, 1, 1, 2])
        plan["yeast"]["packaged"] = f"2027-0{choose.choice([1, 2, 3])}-1{choose.randrange(10)}"
    vary_steps(plan, choose)


def main():
    folder, count = pathlib.Path(sys.argv[1]), int(sys.argv[2])
    choose = random.Random(int(sys.argv[3]) if len(sys.argv) > 3 else 1)
    shipped = [json.loads((ROOT / s).read_text(encoding="utf-8")) for s in SOURCES]
    for i in range(count):
        plan = copy.deepcopy(choose.choice(shipped))
        vary(plan, choose)
        if i % 40 == 39:
            plan["beer"]["volme"] = plan["beer"].pop("volume")
        group = folder / choose.choice(["monday", "thursday", "newcomers"])
        group.mkdir(parents=True, exist_ok=True)
        text = json.dumps(plan, ensure_ascii=False, indent=2)
        (group / f"plan-{i + 1:04}.plan.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
