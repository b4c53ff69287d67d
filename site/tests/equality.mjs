// The engine of the pages against the program: the same bytes for every plan of the corpora and for
// generated ones.
//
//     node site/tests/equality.mjs PROGRAM [COUNT]

import { execFileSync } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { loaded, wasm } from "../bundle.mjs";
import { corpus, generated } from "./plans.mjs";

const [program, count = "200"] = process.argv.slice(2);
const { engineFrom } = await loaded("src/engine.ts");
const engine = await engineFrom(await readFile(join(wasm, "engine.wasm")));
const folder = await mkdtemp(join(tmpdir(), "equality-"));

/** What the program prints for these files: several plans come in an array. */
function printed(files, units) {
  const options = { encoding: "utf8", maxBuffer: 1 << 30 };
  try {
    return execFileSync(program, ["check", "--format", "json", "--units", units, ...files], options);
  } catch (ended) {
    // Plans with findings or errors end with 1 or 2.
    if (ended.status !== 1 && ended.status !== 2) throw ended;
    return ended.stdout;
  }
}

const inArray = (documents) =>
  `[\n${documents.map((d) => d.trimEnd().split("\n").map((line) => `  ${line}`).join("\n")).join(",\n")}\n]\n`;

let compared = 0, usable = 0, findings = 0, faults = 0;
async function compare(files, units) {
  const ours = [];
  for (const name of files) ours.push(engine.text({ do: "check", name, units }, await readFile(name)));
  const expected = printed(files, units);
  if (inArray(ours) !== expected) {
    const lines = expected.split("\n"), mine = inArray(ours).split("\n");
    const at = lines.findIndex((line, i) => line !== mine[i]);
    console.log(`differs at line ${at + 1} of the plans from ${files[0]}:\n  program ${lines[at]}\n  page    ${mine[at]}`);
    ++faults;
  }
  for (const text of ours) {
    ++compared;
    const told = JSON.parse(text);
    if ("findings" in told) {
      ++usable;
      findings += told.findings.length;
    }
  }
}

try {
  const files = await corpus();
  const made = await generated(Number(count));
  for (const [i, bytes] of made.entries()) {
    const file = join(folder, `${i}.plan.json`);
    await writeFile(file, bytes);
    files.push(file);
  }
  for (let i = 0; i < files.length; i += 50) await compare(files.slice(i, i + 50), (i / 50) % 4 === 3 ? "us" : "metric");
} finally {
  await rm(folder, { recursive: true });
}
console.log(`${compared} plans compared, ${usable} of them usable, with ${findings} findings; ${faults} differences`);
if (compared < Number(count) || usable < compared / 4) throw new Error("too few plans to compare");
process.exitCode = faults > 0 ? 1 : 0;
