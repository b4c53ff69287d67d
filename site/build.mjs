// Builds the site into a folder: scripts, style, the engine, and all pages from the engine's own
// texts. The engine must be there already, and so must the program, which tells the lessons.
//
//     STARTER_PLAN=PROGRAM node site/build.mjs [FOLDER]        else build/release/engine/starter-plan, build/site

import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { dirname, join, relative, resolve } from "node:path";
import { promisify } from "node:util";
import { build } from "esbuild";
import { bundling, filesBelow, loaded, root, site, wasm } from "./bundle.mjs";

const out = resolve(process.argv[2] ?? join(root, "build", "site"));
const fresh = `${out}.new`;
const program = process.env.STARTER_PLAN ?? join(root, "build", "release", "engine", "starter-plan");
const scripts = ["check", "common", "lesson", "mentor", "stove", "viz"];

async function put(path, content) {
  await mkdir(dirname(join(fresh, path)), { recursive: true });
  await writeFile(join(fresh, path), content);
}

// The pages' engine is kept small and holds no lessons; the program of the same sources does.
async function lessons() {
  const lesson = async (...which) =>
    JSON.parse((await promisify(execFile)(program, ["lesson", ...which, "--format", "json"])).stdout);
  const told = [];
  for (const { number } of await lesson()) told.push(await lesson(number));
  return told;
}

// The pages' scripts hold the module of one link of the engine and run both with it.
const moduleOf = async (link) => (await readFile(join(wasm, `${link}.js`), "utf8")).replaceAll(`${link}.wasm`, "the.wasm");
if ((await moduleOf("engine")) !== (await moduleOf("club")))
  throw new Error("build/wasm/engine.js and club.js differ in more than the file they load, so one cannot run the other's bytes");

await rm(fresh, { recursive: true, force: true });
await mkdir(join(fresh, "script"), { recursive: true });
const script = { ...bundling, format: "iife" };
await build({ ...script, entryPoints: scripts.map((name) => join(site, "src", `${name}.ts`)), outdir: join(fresh, "script") });
await build({ ...bundling, entryPoints: [join(site, "src", "style.css")], outdir: fresh });
const links = { engine: "starterPlanEngine", club: "starterPlanClub" };
for (const [link, variable] of Object.entries(links)) {
  const bytes = await readFile(join(wasm, `${link}.wasm`));
  await put(`script/${link}.wasm`, bytes);
  await put(`script/${link}-in-script.js`, `globalThis.${variable}="${bytes.toString("base64")}";\n`);
}

const { make } = await loaded("make/main.ts");
for (const [path, content] of Object.entries(await make({ root, wasm: await readFile(join(wasm, "club.wasm")), lessons: await lessons() }))) await put(path, content);

// Last, since it knows all the others.
const files = (await filesBelow(fresh)).map((file) => relative(fresh, file));
const hash = createHash("sha256");
for (const file of files) hash.update(file).update(await readFile(join(fresh, file)));
// Only a page opened from a file wants the engines in scripts, and there no service worker runs.
const kept = files.filter((file) => !file.endsWith("-in-script.js"));
await build({ ...script, entryPoints: [join(site, "src", "sw.ts")], outdir: fresh,
  define: { SITE_FILES: JSON.stringify(["./", ...kept]), SITE_VERSION: JSON.stringify(hash.digest("hex").slice(0, 16)) } });

await rm(out, { recursive: true, force: true });
await rename(fresh, out);
