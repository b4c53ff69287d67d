// What every page does: keep the site for when there is no network, and fetch its own parts.

import { engineFrom } from "./engine";
import type { Engine } from "./engine";
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
const ours = ["sw.js", "script/viz.js", "script/engine-in-script.js"].map((name) => new URL(name, root).href);
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

async function engineBytes(): Promise<ArrayBuffer | Uint8Array> {
  if (location.protocol !== "file:") {
    const response = await fetch(new URL("script/engine.wasm", root));
    if (!response.ok) throw new Error(`the engine could not be loaded (${response.status})`);
    return response.arrayBuffer();
  }
  // A page opened from a file may not read files, but may load scripts: there the bytes are in one.
  await script("script/engine-in-script.js");
  const text = (globalThis as { starterPlanEngine?: string }).starterPlanEngine ?? "";
  return Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
}

/** The engine; where it cannot run, the page says so. */
export async function engine(): Promise<Engine> {
  try {
    return await engineFrom(await engineBytes());
  } catch (problem) {
    const told = byId("trouble");
    told.hidden = false;
    told.textContent = `This page cannot work here: ${problem instanceof Error ? problem.message : "unknown reason"}.`;
    throw problem;
  }
}

export function keepForOffline(): void {
  if (location.protocol === "file:" || !("serviceWorker" in navigator)) return;
  navigator.serviceWorker.register(address("sw.js")).catch(() => {
    // Without it the site works as long as there is a network.
  });
}
