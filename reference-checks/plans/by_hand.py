"""Works the plans of this folder by hand, one line of arithmetic after another, and writes each as a
text beside its plan. It knows nothing of the engine: quantities are copied from the plan, formulas
and coefficients come from the sources named in the text, tables from GNU units (sugar) and
python3-iapws (water), and curves from scipy by way of the scripts in ../outside.

    /usr/bin/python3 by_hand.py            write the texts
    /usr/bin/python3 by_hand.py --check    only see whether they are what this would write
"""

import subprocess
import sys
from datetime import datetime
from functools import cache
from math import exp, log, pi
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent / "outside"))
import atmosphere  # noqa: E402
import cooling  # noqa: E402
import films  # noqa: E402
import growth  # noqa: E402
import saturation  # noqa: E402
import shapes  # noqa: E402
import water as water_tables  # noqa: E402

LB, OZ, GAL, QT, FT = 453.59237, 28.349523125, 3.785411784, 0.946352946, 0.3048
WATER = 0.99820  # kg/L at 20 °C, the sugar table's own


def celsius(fahrenheit):
    return (fahrenheit - 32) / 1.8


@cache
def units(have, want):
    out = subprocess.run(["units", "-t", "-o", "%.10g", have, want], capture_output=True, text=True,
                         check=True)
    return float(out.stdout)


def n(x, digits=6):
    """A number as one would write it down."""
    text = f"{x:.{digits}g}"
    if "e" in text:
        text = f"{x:.0f}" if abs(x) > 1 else f"{x:.9f}".rstrip("0")
    return text.replace("-", "−")


SOLIDS = {"dry": 0.96, "liquid": 0.80}
VESSEL = {  # specific heat kJ/(kg K), conductivity W/(m K), wall m, kg per litre of capacity
    "borosilicate glass": (0.83, 1.2, 0.002, 0.22),
    "stainless steel": (0.50, 15, 0.0008, 0.25),
    "aluminium": (0.90, 200, 0.002, 0.15),
}
SHAPE = {"flask": (0.31, 2.84), "pot": (1.0, 1.4)}  # mouth and height, by the base's radius
KEEPS = {"low": 0.80, "medium": 0.95, "high": 0.95}
CLUMPS = {"low": 1.3, "medium": 2.6, "high": 5.0}
RATE = {"ale": 0.75, "lager": 1.5}


class Sheet:
    def __init__(self, plan):
        self.plan = plan
        self.lines = []
        self.table = []

    def say(self, text):
        self.lines.append(text)

    def head(self, text):
        self.lines += ["", "## " + text, ""]

    def line(self, text):
        self.lines.append("- " + text)

    def compare(self, measure, stage, value, within):
        """One row of the comparison: a measure, its stage (− for none), by hand, how close."""
        self.table.append((measure, stage, value, within))

    def write(self):
        rows = ["", "## Compared with the program", "",
                "| measure | stage | by hand | within |", "|---|---|---|---|"]
        rows += [f"| {m} | {s} | {n(v, 7).replace('−', '-')} | {w} |" for m, s, v, w in self.table]
        return "\n".join(self.lines + rows) + "\n"


def density(p):
    return units(f"brix({p!r})", "g/cm^3") / units("brix(0)", "g/cm^3") * (WATER - 0.0012) + 0.0012


def gravity_to_plato(sg):
    return units(f"{sg!r} * brix(0)", "brix")


def depth_in(shape, capacity, litres):
    """Depth of liquid in a vessel, m, by halving; and its wetted side and base, m²."""
    mouth, height = SHAPE[shape]
    radius = (1.1 * capacity / 1000 / (pi * (1 + mouth + mouth ** 2) / 3 * height)) ** (1 / 3)
    low, high = 0.0, height * radius
    for _ in range(60):
        middle = (low + high) / 2
        held = frustum(radius, mouth, height, middle)
        low, high = (middle, high) if held < litres else (low, middle)
    _, side, base = shapes.filled(radius, mouth * radius, height * radius, low)
    return low, side, base, radius


def frustum(radius, mouth, height, depth):
    top = radius - (radius - mouth * radius) * depth / (height * radius)
    return 1000 * pi * depth * (radius ** 2 + radius * top + top ** 2) / 3


def specific_heat(p, t):
    return 4.1762 - 9.0864e-5 * t + 5.4731e-6 * t * t - p / 100 * (2.511 - 0.0075 * t)


def stage(sheet, i, s, plan, carried, living, first):
    """One stage; gives the volume and cells it hands on."""
    tag = i + 1
    sheet.head(f"Stage {tag}")
    sheet.say("*Wort.*")
    solids = SOLIDS[s["extract"]]
    sheet.line(f"extract weighed: {s['mass_text']} = {n(s['mass'])} g, solids {n(solids)} of it: "
               f"{n(s['mass'])} × {n(solids)} = {n(s['mass'] * solids)} g extract")
    extract = s["mass"] * solids
    water = 1000 * s["water"] * WATER + s["mass"] * (1 - solids)
    sheet.line(f"water: {s['water_text']} = {n(s['water'])} L × 998.20 g/L, and the extract's own "
               f"{n(s['mass'] * (1 - solids))} g: {n(water)} g")
    before_p = 100 * extract / (extract + water)
    before_v = (extract + water) / 1000 / density(before_p)
    sheet.line(f"before the boil: 100 × {n(extract)} / {n(extract + water)} = {n(before_p)} °P, "
               f"{n(extract + water)} g at {n(density(before_p))} kg/L (table) = {n(before_v)} L")
    rate = 1.8 if s["boils_in"] == "pot" else 0.3
    lost = rate * s["boil"] / 60
    sheet.line(f"boil-off: {n(rate)} L/h × {n(s['boil'])} min = {n(lost)} L")
    water -= 1000 * lost * WATER
    p = 100 * extract / (extract + water)
    volume = (extract + water) / 1000 / density(p)
    sheet.line(f"after it: {n(water)} g water, 100 × {n(extract)} / {n(extract + water)} = {n(p)} °P; "
               f"at {n(density(p))} kg/L {n(volume)} L")
    dme = extract / 0.96
    sheet.line(f"as dry malt extract: {n(extract)} / 0.96 = {n(dme)} g, in {n(volume)} L "
               f"{n(dme / volume)} g/L")
    sheet.compare("extract_mass", tag, s["mass"], "0.01 %")
    sheet.compare("wort_volume", tag, volume, "0.05 %")
    sheet.compare("wort_gravity", tag, p, "0.05 %")
    sheet.compare("extract_ratio", tag, dme / volume, "0.05 %")
    sheet.compare("boil_off", tag, 100 * lost / before_v, "0.05 %")
    sheet.compare("boil_fill", tag, before_v / s["boil_capacity"], "0.05 %")
    sheet.line(f"filling at the boil: {n(before_v)} / {n(s['boil_capacity'])} = "
               f"{n(before_v / s['boil_capacity'])}; boil-off {n(100 * lost / before_v)} %")

    sheet.say("")
    sheet.say("*Boil.*")
    pressure = atmosphere.pressure(plan["altitude"])[0]
    boils = saturation.saturation(pressure)[0] - 273.15
    more = units(f"sugar_conc_bpe({p!r})", "K") * ((boils + 273.15) / 373.15) ** 2
    sheet.line(f"standard air at {n(plan['altitude'])} m: {n(pressure)} kPa; water boils at "
               f"{n(boils)} °C; {n(p)} °P adds {n(more, 4)} K: {n(boils + more)} °C")
    boils += more
    lethal = s["boil"] * 1.393 ** (boils - 60)
    sheet.line(f"pasteurisation units: {n(s['boil'])} × 1.393^{n(boils - 60)} = {n(lethal)}")
    sheet.compare("boil_temperature", tag, boils, "0.01 K")
    sheet.compare("boil_time", tag, s["boil"], "0.01 %")
    sheet.compare("boil_lethality", tag, lethal, "0.5 %")

    sheet.say("")
    sheet.say("*Chill.*")
    heat, conductivity, wall, per_litre = VESSEL[s["boil_material"]]
    depth, side, base, _ = depth_in(s["boils_in"], s["boil_capacity"], volume)
    middle = (s["chill_to"] + boils) / 2
    c1 = (extract + water) / 1000 * specific_heat(p, middle) + s["boil_capacity"] * per_litre * heat
    sheet.line(f"heat capacity: {n((extract + water) / 1000)} kg × {n(specific_heat(p, middle))} "
               f"kJ/(kg K) at {n(middle)} °C, vessel {n(s['boil_capacity'])} L × {n(per_litre)} kg/L × "
               f"{n(heat)}: {n(c1)} kJ/K")
    tap = plan["tap"]
    bath_density = water_tables.water(tap)[0]
    c2 = s["bath"] * bath_density * 4.184
    sheet.line(f"bath: {s['bath_text']} = {n(s['bath'])} L × {n(bath_density)} kg/L × 4.184 = "
               f"{n(c2)} kJ/K at {n(tap)} °C")
    u = films.overall(depth, wall, conductivity, middle, tap + 5, s["swirl"])[0]
    ua = (side + base / 4) * u
    sheet.line(f"wort stands {n(100 * depth)} cm deep, wets {n(side)} m² of side and {n(base)} m² of "
               f"base; two films and the wall let {n(u)} W/(m² K) through: "
               f"({n(side)} + {n(base)}/4) × {n(u)} = {n(ua)} W/K")
    ice = s.get("ice", 0)
    even = (c1 * boils + c2 * tap - 333.5 * ice) / (c1 + c2 + 4.184 * ice)
    even = max(even, 0)
    sheet.line(f"all evened out: ({n(c1)} × {n(boils)} + {n(c2)} × {n(tap)}"
               + (f" − {n(ice)} × 333.5" if ice else "") + f") / ({n(c1)} + {n(c2)}"
               + (f" + {n(ice)} × 4.184" if ice else "") + f") = {n(even)} °C")
    stalls = (c1 * boils + c2 * tap) / (c1 + c2) + 1
    ice_from = max(s.get("ice_from", 40), stalls)
    minutes = cooling.chill(c1, boils, c2, tap, ua, ice, ice_from, s["chill_to"], 48)[0]
    if minutes >= 0:
        sheet.line(f"down to {n(s['chill_to'])} °C"
                   + (f", ice in at {n(ice_from)} °C" if ice else "") + f": {n(minutes)} min")
        sheet.compare("chill_time", tag, minutes, "1 %")
    target = s["chill_to"]
    needed = (c1 * (boils - target) + c2 * (tap - target)) / (333.5 + 4.184 * target)
    sheet.line(f"ice for {n(target)} °C: ({n(c1)} × {n(boils - target)} + {n(c2)} × "
               f"{n(tap - target)}) / (333.5 + 4.184 × {n(target)}) = {n(max(needed, 0))} kg"
               + ("" if needed > 0 else ", so none"))
    if ice:
        sheet.compare("ice_wort_temperature", tag, s["ice_from"], "0.001 K")
    sheet.compare("bath_equilibrium", tag, even, "0.05 K")
    sheet.compare("chill_target", tag, target, "0.001 K")
    sheet.compare("chill_gap", tag, even - target, "0.05 K")
    sheet.compare("ice_needed", tag, max(needed, 0), "0.01 kg")
    shell = frustum(*profile(s, volume)) + 1000 * wall * (side + base)
    fill = (s["bath"] + ice / WATER + shell) / s["tub"]
    sheet.line(f"tub: {n(s['bath'])} L"
               + (f", {n(ice)} kg of ice as {n(ice / WATER)} L," if ice else "")
               + f" and the vessel's {n(shell)} L to the wort's height, walls of "
               f"{n(1000 * wall)} mm included, over {n(s['tub'])} L: {n(fill)}")
    sheet.compare("bath_fill", tag, fill, "0.1 %")
    if s["boil_material"] == "borosilicate glass":
        sheet.line(f"glass meets {n(boils)} − {n(tap)} = {n(boils - tap)} K")
        sheet.compare("glass_shock", tag, boils - tap, "0.02 K")

    sheet.say("")
    sheet.say("*Pitch.*")
    start = max(target, even)
    tau = 2.5 * volume ** (1 / 3)
    pitch = plan["room"] + (start - plan["room"]) * exp(-s["wait"] / 60 / tau)
    sheet.line(f"{n(s['wait'])} min in a room of {n(plan['room'])} °C, time constant 2.5 h × "
               f"{n(volume)}^⅓ = {n(tau)} h: {n(pitch)} °C")
    sheet.compare("pitch_temperature", tag, pitch, "0.02 K")
    sheet.compare("wort_wait", tag, s["wait"] / 60, "0.1 %")
    if first:
        tau = 2.5 * 0.15 ** (1 / 3)
        pack = plan["room"] + (plan["fridge"] - plan["room"]) * exp(-plan["out"] / tau)
        sheet.line(f"pack, {n(plan['out'])} h out of the fridge, time constant 2.5 h × 0.15^⅓ = "
                   f"{n(tau)} h: {n(pack)} °C, {n(abs(pitch - pack))} K from the wort")
        sheet.compare("pack_gap", tag, abs(pitch - pack), "0.05 K")
    density_of_cells = living / volume
    sheet.line(f"inoculation: {n(living)} billion / {n(volume)} L = {n(density_of_cells)} million/mL")
    sheet.compare("inoculation_rate", tag, density_of_cells, "0.2 %")

    sheet.say("")
    sheet.say("*Growth.*")
    r = living / dme
    stirred = dme * min(1.4, max(0, (7 - 2 * r) / 3))
    points = [(1 / 3.5, 0), (0.485, 0.12), (0.97, 0.52), (1.455, 0.81), (1.94, 1.05), (3.88, 1.76)]
    q = dme / living
    per_cell = 0.0
    for (a, fa), (b, fb) in zip(points, points[1:]):
        if a < q <= b:
            per_cell = fa + (fb - fa) * (q - a) / (b - a)
    if q > 3.88:
        per_cell = 1.76 * q / 3.88
    still = living * per_cell
    new = {"stirred": stirred, "still": still, "shaken": (stirred + still) / 2}[s["aeration"]]
    bound = dme * 0.10 / 0.030
    sheet.line(f"crowding: {n(living)} / {n(dme)} = {n(r)} billion a gram")
    if s["aeration"] != "still":
        sheet.line(f"stirred: min(1.4, (7 − 2 × {n(r)})/3) × {n(dme)} = {n(stirred)} billion")
    if s["aeration"] != "stirred":
        sheet.line(f"still: {n(q)} g a billion, by the table {n(per_cell)} new a cell: {n(still)} "
                   "billion")
    if s["aeration"] == "shaken":
        sheet.line(f"shaken, halfway: {n(new)} billion")
    new = min(new, bound, 1023 * living)
    sheet.line(f"new cells in full time: {n(new)} billion (sugar allows {n(bound)})")
    grams = 10 * p * density(p)
    stretch = 1 + 0.2 * max(0, min(s["temperature"], 24) - 20)
    hours, share, _, _ = growth.growth(density_of_cells, grams, min(s["temperature"], 24),
                             s["hours"] / stretch)
    hours *= stretch
    sheet.line(f"kinetics at {n(s['temperature'])} °C and {n(grams)} g/L, times × {n(stretch)}: 95 % "
               f"after {n(hours)} h; {n(100 * share)} % after {n(s['hours'])} h")
    after = living + new * share
    sheet.line(f"after growth: {n(living)} + {n(new)} × {n(share)} = {n(after)} billion")
    held = volume + carried
    sheet.compare("growth_time", tag, s["hours"], "0.01 %")
    sheet.compare("growth_temperature", tag, s["temperature"], "0.001 K")
    sheet.compare("growth_time_needed", tag, hours, "0.2 %")
    sheet.compare("growth_time_ratio", tag, s["hours"] / hours, "0.2 %")
    sheet.compare("cells_grown", tag, new * share, "0.2 %")
    sheet.compare("cells_after_stage", tag, after, "0.2 %")
    sheet.compare("growth_fill", tag, held / s["grows_in"], "0.1 %")
    sheet.line(f"the vessel holds {n(volume)}" + (f" + {n(carried)}" if carried else "")
               + f" = {n(held)} L, over {n(s['grows_in'])} L {n(held / s['grows_in'])}")
    handed = after
    if s["decanted"]:
        handed = after * KEEPS[plan["clumps"]]
        sheet.line(f"decanted to 0.15 L, which keeps {n(KEEPS[plan['clumps']])}: {n(handed)} billion")
    return {"held": held, "handed": handed, "carried": 0.15 if s["decanted"] else held, "p": p}


def profile(s, litres):
    depth, _, _, radius = depth_in(s["boils_in"], s["boil_capacity"], litres)
    return radius, *SHAPE[s["boils_in"]], depth


def work(plan):
    sheet = Sheet(plan)
    sheet.say(f"# {plan['name']}, worked by hand")
    sheet.say("")
    sheet.say(plan["about"])
    sheet.say("Written by `by_hand.py`, which shares no code with the program. Every quantity is at "
              "its likely value; the coefficients and their sources are those of the headers of "
              "`engine/science`, most of them common practice. Tables: sugar by GNU units (NBS "
              "Circular 440, table 114), water by python3-iapws, curves by scipy.")
    sheet.head("Yeast")
    begin = datetime.fromisoformat(plan["start"])
    until = plan["minutes_to_pitch"]
    sheet.line(f"begun {plan['start']}; the steps up to the yeast take {plan['minutes_text']} = "
               f"{until} min")
    if "viability" in plan:
        alive = plan["viability"]
        sheet.line(f"counted: {n(100 * alive)} % alive")
    else:
        days = (begin - datetime.fromisoformat(plan["packaged"])).total_seconds() / 86400 \
            + until / 1440
        months = days / 30
        if plan["form"] == "slurry":
            line, decay = 0.95 * max(0, 1 - 0.4 * months), 0.95 * 0.8 ** (2 * months)
        else:
            line, decay = max(0, 1 - 0.2 * months), 0.8 ** months
        alive = (line + decay) / 2
        sheet.line(f"from {plan['packaged']}: {n(days)} days, {n(months)} months; line {n(line)}, "
                   f"decay {n(decay)}, between them {n(alive)} alive")
        sheet.compare("pack_age", "−", days, "0.01 %")
    sheet.compare("viability", "−", 100 * alive, "0.02 %")
    if plan["form"] == "slurry":
        every = plan["slurry_ml"] * 1.5 * 0.83
        sheet.line(f"slurry: {n(plan['slurry_ml'])} mL × 1.5 billion/mL × (1 − 0.17) = {n(every)} "
                   "billion")
    else:
        every = plan["packs"] * 100
        sheet.line(f"packs: {plan['packs']} × 100 = {every} billion")
    living = every * alive
    sheet.line(f"living: {n(every)} × {n(alive)} = {n(living)} billion")
    sheet.compare("cells_available", "−", living, "0.1 %")

    carried, held = 0, None
    for i, s in enumerate(plan["stages"]):
        done = stage(sheet, i, s, plan, carried, living, i == 0)
        if held:
            sheet.line(f"step up: {n(done['held'])} / {n(held)} = {n(done['held'] / held)}")
            sheet.compare("stage_step", i + 1, done["held"] / held, "0.1 %")
        carried, living, held = done["carried"], done["handed"], done["held"]

    sheet.head("Beer")
    gravity = plan["gravity"] if plan["gravity"] > 2 else gravity_to_plato(plan["gravity"])
    needed = RATE[plan["kind"]] * plan["beer"] * gravity
    sheet.line(f"needed: {n(RATE[plan['kind']])} million/(mL °P) × {n(plan['beer'])} L × "
               f"{n(gravity)} °P = {n(needed)} billion")
    due = datetime.fromisoformat(plan["brew_day"])
    due_minutes = (due - begin).total_seconds() / 60 + 300
    at_pitch = living
    if "crash" in plan:
        temperature = plan["stages"][-1]["temperature"]
        tau = 2.5 * held ** (1 / 3)
        cooling = tau * log((temperature - plan["cold"]) / 1)
        cold = plan["crash"] - cooling
        sheet.line(f"cold rest: time constant 2.5 h × {n(held)}^⅓ = {n(tau)} h, within 1 K after "
                   f"{n(tau)} × ln {n(temperature - plan['cold'])} = {n(cooling)} h; of "
                   f"{n(plan['crash'])} h that leaves {n(cold)} h")
        mouth, height = SHAPE[plan["grow_shape"]] if plan["grow_shape"] in SHAPE else (1.0, 3.2)
        capacity = plan["stages"][-1]["grows_in"]
        radius = (1.1 * capacity / 1000 / (pi * (1 + mouth + mouth ** 2) / 3 * height)) ** (1 / 3)
        low, high = 0.0, height * radius
        for _ in range(60):
            middle = (low + high) / 2
            low, high = ((middle, high) if frustum(radius, mouth, height, middle) < held
                         else (low, middle))
        viscosity = water_tables.water(plan["cold"])[3] / 1000
        fall = 72 * 9.80665 * 25e-12 / (18 * 1.3 * viscosity)
        fall_needed = low / (fall * CLUMPS[plan["clumps"]]) / 3600
        sheet.line(f"settling: cells fall 72 × 9.80665 × (5e-6)² / (18 × 1.3 × {n(viscosity)}) = "
                   f"{n(3.6e6 * fall)} mm/h, clumps {n(CLUMPS[plan['clumps']])} times that; through "
                   f"{n(1000 * low)} mm: {n(fall_needed)} h")
        sheet.compare("crash_time", "−", cold, "0.1 %")
        sheet.compare("crash_time_needed", "−", fall_needed, "0.2 %")
        sheet.compare("crash_time_ratio", "−", cold / fall_needed, "0.2 %")
        small = 2.5 * 0.15 ** (1 / 3)
        gap = max(1, plan["room"] - plan["warm_to"])
        warming = small * log((plan["room"] - plan["fridge"]) / gap)
        sheet.line(f"warming 0.15 L from {n(plan['fridge'])} to {n(plan['warm_to'])} °C in a room of "
                   f"{n(plan['room'])} °C: {n(small)} × ln({n(plan['room'] - plan['fridge'])} / "
                   f"{n(gap)}) = {n(warming)} h")
        sheet.compare("warm_wait", "−", warming, "1 %")
        ready = plan["minutes_to_crash"] + 60 * plan["crash"] + 10 + 60 * warming + 10
        slack = due_minutes - ready
        sheet.line(f"ready: {n(plan['minutes_to_crash'])} min to the cold rest, {n(plan['crash'])} h "
                   f"of it, 10 min to decant, {n(60 * warming)} min to warm, 10 min to pitch: "
                   f"{n(ready)} min after the start; due, 5 h into brew day, after "
                   f"{n(due_minutes)} min: {n(slack / 60)} h to spare")
        sheet.compare("slack", "−", slack / 60, "0.02 h")
        age = (due_minutes - 10 - plan["minutes_to_crash"]) / 1440
        months = age / 30
        fresh = (max(0, 1 - 0.4 * months) + 0.8 ** (2 * months)) / 2
        at_pitch = living * fresh
        sheet.line(f"{n(age)} days from the cold to the beer leave {n(fresh)} of {n(living)} alive: "
                   f"{n(at_pitch)} billion")
        sheet.compare("slurry_age", "−", age, "0.002 d")
        sheet.compare("slurry_gap", "−", abs(plan["warm_to"] - plan["ferment"]), "0.01 K")
    else:
        ready = plan["minutes_to_crash"] + 10
        slack = due_minutes - ready
        sheet.line(f"ready: {n(plan['minutes_to_crash'])} min and 10 to pitch; due after "
                   f"{n(due_minutes)} min: {n(slack / 60)} h to spare")
        sheet.compare("slack", "−", slack / 60, "0.02 h")
        sheet.compare("slurry_gap", "−",
                      abs(plan["stages"][-1]["temperature"] - plan["ferment"]), "0.01 K")
    sheet.line(f"coverage: {n(at_pitch)} / {n(needed)} = {n(at_pitch / needed)}")
    sheet.compare("cells_needed", "−", needed, "0.02 %")
    sheet.compare("cells_at_pitch", "−", at_pitch, "0.3 %")
    sheet.compare("cells_missing", "−", max(0, needed - at_pitch), "2 billion")
    sheet.compare("cells_coverage", "−", at_pitch / needed, "0.3 %")
    share = 100 * held / plan["beer"]
    sheet.line(f"starter over batch: {n(held)} / {n(plan['beer'])} = {n(share)} %")
    sheet.compare("starter_share", "−", share, "0.1 %")
    kg_beer, kg_starter = plan["beer"] * density(gravity), carried * density(done["p"])
    shift = (gravity * kg_beer + done["p"] * kg_starter) / (kg_beer + kg_starter) - gravity
    sheet.line(f"beer's strength: ({n(gravity)} × {n(kg_beer)} + {n(done['p'])} × {n(kg_starter)}) / "
               f"{n(kg_beer + kg_starter)} − {n(gravity)} = {n(shift)} °P")
    sheet.compare("beer_gravity_shift", "−", shift, "0.001 °P")
    return sheet.write()


def flask_stage(mass, mass_text, water, water_text, capacity, **more):
    base = dict(extract="dry", mass=mass, mass_text=mass_text, water=water, water_text=water_text,
                boils_in="flask", boil_capacity=capacity, boil_material="borosilicate glass",
                grows_in=capacity, aeration="stirred", swirl=1, decanted=True)
    return base | more


PLANS = [
    dict(name="meadow-pale", about="An ale, metric, one stage, at sea level.",
         start="2027-05-11T18:00", brew_day="2027-05-15T09:00", packaged="2027-04-11",
         form="liquid", packs=1, clumps="medium", altitude=0, tap=15, room=20, fridge=4, out=2,
         kind="ale", beer=20, gravity=12, ferment=19,
         minutes_to_pitch=88, minutes_text="10 + 10 + 15 + 15 + 30 + 5 + 3",
         minutes_to_crash=93 + 36 * 60, crash=36, cold=4, warm_to=18, grow_shape="flask",
         stages=[flask_stage(120, "120 g", 1.25, "1.25 L", 2, boil=15, chill_to=26, bath=10,
                             bath_text="10 L", tub=18, wait=8, temperature=20, hours=36)]),
    dict(name="quarry-lager", about="A lager, metric, three stages, at sea level, with ice.",
         start="2027-02-01T18:00", brew_day="2027-02-16T09:00", packaged="2026-12-01",
         form="liquid", packs=1, clumps="low", altitude=0, tap=12, room=20, fridge=4, out=3,
         kind="lager", beer=40, gravity=13, ferment=10,
         minutes_to_pitch=90, minutes_text="10 + 10 + 20 + 12 + 30 + 5 + 3",
         minutes_to_crash=3 * (95 + 48 * 60) + 2 * (24 * 60 + 10), crash=36, cold=4, warm_to=12,
         grow_shape="flask",
         stages=[flask_stage(60, "60 g", 0.8, "0.8 L", 2, boil=12, chill_to=21, bath=8,
                             bath_text="8 L", ice=0.6, ice_from=38, swirl=2.5, tub=60, wait=8,
                             temperature=20, hours=48),
                 flask_stage(160, "160 g", 1.8, "1.8 L", 3, boil=12, chill_to=21, bath=12,
                             bath_text="12 L", ice=1, ice_from=38, swirl=2.5, tub=60, wait=8,
                             temperature=20, hours=48),
                 flask_stage(500, "500 g", 5.2, "5.2 L", 10, boil=12, chill_to=21, bath=25,
                             bath_text="25 L", ice=2.5, ice_from=38, swirl=2.5, tub=60, wait=8,
                             temperature=20, hours=48)]),
    dict(name="summit-bitter", about="An ale, US units, one stage, shaken, at 2500 m (8202 ft), "
         "with the member's own count.",
         start="2027-07-06T18:00", brew_day="2027-07-10T09:00", viability=0.85, form="liquid",
         packs=1, clumps="high", altitude=8202 * FT, tap=celsius(54), room=celsius(70),
         fridge=celsius(40), out=2, kind="ale", beer=5 * GAL, gravity=1.050, ferment=celsius(66),
         minutes_to_pitch=108, minutes_text="10 + 10 + 20 + 20 + 40 + 5 + 3",
         minutes_to_crash=113 + 48 * 60, crash=24, cold=celsius(40), warm_to=celsius(66),
         grow_shape="flask",
         stages=[flask_stage(5 * OZ, "5 oz × 28.3495", 1.6 * QT, "1.6 qt × 0.946353", 0.75 * GAL,
                             boil=20, chill_to=celsius(70), bath=3 * GAL, bath_text="3 gal",
                             ice=2 * LB / 1000, ice_from=celsius(100), tub=5 * GAL, wait=8,
                             temperature=celsius(70), hours=48, aeration="shaken")]),
    dict(name="ridge-lager", about="A lager, US units, three stages left still, at 2500 m (8202 ft), "
         "boiled in a pot, with liquid extract.",
         start="2027-03-01T18:00", brew_day="2027-03-18T09:00", packaged="2027-02-01",
         form="liquid", packs=2, clumps="medium", altitude=8202 * FT, tap=celsius(50),
         room=celsius(68), fridge=celsius(39), out=4, kind="lager", beer=5 * GAL, gravity=1.048,
         ferment=celsius(50),
         minutes_to_pitch=113, minutes_text="10 + 10 + 20 + 15 + 45 + 5 + 5 + 3",
         minutes_to_crash=3 * (119 + 72 * 60) + 2 * (36 * 60 + 10), crash=36, cold=celsius(40),
         warm_to=celsius(52), grow_shape="tall",
         stages=[flask_stage(m, mt, w, wt, 3 * GAL, extract="liquid", boils_in="pot",
                             boil_material="stainless steel", grows_in=g, boil=15,
                             chill_to=celsius(75), bath=b * GAL, bath_text=f"{b} gal", swirl=2.5,
                             tub=10 * GAL, wait=13, temperature=celsius(68), hours=72,
                             aeration="still")
                 for m, mt, w, wt, g, b in [
                     (7 * OZ, "7 oz × 28.3495", 2 * QT, "2 qt × 0.946353", GAL, 2),
                     (14 * OZ, "14 oz × 28.3495", 4 * QT, "4 qt × 0.946353", 2 * GAL, 4),
                     (1.6 * LB, "1.6 lb × 453.592", 7 * QT, "7 qt × 0.946353", 3 * GAL, 6)]]),
    dict(name="plateau-porter", about="An ale, metric, three stages, at 2500 m, from slurry, never "
         "decanted: the last goes in whole.",
         start="2027-10-06T06:00", brew_day="2027-10-10T09:00", packaged="2027-09-20",
         form="slurry", slurry_ml=20, clumps="medium", altitude=2500, tap=16, room=22, fridge=5,
         out=1, kind="ale", beer=25, gravity=15, ferment=20,
         minutes_to_pitch=98, minutes_text="10 + 10 + 20 + 10 + 40 + 5 + 3",
         minutes_to_crash=3 * 103 + (30 + 24 + 18) * 60, grow_shape="flask",
         stages=[flask_stage(m, f"{m} g", w, f"{w} L", c, boil=10, chill_to=28, bath=15,
                             bath_text="15 L", tub=40, wait=8, temperature=t, hours=h,
                             decanted=False)
                 for m, w, c, t, h in [(40, 0.45, 1, 22, 30), (70, 0.75, 2, 23, 24),
                                       (180, 2, 5, 24, 18)]]),
    dict(name="harbour-lager", about="A lager, US units, one big stage, at sea level, boiled in a pot "
         "and moved, with ice.",
         start="2027-11-08T18:00", brew_day="2027-11-14T09:00", packaged="2027-09-09",
         form="liquid", packs=3, clumps="high", altitude=0, tap=celsius(60), room=celsius(66),
         fridge=celsius(38), out=3, kind="lager", beer=10 * GAL, gravity=1.056, ferment=celsius(50),
         minutes_to_pitch=104, minutes_text="10 + 10 + 20 + 10 + 40 + 5 + 5 + 1 + 3",
         minutes_to_crash=109 + 60 * 60, crash=48, cold=celsius(38), warm_to=celsius(52),
         grow_shape="flask",
         stages=[flask_stage(13 * OZ, "13 oz × 28.3495", 4.2 * QT, "4.2 qt × 0.946353", 4 * GAL,
                             boils_in="pot", boil_material="aluminium", grows_in=5, boil=10,
                             chill_to=celsius(68), bath=8 * GAL, bath_text="8 gal",
                             ice=3 * LB / 1000, ice_from=celsius(95), swirl=2.5, tub=12 * GAL,
                             wait=14, temperature=celsius(66), hours=60)]),
]


def main():
    stale = []
    for plan in PLANS:
        path, text = HERE / (plan["name"] + ".md"), work(plan)
        if "--check" not in sys.argv:
            path.write_text(text)
        elif not path.exists() or path.read_text() != text:
            stale.append(path.name)
    if stale:
        sys.exit("not as by_hand.py writes them: " + ", ".join(stale))


main()
