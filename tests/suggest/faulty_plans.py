#!/usr/bin/python3
"""Faulty plans by the number: a sound plan, several things broken in it. Equal seeds, equal plans.

Usage: faulty_plans.py COUNT [SEED] > plans.jsonl
"""

import copy
import json
import random
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOUND = [ROOT / "tests/plans/harvest-amber.plan.json", ROOT / "lessons/plans/sound.plan.json",
         ROOT / "lessons/plans/stepped-lager.plan.json"]


def steps(plan, do):
    return [i for i, step in enumerate(plan["steps"]) if step["do"] == do]


def out(do):
    """Leaves out a step of this kind."""
    def brk(plan, rng):
        found = steps(plan, do)
        if found:
            del plan["steps"][rng.choice(found)]
    return brk


def swapped(first, then):
    """A step of one kind comes before another that it should follow."""
    def brk(plan, rng):
        a, b = steps(plan, first), steps(plan, then)
        if a and b and a[0] < b[-1]:
            plan["steps"].insert(a[0], plan["steps"].pop(b[-1]))
    return brk


def field(do, name, *values):
    """A field of a step of this kind gets one of the values; None leaves it out."""
    def brk(plan, rng):
        found = steps(plan, do)
        if not found:
            return
        step, value = plan["steps"][rng.choice(found)], rng.choice(values)
        if value is None:
            step.pop(name, None)
        else:
            step[name] = value
    return brk


def part(name, key, *values):
    def brk(plan, rng):
        plan[name][key] = rng.choice(values)
    return brk


def stage(key, *values):
    def brk(plan, rng):
        rng.choice(plan["stages"])[key] = rng.choice(values)
    return brk


def extract(factor):
    def brk(plan, rng):
        one = rng.choice(plan["stages"])["extract"]
        one["mass"] = f"{float(one['mass'].split()[0]) * rng.uniform(*factor):.0f} g"
    return brk


def water(factor):
    def brk(plan, rng):
        one = rng.choice(plan["stages"])
        one["water"] = f"{float(one['water'].split()[0]) * rng.uniform(*factor):.2f} L"
    return brk


def kind_of_extract(plan, rng):
    rng.choice(plan["stages"])["extract"]["kind"] = rng.choice(
        ["dark dry malt", "hopped dry malt", "table sugar", "light liquid malt"])


def vessel(key, *values):
    def brk(plan, rng):
        rng.choice(list(plan["vessels"].values()))[key] = rng.choice(values)
    return brk


def hot_jug(plan, rng):
    """Boiling wort is poured into a soda-lime jug."""
    if len(plan["stages"]) > 1 or not steps(plan, "chill"):
        return
    plan["vessels"]["jug"] = {"kind": "jug", "capacity": "3 L", "material": "soda-lime glass"}
    old = plan["stages"][0]["vessel"]
    plan["stages"][0]["vessel"] = "jug"
    plan["steps"].insert(steps(plan, "chill")[0], {"do": "move", "from": old, "to": "jug"})


def dirty(plan, rng):
    """Things that a sanitising step should name are not named."""
    found = [i for i in steps(plan, "sanitise") if plan["steps"][i].get("items")]
    if found:
        step = plan["steps"][rng.choice(found)]
        step["items"] = rng.sample(step["items"], rng.randint(0, len(step["items"]) - 1))


def sealed(plan, rng):
    found = steps(plan, "cover")
    if found:
        step = plan["steps"][rng.choice(found)]
        step.update({"with": "stopper", "sealed": True})


def sealed_later(plan, rng):
    found = steps(plan, "agitate")
    if found:
        plan["steps"].insert(found[-1], {"do": "cover", "with": "lid", "sealed": True})


def dropped_in(plan, rng):
    """Something goes into boiling wort."""
    found = steps(plan, "boil")
    if found:
        plan["steps"].insert(found[0] + 1, {"do": "add", "items": ["nutrient"]})


def stored(plan, rng):
    found = steps(plan, "pitch")
    if found:
        plan["steps"].insert(found[0], {"do": "store", "for": rng.choice(["8 h", "30 h"]),
                                        "sealed": rng.random() < 0.5})


def misspelt(plan, rng):
    step = rng.choice(plan["steps"])
    step["do"] = step["do"][:-1] + rng.choice(["", "x", "ee"])


def whole_starter(plan, rng):
    last = steps(plan, "decant")
    if last:
        del plan["steps"][last[-1]]


def circle(plan, rng):
    chill, pitch = steps(plan, "chill"), steps(plan, "pitch")
    if chill and pitch:
        plan["steps"][chill[0]]["after"] = ["pitch"]


def deep_bath(plan, rng):
    found = steps(plan, "chill")
    if found:
        plan["steps"][found[0]]["bath_depth"] = rng.choice(["18 cm", "22 cm"])


def late(plan, rng):
    day = int(plan["beer"]["brew_day"][8:10])
    plan["beer"]["brew_day"] = plan["beer"]["brew_day"][:8] + f"{max(1, day - rng.randint(1, 4)):02}" + \
        plan["beer"]["brew_day"][10:]


BREAKS = [
    out("sanitise"), out("check temperature"), out("cover"), out("weigh"), out("chill"),
    out("crash"), out("boil"), out("warm"), out("dissolve"),
    swapped("decant", "pitch to beer"), swapped("pitch", "chill"), swapped("chill", "boil"),
    swapped("boil", "dissolve"), swapped("crash", "decant"), swapped("decant", "warm"),
    field("boil", "for", "2 min", "4 min", "30 min", "60 min"),
    field("boil", "heat", "electric coil", "induction"),
    field("chill", "ice", None, "200 g", "5 kg"), field("chill", "bath", "3 L", "5 L", "17 L"),
    field("chill", "to", "12 °C", "28 °C", "33 °C"), field("chill", "ice_from", "80 °C", "60 °C"),
    field("chill", "swirl", False), field("crash", "for", "4 h", "10 h", "16 h"),
    field("warm", "to", "4 °C", "30 °C"), field("warm", "for", "20 h", "30 h"),
    field("decant", "after", ["warm"]),
    part("place", "tap_water", "24 °C", "28 °C", "31 °C"), part("place", "altitude", "1600 m"),
    part("place", "room", "12 °C", "29 °C"),
    part("beer", "kind", "lager", "hybrid"), part("beer", "volume", "40 L", "10 L", "60 L"),
    part("beer", "gravity", "1.085 SG", "1.030 SG"), part("beer", "ferment_at", "8 °C", "25 °C"),
    part("yeast", "packaged", "2026-10-01", "2026-12-20", "2027-01-10"),
    part("yeast", "packs", 3, 4), part("yeast", "out_of_fridge", "0 h", "10 min"),
    part("yeast", "viability", "40 %", "15 %"), part("yeast", "flocculation", "low", "high"),
    stage("agitation", "none"), stage("duration", "6 h", "12 h"), stage("temperature", "10 °C", "33 °C"),
    stage("boil_off", "400 mL", "50 mL"), stage("gravity", "1.060 SG", "1.015 SG"),
    stage("wort_volume", "0.7 L", "2 L"),
    extract((0.2, 0.7)), extract((1.4, 2.2)), water((0.4, 0.8)), water((1.3, 2.0)),
    kind_of_extract, vessel("capacity", "1 L", "1.5 L", "6 L"), vessel("material", "soda-lime glass"),
    hot_jug, dirty, dirty, sealed, sealed_later, dropped_in, stored, misspelt, whole_starter, circle,
    deep_bath, late,
]


def faulty_plans(count, seed):
    """Plans, each with two to seven things broken; some may come to the same thing or to none."""
    rng = random.Random(seed)
    sound = [json.loads(path.read_text(encoding="utf-8")) for path in SOUND]
    for _ in range(count):
        plan = copy.deepcopy(rng.choice(sound))
        for brk in rng.sample(BREAKS, rng.randint(2, 7)):
            brk(plan, rng)
        yield plan


if __name__ == "__main__":
    for made in faulty_plans(int(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1):
        print(json.dumps(made, ensure_ascii=False))
