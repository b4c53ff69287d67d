// Graphviz, in a script of its own, since it is much larger than the rest of the site.

import { instance } from "@viz-js/viz";
import { drawn } from "./graphviz";

(globalThis as { starterPlanDraw?: Promise<(dot: string) => string> }).starterPlanDraw = instance().then(
  (viz) => (dot: string) => drawn(viz, dot));
