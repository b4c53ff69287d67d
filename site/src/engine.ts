// The engine, as the page calls it: a request and a plan's bytes go in, what it answers comes out.

import create from "engine-module";
import type { EngineModule } from "engine-module";
import type {
  Caution, Drawn, Explained, Fields, Look, Operation, PlanError, Refused, RuleRows, Units, Unusable,
} from "./types";

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/** A request that the engine could not carry out. */
export class RequestRefused extends Error {}

export class Engine {
  constructor(private readonly module: EngineModule) {}

  /** The answer as the engine wrote it. */
  text(request: object, plan: string | Uint8Array = ""): string {
    const asked = encoder.encode(JSON.stringify(request));
    const bytes = typeof plan === "string" ? encoder.encode(plan) : plan;
    const at = this.module._malloc(asked.length + bytes.length + 1);
    try {
      this.module.HEAPU8.set(asked, at);
      this.module.HEAPU8.set(bytes, at + asked.length);
      const told = this.module._starter_plan_answer(at, asked.length, at + asked.length, bytes.length);
      const memory = this.module.HEAPU8;
      return decoder.decode(memory.subarray(told, memory.indexOf(0, told)));
    } finally {
      this.module._free(at);
    }
  }

  private ask<T>(request: object, plan: string | Uint8Array = ""): T {
    const told = JSON.parse(this.text(request, plan)) as T | Refused;
    if (typeof told === "object" && told !== null && "error" in told) throw new RequestRefused(told.error);
    return told as T;
  }

  look(plan: string | Uint8Array, units: Units, wanted: { fixes?: boolean; numbers?: boolean; name?: string } = {}): Look {
    const { fixes = false, numbers = false, name = "-" } = wanted;
    return this.ask({ do: "look", name, units, fixes, numbers }, plan);
  }
  change(plan: string, patch: Operation[]): string {
    return this.ask<{ plan: string }>({ do: "change", patch }, plan).plan;
  }
  /** The plan with the usual steps written into it; as it was where it has steps. */
  withSteps(plan: string): string {
    const told = this.ask<{ plan: string } | Unusable>({ do: "steps" }, plan);
    return "errors" in told ? plan : told.plan;
  }
  draw(plan: string, units: Units): Drawn | Unusable {
    return this.ask({ do: "draw", units }, plan);
  }
  drawStandard(units: Units): Drawn {
    return this.ask({ do: "draw", units, standard: true });
  }
  drawRule(rule: string, units: Units): Drawn {
    return this.ask({ do: "draw", units, rule });
  }
  picture(svg: string, drawn: Drawn): string {
    return this.ask<{ svg: string }>({ do: "picture", svg, title: drawn.title, about: drawn.about }).svg;
  }
  calendarFile(plan: string, units: Units): string {
    const told = this.ask<{ ics: string } | Unusable>({ do: "calendar", units }, plan);
    if ("errors" in told) throw new RequestRefused(firstError(told.errors));
    return told.ics;
  }
  explain(): Explained[] {
    return this.ask({ do: "explain" });
  }
  rows(rule: string, units: Units): RuleRows {
    return this.ask({ do: "rows", rule, units });
  }
  schema(): Fields {
    return this.ask({ do: "schema" });
  }
  cautions(): Caution[] {
    return this.ask({ do: "cautions" });
  }
}

const firstError = (errors: PlanError[]): string => errors[0]?.says ?? "";

export async function engineFrom(wasmBinary: ArrayBuffer | Uint8Array): Promise<Engine> {
  return new Engine(await create({ wasmBinary }));
}
