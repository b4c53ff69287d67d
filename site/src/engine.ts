// The engine, as the page calls it: a request and a plan's bytes go in, what it answers comes out.
// There are two links of it. The small one judges a member's own plan; that for clubs also reads
// practice files and keeps acceptances, and takes the place of the small one when such a file comes.

import create from "engine-module";
import type { EngineModule } from "engine-module";
import type {
  Caution, Drawn, Explained, Fields, Look, Operation, PlanError, Practice, Refused, RuleRows, Units, Unusable,
} from "./types";

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/** A request that the engine could not carry out. */
export class RequestRefused extends Error {}

/** Of a .wasm. */
export type Bytes = ArrayBuffer | Uint8Array;
export type FileText = string | Uint8Array;
/** A plan's text, alone or with the acceptances that are kept beside it. */
export type PlanText = FileText | { plan: FileText; accepted: FileText | undefined };

const bytesOf = (text: FileText): Uint8Array => (typeof text === "string" ? encoder.encode(text) : text);

export class Engine {
  /** The club's practice file that plans are judged by, if any. */
  practice: FileText | undefined;

  private coming: Promise<void> | undefined;

  /** @param loadClub fetches the engine for clubs; none where the module is that already. */
  constructor(private module: EngineModule, private loadClub?: () => Promise<Bytes>) {}

  /** Whether it can read clubs' files; else only after needClub(). */
  get forClubs(): boolean {
    return this.loadClub === undefined;
  }

  /** Puts the engine for clubs in this one's place. Where that cannot be had it throws, and this one
   * works on. */
  needClub(): Promise<void> {
    this.coming ??= this.becomeClub().catch((problem: unknown) => {
      this.coming = undefined; // so that the next file tries again
      throw problem;
    });
    return this.coming;
  }
  private async becomeClub(): Promise<void> {
    if (this.loadClub === undefined) return;
    this.module = await create({ wasmBinary: await this.loadClub() });
    this.loadClub = undefined;
  }

  /** The answer as the engine wrote it. The files beside the plan follow its bytes. */
  text(request: object, given: PlanText = ""): string {
    const { plan, accepted } = typeof given === "string" || given instanceof Uint8Array ? { plan: given, accepted: undefined } : given;
    const [files, club] = [accepted, this.practice].map((file) => (file === undefined ? undefined : bytesOf(file)));
    const asked = encoder.encode(JSON.stringify({ ...request, accepted: files?.length, practice: club?.length }));
    const parts = [asked, bytesOf(plan), files, club].filter((part) => part !== undefined);
    const size = parts.reduce((sum, part) => sum + part.length, 0);
    const at = this.module._malloc(size + 1);
    try {
      let end = at;
      for (const part of parts) {
        this.module.HEAPU8.set(part, end);
        end += part.length;
      }
      const told = this.module._starter_plan_answer(at, asked.length, at + asked.length, size - asked.length);
      const memory = this.module.HEAPU8;
      return decoder.decode(memory.subarray(told, memory.indexOf(0, told)));
    } finally {
      this.module._free(at);
    }
  }

  private ask<T>(request: object, plan: PlanText = ""): T {
    const told = JSON.parse(this.text(request, plan)) as T | Refused;
    if (typeof told === "object" && told !== null && "error" in told) throw new RequestRefused(told.error);
    return told as T;
  }

  /** Asks with this practice in force. */
  private with<T>(practice: FileText, ask: () => T): T {
    const was = this.practice;
    this.practice = practice;
    try {
      return ask();
    } finally {
      this.practice = was;
    }
  }

  look(plan: PlanText, units: Units, wanted: { advice?: boolean; numbers?: boolean; name?: string } = {}): Look {
    const { advice = false, numbers = false, name = "-" } = wanted;
    return this.ask({ do: "look", name, units, advice, numbers }, plan);
  }
  change(plan: string, patch: Operation[]): string {
    return this.ask<{ plan: string }>({ do: "change", patch }, plan).plan;
  }
  /** The plan with the usual steps written into it; as it was where it has steps. */
  withSteps(plan: string): string {
    const told = this.ask<{ plan: string } | Unusable>({ do: "steps" }, plan);
    return "errors" in told ? plan : told.plan;
  }
  draw(plan: PlanText, units: Units): Drawn | Unusable {
    return this.ask({ do: "draw", units }, plan);
  }
  drawStandard(units: Units): Drawn {
    return this.ask({ do: "draw_process", units });
  }
  drawRule(rule: string, units: Units): Drawn {
    return this.ask({ do: "draw_rule", units, rule });
  }
  picture(svg: string, drawn: Drawn): string {
    return this.ask<{ svg: string }>({ do: "picture", svg, title: drawn.title, about: drawn.about }).svg;
  }
  calendarFile(plan: PlanText, units: Units): string {
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
  /** What the practice file changes, or its errors. */
  practiceIn(file: FileText, name: string): Practice | Unusable {
    return this.with(file, () => this.ask({ do: "practice", name }));
  }
  /** Which findings the file accepts, or its errors. */
  acceptedIn(accepted: FileText, name: string): { records: { rule: string; where: string }[] } | Unusable {
    return this.ask({ do: "accepted", name }, { plan: "", accepted });
  }
  /** The acceptances with one more: what the file beside the plan is then. */
  accept(plan: PlanText, name: string, word: { rule: string; where: string; by: string; because: string; on: string }): string {
    const told = this.ask<{ accepted: string } | Unusable>({ do: "accept", name, ...word }, plan);
    if ("errors" in told) throw new RequestRefused(firstError(told.errors));
    return told.accepted;
  }
  withdraw(accepted: FileText, word: { rule: string; where: string }): string {
    return this.ask<{ accepted: string }>({ do: "withdraw", rule: word.rule, where: word.where }, { plan: "", accepted }).accepted;
  }
  cautions(): Caution[] {
    return this.ask({ do: "cautions" });
  }
}

const firstError = (errors: PlanError[]): string => errors[0]?.says ?? "";

/** @param loadClub where these are the small engine's bytes and that for clubs may be wanted. */
export async function engineFrom(wasmBinary: Bytes, loadClub?: () => Promise<Bytes>): Promise<Engine> {
  return new Engine(await create({ wasmBinary }), loadClub);
}
