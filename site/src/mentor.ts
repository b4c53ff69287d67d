// For mentors: many plans at once, each opened, findings accepted with a reason as the program's accept
// does it, and the files to hand back. All of it stays in this browser until it is saved or forgotten.

import "./common";
import { PracticePart, acceptedNameOf, bytesOf, kindOf, textOf } from "./beside";
import type { Kind } from "./beside";
import { button, byId, download, fill, h, newId } from "./dom";
import type { Engine, FileText, PlanText } from "./engine";
import { RequestRefused } from "./engine";
import { forget, keep, kept } from "./kept";
import { at } from "./pointer";
import { counts, findingCard, showErrors, showKeyNumbers, tally, wordsOf } from "./results";
import { fragmentOf } from "./share";
import { engineForClubs } from "./site";
import { got, put, remove } from "./store";
import { isUsable } from "./types";
import type { Finding, Look, Severity, Units, Value, Word } from "./types";

/** A plan file, and the file beside it; what is kept. */
interface Files {
  file: string;
  plan: Uint8Array;
  accepted: FileText | undefined;
  /** Its acceptances are not those of the file that was read or saved last. */
  unsaved: boolean;
}
interface Read extends Files {
  member: string;
  look: Look;
}
/** Acceptances whose plan is not here, by the file's name. */
type Lonely = Map<string, FileText>;
interface Kept {
  plans: Files[];
  lonely: Lonely;
}

const rank: { [severity in Severity]: number } = { danger: 0, spoils: 1, weakens: 2, note: 3 };

/** Worst first; plans that cannot be used before all, those in which all is accepted last. */
function order({ look }: Read): number {
  if (!isUsable(look.check)) return -1;
  return Math.min(4, ...look.check.findings.filter(counts).map((f) => rank[f.severity]));
}

function memberOf(plan: Uint8Array): string {
  try {
    const member = at(JSON.parse(textOf(plan)) as Value, "/member");
    return typeof member === "string" ? member : "";
  } catch {
    return "";
  }
}

/** "2027-03-10", on the clock on the wall. */
function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

const given = ({ plan, accepted }: Files): PlanText => ({ plan, accepted });
const same = (a: Uint8Array, b: Uint8Array): boolean => a.length === b.length && a.every((byte, i) => byte === b[i]);
const listed = (names: string[]): string => names.join(", ");

class Mentor {
  private plans: Read[] = [];
  private lonely: Lonely = new Map();
  private shown: Read | undefined;
  private readonly units: Units = kept("units") === "us" ? "us" : "metric";
  private readonly practice: PracticePart;
  private readonly name = byId<HTMLInputElement>("mentor");
  private readonly day = byId<HTMLInputElement>("day");
  private judging: Promise<void> = Promise.resolve();
  /** One after the other, so that the last that is kept is the last that was done. */
  private keeping: Promise<unknown> = Promise.resolve();

  constructor(private readonly engine: Engine) {
    this.practice = new PracticePart(byId("practice"), engine, () => {
      this.judging = this.judgeAll();
    });
    const choose = byId<HTMLInputElement>("choose");
    choose.addEventListener("change", () => {
      void this.read([...(choose.files ?? [])]);
      choose.value = "";
    });
    document.addEventListener("dragover", (event) => event.preventDefault());
    document.addEventListener("drop", (event) => {
      event.preventDefault();
      void this.read([...(event.dataTransfer?.files ?? [])]);
    });
    this.name.value = kept("mentor") ?? "";
    this.name.addEventListener("input", () => keep("mentor", this.name.value));
    this.day.value = today();
    byId("save-accepted").addEventListener("click", () => this.save(this.plans.filter((plan) => plan.unsaved)));
    byId("export").addEventListener("click", () => this.export());
    byId("print").addEventListener("click", () => print());
    byId("clear").addEventListener("click", () => this.forget());
    this.show();
    void this.begin();
  }

  /** With what was kept at the last visit. */
  private async begin(): Promise<void> {
    try {
      const before = (await got("mentor")) as Kept | undefined;
      if (before) {
        this.lonely = before.lonely;
        for (const files of before.plans) this.plans.push({ ...files, ...this.judged(files) });
      }
    } catch {
      this.keepsNothing();
    }
    this.show();
    document.documentElement.dataset["ready"] = "true";
  }

  private judged(files: Files): { look: Look; member: string } {
    return { look: this.engine.look(given(files), this.units, { advice: true, name: files.file }), member: memberOf(files.plan) };
  }

  /** Plan by plan, so that the page stays alive with a whole club's plans. */
  private async judgeAll(): Promise<void> {
    const plans = [...this.plans];
    for (const [i, plan] of plans.entries()) {
      this.say(`Reading ${i + 1} of ${plans.length}`);
      Object.assign(plan, this.judged(plan));
      await new Promise((later) => setTimeout(later));
    }
    this.say(this.plans.length === 0 ? "" : `${this.plans.length} plans.`);
    this.show();
  }

  private async read(files: File[]): Promise<void> {
    this.say(`Reading 1 of ${files.length}`);
    const notes: string[] = [];
    const all = await Promise.all(files.map(async ({ name }, i) => {
      const bytes = await bytesOf(files[i]!);
      return { name, bytes, kind: kindOf(name, textOf(bytes)) };
    }));
    const of = (kind: Kind) => all.filter((file) => file.kind === kind);
    // First, since all plans are judged by it.
    for (const { name, bytes } of of("practice")) if (!this.practice.take(name, bytes)) notes.push(`${name} cannot be used.`);
    await this.judging;
    const came: Read[] = [];
    for (const [i, { name, bytes }] of of("plan").entries()) {
      this.say(`Reading ${i + 1} of ${of("plan").length}`);
      came.push(this.take(name, bytes, notes));
      await new Promise((later) => setTimeout(later));
    }
    for (const { name, bytes } of of("accepted")) this.lay(name, bytes, came, notes);
    for (const [name, text] of this.lonely) {
      const plan = came.filter((one) => acceptedNameOf(one.file) === name);
      if (plan.length === 1) this.lay(name, text, plan, notes);
    }
    this.say([`${this.plans.length} ${this.plans.length === 1 ? "plan" : "plans"}.`, ...notes].join(" "));
    this.show();
    this.keep();
  }

  /** A plan; a newer one of the same member and name takes the place of the older, and what is accepted
   * of that is looked at again. */
  private take(file: string, bytes: Uint8Array, notes: string[]): Read {
    const again = this.plans.find((plan) => plan.file === file && same(plan.plan, bytes));
    if (again) return again;
    const older = this.plans.find((plan) => plan.file === file && plan.member === memberOf(bytes));
    const files: Files = { file, plan: bytes, accepted: older?.accepted, unsaved: older?.unsaved ?? false };
    const read = { ...files, ...this.judged(files) };
    if (older) {
      Object.assign(older, read);
      notes.push(`The newer ${file} takes the place of the older.`);
      return older;
    }
    this.plans.push(read);
    return read;
  }

  /** Lays acceptances beside their plan: the one that came with them, else the one that is here. */
  private lay(name: string, text: FileText, came: Read[], notes: string[]): void {
    const of = (plans: Read[]): Read[] => plans.filter((plan) => acceptedNameOf(plan.file) === name);
    const [plan, ...more] = of(came).length > 0 ? of(came) : of(this.plans);
    this.lonely.delete(name);
    if (!plan || more.length > 0) {
      this.lonely.set(name, text);
      if (more.length > 0) notes.push(`${name} fits several plans: choose it again together with its own plan alone.`);
      return;
    }
    plan.accepted = text;
    plan.unsaved = false;
    Object.assign(plan, this.judged(plan));
  }

  private show(): void {
    this.plans.sort((a, b) => order(a) - order(b) || a.file.localeCompare(b.file, "en-GB"));
    byId("table-part").hidden = this.plans.length === 0;
    fill(byId("rows"), ...this.plans.map((plan) => this.rowOf(plan)));
    byId<HTMLButtonElement>("save-accepted").disabled = !this.plans.some((plan) => plan.unsaved);
    const lonely = [...this.lonely.keys()];
    fill(byId("lonely"), lonely.length > 0 && h("p", { class: "trouble" },
      `${listed(lonely)}: the plan of that name is not here. Choose it too, under the name that the acceptances have.`));
    this.showPlan();
  }

  private rowOf(plan: Read): HTMLElement {
    const { check, words = [] } = plan.look;
    const title = isUsable(check) ? check.title : plan.file;
    const told = (stands: Word["stands"], says: string): string => {
      const count = words.filter((word) => word.stands === stands).length;
      return count === 0 ? "" : `, ${count} ${says}`;
    };
    return h("tr", {},
      h("td", {}, button(title, () => {
        this.shown = plan;
        this.showPlan();
        byId("one").scrollIntoView();
        byId("one-title").focus({ preventScroll: true });
      }, { class: "quiet" })),
      h("td", {}, plan.member),
      h("td", {}, !isUsable(check) ? "cannot be used" : check.findings.some(counts) ? tally(check) : "nothing"),
      h("td", {}, isUsable(check) && (check.findings.length === 0 ? "–" : `${check.findings.filter((f) => f.accepted).length} of ${check.findings.length}`) +
        told("reopened", "open again") + told("unused", "no longer needed"),
        plan.unsaved && h("span", { class: "unsaved" }, ", not saved yet")));
  }

  private showPlan(): void {
    const plan = this.shown;
    byId("one").hidden = !plan;
    if (!plan) return;
    const { check } = plan.look;
    const words = wordsOf(plan.look);
    byId("one-title").textContent = isUsable(check) ? check.title : plan.file;
    byId("one-who").textContent = [plan.member, plan.file].filter((text) => text !== "").join(" · ");
    const open = byId<HTMLAnchorElement>("one-open");
    const text = textOf(plan.plan);
    void fragmentOf(text, plan.accepted as BlobPart | undefined).then((fragment) => (open.href = "check.html" + fragment));
    const file = acceptedNameOf(plan.file);
    fill(byId("one-file"),
      plan.accepted !== undefined && button(`Save ${file}`, () => this.save([plan])),
      plan.accepted !== undefined && !isUsable(check) && button(`Leave ${file} out`, () => this.set(plan, undefined, false), { class: "quiet" }),
      plan.unsaved && h("p", {}, `Not saved yet: lay ${file} beside ${plan.file}, and the program reads both.`));
    if (!isUsable(check)) {
      byId("one-verdict").textContent = "This plan cannot be used yet.";
      showErrors(byId("one-findings"), check.errors, { places: true });
      fill(byId("one-unused"));
      fill(byId("one-numbers"));
      return;
    }
    byId("one-verdict").textContent = check.verdict;
    const cards = [...check.findings.filter(counts), ...check.findings.filter((f) => !counts(f))].map((finding) =>
      findingCard(finding, { words, practice: this.practice.told, more: (f) => this.acceptance(plan, f, words.get(f)), heading: "h3" }));
    fill(byId("one-findings"), ...cards);
    fill(byId("one-unused"), ...(plan.look.words ?? []).filter((word) => word.stands === "unused").map((word) =>
      h("div", {}, h("p", {}, word.says), this.takeBack(plan, word, `${word.rule} at ${word.where}`))));
    showKeyNumbers(byId("one-numbers"), plan.look.key_numbers ?? []);
  }

  private takeBack(plan: Read, word: Word, what: string): HTMLElement {
    return button("Take that back", () => {
      this.set(plan, this.engine.withdraw(plan.accepted ?? "", word));
      byId("one-title").focus({ preventScroll: true });
    }, { class: "quiet", "aria-label": `Take that back: ${what}` });
  }

  private acceptance(plan: Read, finding: Finding, word: Word | undefined): HTMLElement {
    if (word?.stands === "accepted") return this.takeBack(plan, word, finding.title);
    const id = newId("because");
    const reason = h("input", { id, type: "text", maxlength: 2000, autocomplete: "off" });
    const wrong = h("p", { class: "said error", role: "alert", hidden: true });
    const danger = finding.severity === "danger";
    const does = danger ? "Acknowledge" : "Accept";
    return h("form", { class: "reading", onsubmit: (event) => {
      event.preventDefault();
      try {
        this.set(plan, this.engine.accept(given(plan), plan.file, {
          rule: finding.rule, where: finding.where, by: this.name.value.trim(), because: reason.value.trim(), on: this.day.value,
        }));
        const card = `[data-rule="${CSS.escape(finding.rule)}"][data-where="${CSS.escape(finding.where)}"]`;
        document.querySelector<HTMLElement>(`#one-findings > ${card} > button:last-child`)?.focus();
      } catch (problem) {
        if (!(problem instanceof RequestRefused)) throw problem;
        wrong.hidden = false;
        wrong.textContent = problem.message.charAt(0).toUpperCase() + problem.message.slice(1).replace(/\.$/, "") + ".";
        (this.name.value.trim() === "" ? this.name : reason).focus();
      }
    } }, danger && h("p", {}, "A danger cannot be accepted away: acknowledged, it still shows and still counts. What can hurt someone is better mended."),
      h("label", { for: id }, `${does} it, because`),
      h("div", { class: "beside" }, reason, h("button", { "aria-label": `${does}: ${finding.title}` }, does)),
      word?.stands === "reopened" && this.takeBack(plan, word, finding.title), wrong);
  }

  /** The plan with other acceptances beside it. */
  private set(plan: Read, accepted: FileText | undefined, unsaved = true): void {
    plan.accepted = accepted;
    plan.unsaved = unsaved;
    Object.assign(plan, this.judged(plan));
    this.show();
    this.keep();
  }

  /** A file each, since the program reads one beside each plan. */
  private save(plans: Read[]): void {
    for (const plan of plans) {
      if (plan.accepted === undefined) continue;
      download(acceptedNameOf(plan.file), "application/json", plan.accepted);
      plan.unsaved = false;
    }
    this.show();
    this.keep();
    byId("one-title").focus({ preventScroll: true });
  }

  private keep(): void {
    const plans = this.plans.map(({ file, plan, accepted, unsaved }): Files => ({ file, plan, accepted, unsaved }));
    const all: Kept = { plans, lonely: new Map(this.lonely) };
    this.queue(() => put("mentor", all));
  }
  private queue(work: () => Promise<unknown>): void {
    const done = this.keeping.then(work).catch(() => this.keepsNothing());
    this.keeping = done;
    const state = document.documentElement.dataset;
    state["kept"] = "false";
    void done.then(() => done === this.keeping && (state["kept"] = "true"));
  }
  private keepsNothing(): void {
    byId("kept").textContent = "This browser keeps nothing of this page here: when it is closed or loaded again, all is gone. So save what you accept before that. Nothing is uploaded.";
    byId("kept").classList.add("trouble");
  }

  private forget(): void {
    if (this.plans.some((plan) => plan.unsaved) && !confirm("Some acceptances are not saved as files yet. Forget them all the same?")) return;
    this.plans = [];
    this.lonely.clear();
    this.shown = undefined;
    this.practice.takeAway();
    this.name.value = "";
    forget("mentor");
    this.day.value = today();
    this.queue(() => remove("mentor"));
    this.show();
    this.say("All is forgotten.");
  }

  private say(text: string): void {
    byId("progress").textContent = text;
  }

  private export(): void {
    const review = {
      review: 1,
      by: this.name.value.trim(),
      club: this.practice.told?.club ?? null,
      plans: this.plans.map((plan) => {
        const { check } = plan.look;
        if (!isUsable(check)) return { plan: plan.file, member: plan.member, errors: check.errors };
        return {
          plan: plan.file, member: plan.member, title: check.title, verdict: check.verdict,
          findings: check.findings.map((f) => ({
            rule: f.rule, severity: f.severity, certainty: f.certainty, where: f.where, says: f.says,
            fix: f.fix?.says ?? f.do, accepted: f.accepted, reopened: f.reopened,
          })),
        };
      }),
    };
    download("review.json", "application/json", JSON.stringify(review, null, 2) + "\n");
  }
}

void engineForClubs().then((engine) => new Mentor(engine));
