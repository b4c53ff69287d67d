#!/usr/bin/python3
"""Checks every rule of the catalogue before it is embedded.

Usage: check_catalogue.py [CATALOGUE_FOLDER]
Prints one line a fault and ends with 1 when there is any. The schema checks the form of a file;
this checks what a schema cannot: names that must be known, places that a message may hold, bounds
that must nest, and how long a text may be before a reader at the stove gives up.
"""

import json
import re
import sys
from pathlib import Path

import jsonschema

RULES = Path(__file__).resolve().parents[2] / "engine" / "rules"

STAGE_MEASURES = set("""
    extract_mass wort_volume wort_gravity extract_ratio boil_time boil_temperature boil_lethality
    boil_off boil_fill growth_fill glass_shock chill_target bath_equilibrium chill_gap chill_time
    ice_needed ice_wort_temperature bath_fill pitch_temperature pack_gap wort_wait inoculation_rate
    cells_grown cells_after_stage stage_step growth_time growth_time_needed growth_time_ratio
    growth_temperature stated_volume stated_gravity measured_volume measured_gravity measured_cells
    count_error
""".split())
PLAN_MEASURES = set("""
    pack_age viability cells_available cells_needed cells_at_pitch cells_missing cells_coverage
    crash_time crash_time_needed crash_time_ratio starter_share slurry_gap slurry_age warm_wait slack
    beer_gravity_shift
""".split())
MEASURES = STAGE_MEASURES | PLAN_MEASURES

# Fact: (its values, or None where they are open; the texts it brings to a message).
FACTS = {
    "extract_kind": ({"light dry malt", "wheat dry malt", "amber dry malt", "dark dry malt",
                      "hopped dry malt", "light liquid malt", "table sugar", "wort"}, set()),
    "strength_told_by": ({"extract", "gravity"}, set()),
    "boil_vessel_heat": ({"fine", "soda-lime on heat", "plastic on heat", "glass on bare coil",
                          "glass on gas", "does not heat by induction", "heat not stated"},
                         {"vessel", "with", "step"}),
    "glass_kind": ({"borosilicate glass", "soda-lime glass"}, {"vessel", "with", "step"}),
    "boil_state": ({"boiled", "never boiled"}, set()),
    "seal": ({"open", "sealed over the boil", "sealed while hot", "sealed over live yeast"},
             {"step", "item"}),
    "wort_storage": ({"none", "cold", "covered and warm", "sealed and warm"}, {"step"}),
    "temperature_checked": ({"checked", "not checked"}, {"step"}),
    "weak_pack": ({"strong", "weak into full strength", "weak eased in"}, set()),
    "dry_grown": ({"not dry", "dry in date", "dry past date"}, set()),
    "pack_date": ({"before the pitch", "after the pitch"}, {"with"}),
    "agitation_stated": ({"stated", "not stated"}, set()),
    "air_access": ({"stirred", "shaken", "still", "sealed", "stirred under tight cover"},
                   {"step", "item"}),
    "cover": ({"covered", "left open"}, {"step"}),
    "decant_choice": ({"decanted", "large and pitched whole", "tiny and active, decanted",
                       "small and pitched whole", "krausen pitch"}, {"step"}),
    "flask_in_bath": ({"stands", "floats"}, {"step"}),
    "missing_step": (None, {"needs"}),
    "step_loop": ({"loop"}, set()),
    "step_unknown": ({"unknown"}, {"step", "nearest", "field"}),
    "stage_governs": ({"stage governs"}, {"step", "with"}),
    "partner_missing": (None, {"step", "needs"}),
}

ANYWHERE = {"stage", "stage_s"}
RANGE_PLACES = {"value", "likely", "comfortable", "hard", "beyond"}
LONGEST_MESSAGE = 240  # characters of the template


def places(text):
    """The names in {braces}; a lone brace is told as the place '' so that it is refused."""
    found = re.findall(r"\{([^{}]*)\}", text)
    rest = re.sub(r"\{[^{}]*\}", "", text)
    return found + ([""] if "{" in rest or "}" in rest else [])


def sentences(text):
    return len(re.findall(r"[.!?](?=\s|$)", text))


def texts(rule):
    """Every (name, message) of a rule that may hold places."""
    for side in ("low", "high", "unreachable"):
        if side in rule:
            yield side, rule[side]
    says = rule.get("says", {})
    yield from ([("says", says)] if isinstance(says, str) else
                [(f"says/{word}", text) for word, text in says.items()])


def known_places(rule):
    kind = rule["kind"]
    known = set(ANYWHERE)
    at_stage = True
    if kind == "range":
        known |= RANGE_PLACES
        if "by" in rule:
            known |= {"word"} | FACTS.get(rule["by"]["fact"], (None, set()))[1]
        at_stage = rule["measure"] in STAGE_MEASURES
    elif kind == "order":
        known |= {"first", "then"}
    elif kind == "contact":
        known |= {"item", "step", "cleaned", "idle"}
    elif kind == "present":
        known |= {"word"} | FACTS.get(rule["fact"], (None, set()))[1]
    measures = MEASURES if at_stage else PLAN_MEASURES
    known |= measures | {name + ".range" for name in measures}
    return known if at_stage else known - ANYWHERE


def check_bounds(rule):
    """Hard bounds lie at or outside comfortable ones, and each bounded side has its message."""
    sets = {"": rule, **{f" ({k})": v for k, v in rule.get("by", {}).get("bounds", {}).items()}}
    bounded = {"low": False, "high": False}
    for name, bounds in sets.items():
        low, high = bounds["comfortable"]
        hard_low, hard_high = bounds.get("hard", [None, None])
        bounded["low"] |= low is not None or hard_low is not None
        bounded["high"] |= high is not None or hard_high is not None
        if low is not None and high is not None and low >= high:
            yield f"comfortable bounds are empty{name}"
        if hard_low is not None and (low is None or hard_low > low):
            yield f"hard low bound is inside the comfortable one{name}"
        if hard_high is not None and (high is None or hard_high < high):
            yield f"hard high bound is inside the comfortable one{name}"
    for side, is_bounded in bounded.items():
        if is_bounded != (side in rule):
            yield f"'{side}' message {'is missing' if is_bounded else 'has no bound'}"


def check_words(rule):
    """Facts and their values are known, and every unfavourable value has its message."""
    if rule["kind"] == "present":
        values, _ = FACTS.get(rule["fact"], (None, None))
        if rule["fact"] not in FACTS:
            yield f"unknown fact {rule['fact']}"
        fine, others, said = set(rule["fine"]), set(rule["others"]), set(rule["says"])
        if values is not None:
            for word in sorted((fine | others) - values):
                yield f"{rule['fact']} has no value '{word}'"
            if "otherwise" not in rule and values - fine - others:
                yield f"values not judged: {sorted(values - fine - others)}"
        if fine & others:
            yield f"both fine and not: {sorted(fine & others)}"
        wanted = others | ({"otherwise"} if "otherwise" in rule else set())
        if said != wanted:
            yield f"messages and judged values differ: {sorted(said ^ wanted)}"
    conditions = dict(rule.get("when", {}))
    if "by" in rule:
        conditions[rule["by"]["fact"]] = list(rule["by"]["bounds"])
    for fact, words in conditions.items():
        values = FACTS.get(fact, (set(), None))[0] or set()
        for word in words:
            if word not in values:
                yield f"{fact} has no value '{word}'"


def check_rule(rule, ids):
    for measure in [rule["measure"]] if "measure" in rule else rule.get("measures", []):
        if measure not in MEASURES:
            yield f"unknown measure {measure}"
    for other in rule.get("yields_to", []):
        if other not in ids or other == rule["id"]:
            yield f"yields to unknown rule {other}"
    yield from check_words(rule)
    if rule["kind"] == "range":
        yield from check_bounds(rule)
    if rule["kind"] == "consistent" and rule.get("hard", rule["comfortable"]) < rule["comfortable"]:
        yield "hard bound is inside the comfortable one"

    known = known_places(rule)
    for name, text in texts(rule):
        for place in places(text):
            if place not in known:
                yield f"{name}: unknown place {{{place}}}"
        if rule["kind"] == "range" and name in ("low", "high"):
            for wanted in (("value", "beyond"), ("comfortable",)):
                if not set(wanted) & set(places(text)):
                    yield f"{name}: lacks {{{wanted[0]}}}"
        if rule["kind"] == "consistent":
            for measure in rule["measures"]:
                if measure not in places(text):
                    yield f"{name}: lacks {{{measure}}}"
        if sentences(text) not in (1, 2):
            yield f"{name}: {sentences(text)} sentences, not 1 or 2"
        if len(text) > LONGEST_MESSAGE:
            yield f"{name}: {len(text)} characters, over {LONGEST_MESSAGE}"
        if re.search(r"\byou must\b", text, re.I):
            yield f"{name}: says 'you must'"
    for i, fix in enumerate(rule.get("fix", [])):
        allowed = set()
        if "change" in fix:
            allowed = {"new", "old"} | ({"new_extract"} if fix["change"] == "stage_size" else set())
            if "new" not in places(fix["says"]):
                yield f"fix/{i}: lacks {{new}}"
        else:
            allowed = known | {"new", "old"}
        if fix.get("put") == "move_first_before_then" and rule["kind"] != "order":
            yield f"fix/{i}: only an order rule can move its first step"
        for place in places(fix["says"]):
            if place not in allowed:
                yield f"fix/{i}: unknown place {{{place}}}"

    for name, least, most in (("why", 2, 4), ("do", 1, 2)):
        if not least <= sentences(rule[name]) <= most:
            yield f"{name}: {sentences(rule[name])} sentences, not {least} to {most}"
        if places(rule[name]):
            yield f"{name}: holds a place"
    if rule.get("objection", "x")[-1] in ".!?" or places(rule.get("objection", "")):
        yield "objection: not a plain clause"
    if not 2 <= len(rule["title"].split()) <= 6:
        yield "title: not 2 to 6 words"


def empty_texts(value, where=""):
    if isinstance(value, str):
        if not value.strip():
            yield f"empty text at {where or '/'}"
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from empty_texts(inner, f"{where}/{key}")
    elif isinstance(value, list):
        for i, inner in enumerate(value):
            yield from empty_texts(inner, f"{where}/{i}")


def check_cautions(cautions, wanted):
    if set(cautions) != wanted:
        yield f"caution ids differ: {sorted(set(cautions) ^ wanted)}"
    for name, caution in cautions.items():
        if set(caution) != {"title", "text"}:
            yield f"{name}: not a title and a text"
        elif not 1 <= sentences(caution["text"]) <= 3:
            yield f"{name}: {sentences(caution['text'])} sentences, not 1 to 3"
    yield from empty_texts(cautions)


def check_catalogue(folder):
    """Yields (file name, fault) for every fault; nothing when the catalogue is sound."""
    schema = json.loads((RULES / "rule.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)

    files = sorted(folder.glob("*.json"))
    ids = {file.stem for file in files} - {"cautions"}
    if not ids:
        yield folder.name, "no rules"
    if "cautions" not in {file.stem for file in files}:
        yield folder.name, "cautions.json is missing"
    for file in files:
        try:
            content = json.loads(file.read_text(encoding="utf-8"))
        except ValueError as fault:
            yield file.name, f"not JSON: {fault}"
            continue
        if file.stem == "cautions":
            wanted = set(schema["properties"]["caution"]["items"]["enum"])
            yield from ((file.name, fault) for fault in check_cautions(content, wanted))
            continue
        faults = [f"/{'/'.join(map(str, e.absolute_path))}: {e.message}"
                  for e in validator.iter_errors(content)]
        if not faults:
            if content["id"] != file.stem:
                faults.append(f"id {content['id']} is not the file's name")
            faults += empty_texts(content)
            faults += check_rule(content, ids)
        yield from ((file.name, fault) for fault in faults)


def main():
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else RULES / "catalogue"
    faults = list(check_catalogue(folder))
    for name, fault in faults:
        print(f"{name}: {fault}")
    print(f"{len(list(folder.glob('*.json')))} files, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
