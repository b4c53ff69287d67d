// What every page does: keep the site for when there is no network, and fetch its own parts.

import { engineFrom } from "./engine";
import type { Bytes, Engine } from "./engine";
import { byId } from "./dom";

interface Policy {
  createScriptURL(url: string): string;
}
interface Types {
  createPolicy(name: string, rules: { createScriptURL(url: string): string }): Policy;
}

const own = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : location.href;
/** The site's own folder, where its scripts lie. */
export const root = new URL("..", own);

// The page's policy lets a script's address be set only here, and only to these.
const ours = ["sw.js", "script/viz.js", "script/engine-in-script.js", "script/club-in-script.js"].map((name) => new URL(name, root).href);
const types = (globalThis as { trustedTypes?: Types }).trustedTypes;
const check = (url: string): string => {
  if (!ours.includes(url)) throw new TypeError("not a script of this site");
  return url;
};
const policy: Policy = types?.createPolicy("starter-plan", { createScriptURL: check }) ?? { createScriptURL: check };
const address = (name: string): string => policy.createScriptURL(new URL(name, root).href);

/** Loads one of the site's scripts that pages want only sometimes. */
export function script(name: string): Promise<void> {
  return new Promise((done, failed) => {
    const element = document.createElement("script");
    element.src = address(name);
    element.onload = () => done();
    element.onerror = () => failed(new Error(`${name} could not be loaded`));
    document.head.append(element);
  });
}

type Link = "engine" | "club";
/** Where a page that is opened from a file finds the bytes, once their script has run. */
const inScript = { engine: "starterPlanEngine", club: "starterPlanClub" } as const;

async function bytesOf(link: Link): Promise<Bytes> {
  if (location.protocol !== "file:") {
    // What a browser itself says of a lost network is in its own words.
    const response = await fetch(new URL(`script/${link}.wasm`, root)).catch(() => {
      throw new Error("the network or the site did not answer");
    });
    if (!response.ok) throw new Error(`the engine could not be loaded (${response.status})`);
    return response.arrayBuffer();
  }
  // A page opened from a file may not read files, but may load scripts: there the bytes are in one.
  await script(`script/${link}-in-script.js`);
  const text = (globalThis as { [name: string]: unknown })[inScript[link]] as string;
  return Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
}

const reasonOf = (problem: unknown): string => (problem instanceof Error ? problem.message : "unknown reason");

function trouble(says: string): void {
  const told = byId("trouble");
  told.hidden = says === "";
  told.textContent = says;
  if (says !== "") told.scrollIntoView({ block: "nearest" });
}
const lacksClub = (problem: unknown): void =>
  trouble(`The part of this page that reads a club’s practice and a mentor’s acceptances could not be loaded: ${reasonOf(problem)}. The plan is judged without them. To try once more, load the page again or open the file again.`);

async function orSay(engine: Promise<Engine>): Promise<Engine> {
  try {
    return await engine;
  } catch (problem) {
    trouble(`This page cannot work here: ${reasonOf(problem)}.`);
    throw problem;
  }
}

const clubEngine = async (): Promise<Engine> => engineFrom(await bytesOf("club"));
const smallEngine = async (): Promise<Engine> => engineFrom(await bytesOf("engine"), () => bytesOf("club"));

/** The engine for clubs; where it cannot run, the page says so. */
export const engineForClubs = (): Promise<Engine> => orSay(clubEngine());

/** The small engine, or that for clubs where there is one of these files. Where that cannot be had the
 * page says so and works on without the files; where neither can run, it says that. */
export async function engineFor(...files: (string | undefined)[]): Promise<Engine> {
  if (files.every((file) => file === undefined)) return orSay(smallEngine());
  try {
    return await clubEngine();
  } catch (problem) {
    const engine = await orSay(smallEngine());
    lacksClub(problem);
    return engine;
  }
}

/** Makes the engine one that reads clubs' files. @return whether it is; else the page says why not. */
export async function readsClubs(engine: Engine): Promise<boolean> {
  try {
    await engine.needClub();
    trouble("");
    return true;
  } catch (problem) {
    lacksClub(problem);
    return false;
  }
}

export function keepForOffline(): void {
  if (location.protocol === "file:" || !("serviceWorker" in navigator)) return;
  navigator.serviceWorker.register(address("sw.js")).catch(() => {
    // Without it the site works as long as there is a network.
  });
}
