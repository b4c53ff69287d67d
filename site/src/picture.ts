// The process as a picture. The engine writes the graph; Graphviz, loaded when it is first wanted,
// draws it. It is shown as an image, in which nothing can run and no markup becomes part of the page.

import type { Engine } from "./engine";
import { h, uncoded } from "./dom";
import { script } from "./site";
import type { Drawn } from "./types";

type Draw = (dot: string) => string;

let loading: Promise<Draw> | undefined;
function graphviz(): Promise<Draw> {
  loading ??= script("script/viz.js").then(async () => {
    const draw = await (globalThis as { starterPlanDraw?: Promise<Draw> }).starterPlanDraw;
    if (!draw) throw new Error("the drawing part could not be loaded");
    return draw;
  });
  return loading;
}

let shown: string | undefined;

/** Draws into `place`. The picture is as wide as its type needs, and scrolls where that is wider. */
export async function showPicture(place: HTMLElement, engine: Engine, drawn: Drawn): Promise<void> {
  const draw = await graphviz();
  const svg = engine.picture(draw(drawn.dot), drawn);
  const url = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  const image = h("img", { src: url, alt: uncoded(drawn.about) });
  await image.decode().catch(() => undefined);
  place.replaceChildren(h("div", { class: "canvas", tabindex: "0", role: "group", "aria-label": "The picture; it scrolls" }, image));
  if (shown) URL.revokeObjectURL(shown);
  shown = url;
}
