// How the site's scripts are bundled, and its modules made to run in node.

import { webcrypto } from "node:crypto";
import { mkdtemp, readdir, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

// Browsers have this, which the diagram renderer asks for; Node only since version 19.
globalThis.crypto ??= webcrypto;

export const site = dirname(fileURLToPath(import.meta.url));
export const root = dirname(site);
/** Where build leaves the two links of the engine, `engine` and `club`, each a .js and a .wasm. */
export const wasm = join(root, "build", "wasm");

export const bundling = {
  bundle: true, minify: true, target: "es2021", charset: "utf8", logLevel: "warning", legalComments: "none",
  // The module of either takes the bytes of both: build.mjs sees to it that they are alike.
  alias: { "engine-module": join(wasm, "engine.js") },
  // The compiler's module asks where it lies, to fetch its bytes; here they are handed to it.
  define: { "import.meta.url": '"file:///engine.js"' },
  absWorkingDir: site,
};

/** A module of the site, bundled for node and loaded. */
export async function loaded(entry) {
  // Beside the packages that it imports.
  const folder = await mkdtemp(join(site, "node_modules", ".made-"));
  try {
    const outfile = join(folder, "module.mjs");
    await build({ ...bundling, minify: false, entryPoints: [join(site, entry)], outfile, format: "esm",
      platform: "node", packages: "external" });
    return await import(pathToFileURL(outfile).href);
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** All files below a folder that `wanted` takes, in order. */
export async function filesBelow(folder, wanted = () => true) {
  const found = [];
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) found.push(...(await filesBelow(path, wanted)));
    else if (wanted(path)) found.push(path);
  }
  return found.sort();
}
