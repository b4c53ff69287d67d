// Every file of the site that is made from texts: pages, pictures, manifest.

import { readFile } from "node:fs/promises";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { instance } from "@viz-js/viz";
import { engineFrom } from "../src/engine";
import { drawn } from "../src/graphviz";
import type { Lesson } from "./lessons";
import { pages } from "./pages";
import { pageText } from "./shell";

const text = (...path: string[]): Promise<string> => readFile(join(...path), "utf8");

/** A part's licence as its package brought it. */
async function licence(part: string, name: string, files: string[]): Promise<{ part: string; licence: string; text: string }> {
  const found = files.filter((file) => existsSync(file));
  if (found.length === 0) throw new Error(`no licence text of ${part} in ${files.join(", ")}`);
  return { part, licence: name, text: await text(found[0]!) };
}
const ofPackage = (name: string): string => `/usr/share/doc/${name}/copyright`;

function licences(root: string) {
  return Promise.all([
    licence("starter-plan", "MIT", [join(root, "LICENSE")]),
    licence("JSON for Modern C++", "MIT", [ofPackage("nlohmann-json3-dev")]),
    licence("{fmt}", "MIT", [ofPackage("libfmt-dev")]),
    licence("Boost", "Boost Software License 1.0", [join(root, "site", "licences", "boost.txt")]),
    licence("Emscripten, with the C and C++ libraries it brings", "MIT, and Apache 2.0 with LLVM exceptions", [ofPackage("emscripten")]),
    licence("Viz.js", "MIT", [join(root, "site", "licences", "viz-js.txt")]),
    licence("Graphviz, inside Viz.js", "Eclipse Public License", [ofPackage("libgraphviz-dev"), ofPackage("libcgraph6")]),
    licence("Expat, inside Viz.js", "MIT", [ofPackage("libexpat1")]),
  ]);
}

const icon = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64"><rect width="64" height="64" rx="12" fill="#1f3d2b"/><path d="M26 10h12v14l13 24a6 6 0 0 1-5 8H18a6 6 0 0 1-5-8l13-24z" fill="none" stroke="#f6f1e4" stroke-width="4" stroke-linejoin="round"/><path d="M20 42h24l5 9a2 2 0 0 1-2 3H17a2 2 0 0 1-2-3z" fill="#e2b04a"/></svg>
`;
const manifest = {
  name: "starter-plan", short_name: "starter-plan", start_url: "index.html", display: "standalone", lang: "en-GB",
  background_color: "#16150f", theme_color: "#1f3d2b",
  icons: [{ src: "icon.svg", sizes: "any", type: "image/svg+xml" }],
};

export async function make({ root, wasm, lessons }: { root: string; wasm: Uint8Array; lessons: Lesson[] }): Promise<{ [path: string]: string }> {
  const engine = await engineFrom(wasm);
  const viz = await instance();
  const plan = async (title: string, ...path: string[]) => ({ title, text: await text(root, ...path) });
  const made = pages({
    engine,
    lessons,
    draw: (dot) => drawn(viz, dot),
    plans: await Promise.all([
      plan("A sound plan", "lessons", "plans", "sound.plan.json"),
      plan("A newcomer's plan, to mend", "lessons", "plans", "newcomer.plan.json"),
      plan("Two stages for a lager", "lessons", "plans", "stepped-lager.plan.json"),
      plan("As little as a plan may say", "site", "short.plan.json"),
    ]),
    licences: await licences(root),
  });
  return {
    ...Object.fromEntries(made.pages.map((page) => [page.path, pageText(page)])),
    ...made.pictures,
    "icon.svg": icon,
    "site.webmanifest": JSON.stringify(manifest) + "\n",
  };
}
