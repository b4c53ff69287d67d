// The engine's graphs drawn by Graphviz, in the page and when the site is built.

import type { Viz } from "@viz-js/viz";

/** The picture of a graph. This Graphviz knows how wide the letters of the first font are, as long as
 * it is named alone; those after it are for readers who do not have it, and are as wide. */
export function drawn(viz: Viz, dot: string): string {
  const fonts = /fontname="([^"]+)"/.exec(dot)?.[1] ?? "";
  const first = fonts.split(",")[0] ?? "";
  const svg = viz.renderString(dot.replaceAll(`fontname="${fonts}"`, `fontname="${first}"`), { engine: "nop2", format: "svg" });
  return svg.replaceAll(`font-family="${first}"`, `font-family="${fonts}"`);
}
