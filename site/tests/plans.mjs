// Many plans, the same in every run: those of the corpora with their numbers changed, parts taken
// away and steps moved, and now and then a byte that does not belong there.

import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { filesBelow, root } from "../bundle.mjs";

/** Every plan in the tests and lessons. */
export async function corpus() {
  const ofTests = await filesBelow(join(root, "tests", "plans"), (f) => f.endsWith(".plan.json"));
  const ofLessons = await filesBelow(join(root, "lessons"), (f) => f.endsWith(".json"));
  return [...ofTests, ...ofLessons];
}

/** Numbers from 0 to 1, the same from the same seed (mulberry32, public domain). */
function dice(seed) {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const quantity = /^(-?\d+(?:\.\d+)?)( ?[^\d-].*)$/;

/** Somewhere between a fifth and five times as much; sometimes in many digits. */
function changed(text, roll) {
  const found = quantity.exec(text);
  if (!found) return text;
  const value = Number(found[1]) * Math.exp((roll() - 0.5) * (roll() < 0.7 ? 0.6 : 3.2));
  return value.toPrecision(roll() < 0.5 ? 3 : 9).replace(/e.*/, "") + found[2];
}

function altered(value, roll, share) {
  if (typeof value === "string") return roll() < share ? changed(value, roll) : value;
  if (Array.isArray(value)) {
    const items = value.filter(() => roll() > 0.02).map((item) => altered(item, roll, share));
    if (items.length > 1 && roll() < 0.15) {
      const at = Math.floor(roll() * (items.length - 1));
      [items[at], items[at + 1]] = [items[at + 1], items[at]];
    }
    return items;
  }
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).filter(() => roll() > 0.015).map(([k, v]) => [k, altered(v, roll, share)]));
}

/** `count` plans as bytes. */
export async function generated(count, seed = 20270316) {
  const seeds = [];
  for (const file of await corpus()) {
    if (file.includes("/bad/")) continue;
    try {
      const plan = JSON.parse((await readFile(file, "utf8")).replace(/^\uFEFF/, ""));
      if (plan.plan === 1) seeds.push(plan);
    } catch {
      // A plan with a mistake of syntax is no seed.
    }
  }
  const roll = dice(seed);
  return Array.from({ length: count }, () => {
    const plan = seeds[Math.floor(roll() * seeds.length)];
    const bytes = Buffer.from(JSON.stringify(altered(plan, roll, 0.05 + 0.5 * roll()), null, roll() < 0.5 ? 2 : 0));
    if (roll() < 0.05) bytes[Math.floor(roll() * bytes.length)] = Math.floor(roll() * 256);
    return bytes;
  });
}
