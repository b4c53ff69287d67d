// The files that belong to plans: what a mentor accepted of one, and the practice of a club. A plan is
// judged with them as the program does it.

import { button, coded, fill, h } from "./dom";
import type { Engine } from "./engine";
import { forget, keep, kept } from "./kept";
import { showErrors } from "./results";
import type { PlanError, Practice } from "./types";

export type Kind = "plan" | "accepted" | "practice";

export const mostRead = 1 << 20; // bytes of a file, as the engine has it; it says of more that it is too much
/** Only of what the engine could read, so these are the very bytes, a byte order mark among them. */
export const textOf = (bytes: Uint8Array): string => new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
export const bytesOf = async (file: File): Promise<Uint8Array> => new Uint8Array(await file.slice(0, mostRead + 1).arrayBuffer());

/** By its name; where that does not tell, by what is in it. */
export function kindOf(name: string, text: string): Kind {
  const named = /\.(plan|accepted|practice)\.json$/i.exec(name)?.[1]?.toLowerCase();
  if (named) return named as Kind;
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value === "object" && value !== null && !("plan" in value))
      for (const kind of ["accepted", "practice"] as const) if (kind in value) return kind;
  } catch {
    // The engine tells what is wrong with it.
  }
  return "plan";
}

/** "harvest.accepted.json" for "harvest.plan.json", as the program has it. */
export const acceptedNameOf = (plan: string): string =>
  [".json", ".plan"].reduce((stem, ending) => (stem.length > ending.length && stem.endsWith(ending) ? stem.slice(0, -ending.length) : stem), plan) +
  ".accepted.json";

/** A file that cannot be used, with its errors. */
export function errorsOf(file: string, errors: PlanError[]): HTMLElement {
  const list = h("ul", { class: "findings" });
  showErrors(list, errors, { whole: "the whole file", places: true });
  return h("div", { class: "trouble" },
    h("p", {}, h("strong", {}, file), ` cannot be used: ${errors.length === 1 ? "1 thing" : `${errors.length} things`} to mend.`), list);
}

/** Puts the practice in force that this browser kept, where the engine can read it. */
export function inForce(engine: Engine): Practice | undefined {
  const text = kept("practice");
  if (text === undefined || !engine.forClubs) return undefined;
  const told = engine.practiceIn(text, "");
  if ("errors" in told) return undefined;
  engine.practice = text;
  return told;
}

/** Acceptances that were kept or came in a link, where they can be used and the engine can read them. */
export const usableAccepted = (engine: Engine, text: string | undefined): string | undefined =>
  text === undefined || !engine.forClubs || "errors" in engine.acceptedIn(text, "") ? undefined : text;

const some = (count: number, one: string, more: string): string => (count === 0 ? "" : `${count} ${count === 1 ? one : more}`);

/** What a practice file changes, in short and rule by rule. */
function changesOf({ rules, off }: Practice): HTMLElement {
  const own = rules.filter((rule) => rule.own).length;
  const short = [some(rules.length - own, "rule changed", "rules changed"), some(own, "rule of its own", "rules of its own"),
    some(off.length, "rule not used", "rules not used")].filter((text) => text !== "").join(", ");
  if (short === "") return h("p", {}, "It changes no rule.");
  return h("details", { class: "fold" }, h("summary", {}, short),
    h("ul", {}, ...rules.map((rule) => h("li", {}, h("strong", {}, rule.title), " – ", ...coded(rule.says))),
      ...off.map((rule) => h("li", {}, h("strong", {}, rule.title), " – not used: ", ...coded(rule.because)))));
}

/** The practice that plans are judged by, in its place on a page. It stays in this browser, for all of
 * the site's pages. */
export class PracticePart {
  told: Practice | undefined;

  constructor(private readonly place: HTMLElement, private readonly engine: Engine, private readonly changed: () => void) {
    this.begin();
  }

  /** With what was kept; once more when the engine has become that for clubs. */
  begin(): void {
    this.told = inForce(this.engine);
    this.show();
  }

  /** The engine must be that for clubs. @return whether it is in force; else its errors are shown. */
  take(file: string, bytes: Uint8Array): boolean {
    const told = this.engine.practiceIn(bytes, file);
    if ("errors" in told) {
      this.show(errorsOf(file, told.errors));
      return false;
    }
    const text = textOf(bytes);
    this.engine.practice = text;
    this.told = told;
    this.show(!keep("practice", text) && h("p", {}, "This browser does not keep it: choose the file again after a reload."));
    this.changed();
    return true;
  }

  takeAway(): void {
    forget("practice");
    this.engine.practice = undefined;
    this.told = undefined;
    this.show();
    this.changed();
  }

  private show(more?: HTMLElement | false): void {
    fill(this.place, more, this.told && h("div", { class: "in-force" },
      h("p", {}, "Judged by the practice of ", h("strong", {}, this.told.club), "."), changesOf(this.told),
      button("Take this practice away", () => {
        this.takeAway();
        this.place.append(h("p", {}, "Judged by the rules as they stand again."));
        this.place.focus();
      }, { class: "quiet" })));
  }
}
