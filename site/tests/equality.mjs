// The engines of the pages against the program: the same bytes for every plan of the corpora and for
// generated ones, one plan by the small engine and the next by that for clubs; then, by the latter, with
// acceptances, which both make and heed, and with clubs' practice files.
//
//     node site/tests/equality.mjs PROGRAM [COUNT] [checks]
//
// "checks": for a program that can only check, as that of tests/other-processor.

import { execFileSync } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { filesBelow, loaded, root, wasm } from "../bundle.mjs";
import { corpus, generated } from "./plans.mjs";

const [program, count = "200", only] = process.argv.slice(2);
const { engineFrom } = await loaded("src/engine.ts");
const [small, engine] = await Promise.all(["engine", "club"].map(async (link) => engineFrom(await readFile(join(wasm, `${link}.wasm`)))));
const folder = await mkdtemp(join(tmpdir(), "equality-"));

/** What the program prints for these files: several plans come in an array. */
function printed(files, units, more = []) {
  const options = { encoding: "utf8", maxBuffer: 1 << 30 };
  try {
    return execFileSync(program, ["check", "--format", "json", "--units", units, ...more, ...files], options);
  } catch (ended) {
    // Plans with findings or errors end with 1 or 2.
    if (ended.status !== 1 && ended.status !== 2) throw ended;
    return ended.stdout;
  }
}

/** What differs is told, and counted. */
function agree(mine, expected, of) {
  if (mine === expected) return;
  const lines = expected.split("\n"), ours = mine.split("\n");
  const at = lines.findIndex((line, i) => line !== ours[i]);
  console.log(`differs at line ${at + 1} of ${of}:\n  program ${lines[at]}\n  page    ${ours[at]}`);
  ++faults;
}

const inArray = (documents) =>
  `[\n${documents.map((d) => d.trimEnd().split("\n").map((line) => `  ${line}`).join("\n")).join(",\n")}\n]\n`;

let compared = 0, usable = 0, findings = 0, faults = 0;
async function compare(files, units) {
  const ours = [];
  for (const [i, name] of files.entries())
    ours.push((i % 2 === 0 ? small : engine).text({ do: "check", name, units }, await readFile(name)));
  const expected = printed(files, units);
  agree(inArray(ours), expected, `the plans from ${files[0]}`);
  compared += files.length;
  for (const text of ours) {
    const told = JSON.parse(text);
    if ("findings" in told) {
      ++usable;
      findings += told.findings.length;
    }
  }
}

/** A mentor accepts findings of a plan, the plan changes, one word is taken back: file by file. */
async function acceptances(bytes, later, name) {
  const plan = join(folder, `${name}.plan.json`), beside = join(folder, `${name}.accepted.json`);
  await writeFile(plan, bytes);
  const found = JSON.parse(engine.text({ do: "check" }, bytes)).findings ?? [];
  const places = [...new Map(found.map((f) => [`${f.rule} ${f.where}`, f])).values()].filter((_, i) => i % 3 === 0).slice(0, 3);
  let accepted;
  for (const [i, { rule, where }] of places.entries()) {
    const word = { rule, where, by: "Sorrel", because: `“free” here – <${i}> \\ ok`, on: i === 1 ? "" : "2027-03-10" };
    accepted = engine.accept({ plan: bytes, accepted }, plan, word);
    execFileSync(program, ["accept", plan, rule, "--at", where, "--by", word.by, "--because", word.because, ...(word.on ? ["--on", word.on] : [])]);
    agree(accepted, await readFile(beside, "utf8"), beside);
    ++words;
  }
  if (accepted === undefined) return;
  for (const version of [bytes, later]) {
    await writeFile(plan, version);
    const text = engine.text({ do: "check", name: plan }, { plan: version, accepted });
    agree(text, printed([plan], "metric"), `${plan} with its acceptances`);
    opened += (JSON.parse(text).findings ?? []).filter((f) => f.reopened).length;
  }
  await writeFile(plan, bytes);
  const [{ rule, where }, ...left] = places;
  accepted = engine.withdraw(accepted, { rule, where });
  execFileSync(program, ["accept", plan, rule, "--at", where, "--withdraw"]);
  if (left.length > 0) agree(accepted, await readFile(beside, "utf8"), beside);
  await rm(beside, { force: true });
}

/** The same plans by each club's practice. */
async function practices(plans) {
  const files = await filesBelow(join(root, "tests", "practices", "good"));
  for (const file of [join(root, "lessons", "plans", "lantern-lane.practice.json"), ...files]) {
    engine.practice = await readFile(file);
    const ours = [];
    for (const name of plans) ours.push(engine.text({ do: "check", name }, await readFile(name)));
    agree(inArray(ours), printed(plans, "metric", ["--practice", file]), `plans by ${file}`);
  }
  engine.practice = undefined;
}

let words = 0, opened = 0;
try {
  const files = await corpus();
  const made = await generated(Number(count));
  for (const [i, bytes] of made.entries()) {
    const file = join(folder, `${i}.plan.json`);
    await writeFile(file, bytes);
    files.push(file);
  }
  const seeds = (await corpus()).filter((file) => /\/(faulty|good)\/|\/lessons\/[0-9].*\/plan\.json$/.test(file));
  const some = seeds.filter((_, i) => i % Math.ceil(seeds.length / 24) === 0);
  for (const [i, file] of only === "checks" ? [] : some.entries()) {
    const bytes = await readFile(file);
    const later = Buffer.from(bytes.toString("utf8").replace(/"(\d)(\d*(?:\.\d+)?) (g|L)"/g, (_, a, b, unit) => `"${a === "1" ? 2 : 1}${b} ${unit}"`));
    await acceptances(bytes, later, `accepted-${i}`);
  }
  if (only !== "checks") await practices(some.slice(0, 12));
  for (let i = 0; i < files.length; i += 50) await compare(files.slice(i, i + 50), (i / 50) % 4 === 3 ? "us" : "metric");
} finally {
  await rm(folder, { recursive: true });
}
console.log(`${compared} plans compared, ${usable} of them usable, with ${findings} findings; ${words} findings accepted, ${opened} of them open again; ${faults} differences`);
if (only !== "checks" && (words < 30 || opened < 5)) throw new Error("too few acceptances to compare");
if (compared < Number(count) || usable < compared / 4) throw new Error("too few plans to compare");
process.exitCode = faults > 0 ? 1 : 0;
