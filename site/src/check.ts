// The self-check: the plan as a form and as text, and what the engine says of it, as it is typed.

import "./common";
import { PracticePart, bytesOf, errorsOf, kindOf, textOf, usableAccepted } from "./beside";
import { afterPainting, button, byId, download, fill, h, mark, renew, say } from "./dom";
import { Draft } from "./draft";
import type { Engine, PlanText } from "./engine";
import { RequestRefused } from "./engine";
import { PlanForm } from "./form";
import { forget, keep, kept } from "./kept";
import { showPicture } from "./picture";
import { changes } from "./pointer";
import {
  counts, named, showAssumed, showCautions, showErrors, showFindings, showKeyNumbers, showNumbers, showSchedule, tally, wordsOf,
} from "./results";
import { acceptedIn, fragmentOf, planIn } from "./share";
import { engineFor, readsClubs } from "./site";
import { isUsable } from "./types";
import type { Finding, Judged, Look, Operation, Units, Value } from "./types";

const pauseForAdvice = 200; // milliseconds without typing before advice is worked out
const pauseForPicture = 500;

class SelfCheck {
  private readonly draft: Draft;
  private readonly form: PlanForm;
  private readonly text = byId<HTMLTextAreaElement>("text");
  private readonly numbers = byId<HTMLDetailsElement>("numbers-part");
  private document: Value = {};
  private units: Units = kept("units") === "us" ? "us" : "metric";
  private look: Look | undefined;
  /** The findings of the last look that brought advice. */
  private advised = new Map<string, Finding>();
  private later: ReturnType<typeof setTimeout> | undefined;
  private drawLater: ReturnType<typeof setTimeout> | undefined;
  private draws = false;
  private readonly practice: PracticePart;
  /** Counts what was opened: a file or link that waited for the engine gives way to a later one. */
  private opened = 0;

  /** @param accepted what a mentor accepted of the plan: the file beside it, if any. */
  constructor(private readonly engine: Engine, first: string, private accepted: string | undefined) {
    this.draft = new Draft(first);
    this.practice = new PracticePart(byId("practice"), engine, () => this.run());
    this.form = new PlanForm(byId("form"), engine.schema(), {
      document: () => this.document,
      change: (patch, field) => this.change(patch, field),
      writeSteps: () => this.set(engine.withSteps(this.draft.text)),
      mends: (pointer, value) => this.mends(pointer, value),
    });
    this.listen();
    this.showAccepted();
    this.run();
  }

  private given(plan: string): PlanText {
    return { plan, accepted: this.accepted };
  }

  private listen(): void {
    this.text.addEventListener("input", () => this.set(this.text.value, "text"));
    byId("undo").addEventListener("click", () => this.step("undo"));
    byId("redo").addEventListener("click", () => this.step("redo"));
    byId("save").addEventListener("click", () => download(this.fileName("plan.json"), "application/json", this.draft.text));
    byId("share").addEventListener("click", () => void this.share());
    byId("print").addEventListener("click", () => print());
    byId("draw").addEventListener("click", () => {
      this.draws = true;
      void this.draw();
    });
    byId("calendar").addEventListener("click", () => this.calendar());
    const open = byId<HTMLInputElement>("open");
    open.addEventListener("change", () => {
      void this.open([...(open.files ?? [])]);
      open.value = "";
    });
    for (const example of document.querySelectorAll<HTMLButtonElement>("[data-example]"))
      example.addEventListener("click", () => this.begin(example.dataset["example"] ?? ""));
    for (const choice of document.querySelectorAll<HTMLInputElement>("input[name=units]")) {
      choice.checked = choice.value === this.units;
      choice.addEventListener("change", () => {
        this.units = choice.value === "us" ? "us" : "metric";
        keep("units", this.units);
        this.advised.clear();
        this.run();
      });
    }
    addEventListener("hashchange", () => void this.follow(location.hash));
    document.addEventListener("dragover", (event) => event.preventDefault());
    document.addEventListener("drop", (event) => {
      event.preventDefault();
      void this.open([...(event.dataTransfer?.files ?? [])]);
    });
    const way = document.querySelector<HTMLElement>(".to-findings");
    new IntersectionObserver(([seen]) => (way!.hidden = seen?.isIntersecting ?? false)).observe(byId("results"));
    this.numbers.addEventListener("toggle", () => this.numbers.open && this.run());
    this.views();
  }

  /** Form, text or both; what does not fit side by side stands one below the other. */
  private views(): void {
    const choices = document.querySelectorAll<HTMLInputElement>("input[name=view]");
    const show = (view: string): void => {
      byId("form").hidden = view === "text";
      byId("as-text").hidden = view === "form";
      byId("plan").dataset["view"] = view;
    };
    for (const choice of choices) choice.addEventListener("change", () => show(choice.value));
    show([...choices].find((choice) => choice.checked)?.value ?? "form");
  }

  /** A plan, and what belongs to it. */
  private async open(files: File[]): Promise<void> {
    const read = await Promise.all(files.map(async (file) => ({ name: file.name, bytes: await bytesOf(file) })));
    const of = (kind: string) => read.find(({ name, bytes }) => kindOf(name, textOf(bytes)) === kind);
    const [plan, accepted, practice] = ["plan", "accepted", "practice"].map(of);
    const turn = ++this.opened;
    // Where it cannot be had the plan is opened all the same.
    const clubs = !(accepted || practice) || (await this.readsClubs());
    const latest = turn === this.opened;
    if (practice && clubs) this.practice.take(practice.name, practice.bytes);
    if (plan && latest) this.begin(textOf(plan.bytes));
    if (accepted && clubs && latest) this.accept(accepted.name, accepted.bytes);
  }

  /** Another plan, of which nothing is accepted unless that is brought too. */
  private begin(plan: string, accepted?: string): void {
    ++this.opened;
    this.advised.clear();
    this.accepted = accepted;
    if (accepted === undefined) forget("accepted");
    this.showAccepted();
    this.set(plan);
  }

  /** Follows a link; what stands in work here stays one undo away. */
  async follow(fragment: string): Promise<void> {
    const [plan, accepted] = [await planIn(fragment), await acceptedIn(fragment)];
    if (plan === undefined) return;
    const turn = ++this.opened;
    if (accepted !== undefined) await this.readsClubs();
    if (turn === this.opened) this.begin(plan, usableAccepted(this.engine, accepted));
  }

  /** Makes the engine that for clubs, and reads with it what was kept. */
  private async readsClubs(): Promise<boolean> {
    if (this.engine.forClubs) return true;
    if (!(await readsClubs(this.engine))) return false;
    this.practice.begin();
    this.accepted = usableAccepted(this.engine, kept("accepted"));
    this.showAccepted();
    this.run();
    return true;
  }

  private accept(file: string, bytes: Uint8Array): void {
    const told = this.engine.acceptedIn(bytes, file);
    if ("errors" in told) return this.showAccepted(errorsOf(file, told.errors));
    this.accepted = textOf(bytes);
    this.showAccepted();
    this.run();
  }

  private showAccepted(more?: HTMLElement): void {
    // What was kept and could not be read for want of the engine may be read at the next visit.
    if (this.accepted !== undefined) keep("accepted", this.accepted);
    else if (this.engine.forClubs) forget("accepted");
    fill(byId("accepted"), more, this.accepted !== undefined && h("div", { class: "in-force" },
      h("p", {}, "Judged with what a mentor accepted of this plan."), h("div", { id: "unused" }),
      button("Leave that out", () => {
        this.accepted = undefined;
        this.showAccepted(h("p", {}, "Judged without a mentor’s word again."));
        byId("accepted").focus();
        this.run();
      }, { class: "quiet" })));
  }

  private step(way: "undo" | "redo"): void {
    this.draft[way]();
    this.advised.clear();
    this.run();
  }

  private change(patch: Operation[], field?: string): void {
    try {
      this.set(this.engine.change(this.draft.text, patch), field);
    } catch (problem) {
      if (!(problem instanceof RequestRefused)) throw problem;
      this.say(problem.message);
    }
  }

  private mends(pointer: string, value: string): boolean {
    try {
      const look = this.engine.look(this.given(this.engine.change(this.draft.text, changes(this.document, pointer, value))), this.units);
      return isUsable(look.check) || !look.check.errors.some((error) => error.where === pointer);
    } catch {
      return false;
    }
  }

  /** @param field the one that changed, if it was one. */
  set(text: string, field?: string): void {
    this.draft.set(text, field);
    this.run(field !== undefined && document.activeElement?.matches("input[type=text], textarea"));
  }

  /** From the plan's text to what is shown of it.
   * @param typing lets the findings be seen before the rest, so that one who types need not wait for all. */
  private run(typing = false): void {
    keep("draft", this.draft.text);
    if (this.text.value !== this.draft.text) this.text.value = this.draft.text;
    const document = parsed(this.draft.text);
    if (document !== undefined) this.document = document;
    mark(byId("form-off"), "hidden", document !== undefined);
    mark(byId("form"), "inert", document === undefined);
    this.look = this.engine.look(this.given(this.draft.text), this.units, { numbers: this.numbers.open });
    const { look } = this;
    this.showFound(look, false);
    if (typing) afterPainting(() => look === this.look && this.showRest(look));
    else this.showRest(look);
    clearTimeout(this.later);
    this.later = setTimeout(() => this.withAdvice(), pauseForAdvice);
    mark(byId("undo"), "disabled", !this.draft.canUndo);
    mark(byId("redo"), "disabled", !this.draft.canRedo);
    clearTimeout(this.drawLater);
    if (this.draws) this.drawLater = setTimeout(() => void this.draw(), pauseForPicture);
  }

  /** Fixes, and what would narrow a range, take the engine several times as long as findings, so they
   * wait for a pause. */
  private withAdvice(): void {
    this.look = this.engine.look(this.given(this.draft.text), this.units, { advice: true, numbers: this.numbers.open });
    if (isUsable(this.look.check))
      this.advised = named(this.look.check.findings);
    this.showFound(this.look, true);
    this.showRest(this.look);
  }

  private showFound(look: Look, complete: boolean): void {
    const { check } = look;
    const usable = isUsable(check);
    mark(byId("unusable"), "hidden", usable);
    mark(byId("usable"), "hidden", !usable);
    if (usable) this.showFindings(check, look, complete);
    else
      showErrors(byId("errors"), check.errors, { go: (error) => this.goToError(error.where, error.line) });
    byId("findings").dataset["complete"] = String(complete);
  }

  private showFindings(check: Judged, look: Look, complete: boolean): void {
    say(byId("print-title"), check.title);
    say(byId("verdict"), check.verdict);
    renew(byId("tally"), tally(check));
    renew(byId("float-tally"), tally(check));
    showFindings(byId("findings"), check.findings, {
      apply: (finding) => this.change(finding.fix?.patch ?? []),
      go: (where) => this.goTo(where),
      words: wordsOf(look),
      practice: this.practice.told,
      ...(complete ? {} : { waiting: this.waiting(check.findings) }),
    });
    const unused = document.getElementById("unused");
    if (unused) renew(unused, ...(look.words ?? []).filter((word) => word.stands === "unused").map((word) => h("p", {}, word.says)));
  }

  /** As the findings were when advice was last there. */
  private waiting(findings: Finding[]): Map<Finding, Finding> {
    const all = new Map<Finding, Finding>();
    for (const [name, finding] of named(findings)) {
      const before = this.advised.get(name);
      if (before) all.set(finding, before);
    }
    return all;
  }

  /** The form, and what stands below the findings. */
  private showRest(look: Look): void {
    const { check } = look;
    const usable = isUsable(check);
    this.form.show(usable ? check.findings.filter(counts) : [], usable ? [] : check.errors, usable ? check.assumed : []);
    mark(document.documentElement, "data-ready", "true");
    if (!usable) return;
    showKeyNumbers(byId("key-numbers"), look.key_numbers ?? []);
    if (look.numbers) showNumbers(byId("numbers"), look.numbers);
    if (look.schedule) showSchedule(byId("schedule"), look.schedule, check.cautions);
    mark(byId("calendar"), "hidden", !look.schedule?.start);
    showCautions(byId("cautions"), check.cautions);
    showAssumed(byId("assumed"), check.assumed);
    mark(byId("assumed-part"), "hidden", check.assumed.length === 0);
  }

  private goTo(where: string): void {
    if (byId("form").hidden) byId<HTMLInputElement>("view-form").click();
    this.form.go(where);
  }
  private goToError(where: string, line: number): void {
    if (where !== "" && !byId("form").hidden && byId("form-off").hidden) return this.form.go(where);
    if (byId("as-text").hidden) byId<HTMLInputElement>("view-text").click();
    const lines = this.draft.text.split("\n");
    const start = lines.slice(0, Math.max(0, line - 1)).join("\n").length + (line > 1 ? 1 : 0);
    this.text.focus();
    this.text.setSelectionRange(start, start + (lines[line - 1]?.length ?? 0));
    this.text.scrollTop = (this.text.scrollHeight / lines.length) * Math.max(0, line - 4);
  }

  private async draw(): Promise<void> {
    const drawn = this.engine.draw(this.given(this.draft.text), this.units);
    const note = byId("picture-note");
    if ("errors" in drawn) {
      note.textContent = "The picture waits until the plan can be used.";
      return;
    }
    note.textContent = byId("picture").childElementCount === 0 ? "Drawing …" : "";
    try {
      await showPicture(byId("picture"), this.engine, drawn);
      note.textContent = "";
    } catch (problem) {
      note.textContent = `The picture could not be drawn: ${problem instanceof Error ? problem.message : "unknown reason"}.`;
    }
  }

  private calendar(): void {
    try {
      download(this.fileName("ics"), "text/calendar", this.engine.calendarFile(this.given(this.draft.text), this.units));
    } catch (problem) {
      this.say(problem instanceof Error ? problem.message : String(problem));
    }
  }

  private async share(): Promise<void> {
    const link = new URL(await fragmentOf(this.draft.text, this.accepted), location.href).href;
    const field = h("input", { type: "text", readonly: true, value: link, "aria-label": "Link to this plan" });
    fill(byId("shared"), h("p", {}, "The plan is in the link itself, behind the “#”, which browsers do not send to anyone. Whoever gets the link can read the plan."),
      field, button("Copy the link", () => {
        field.select();
        navigator.clipboard.writeText(link).then(() => this.say("The link is copied."), () => this.say("Copy the marked link yourself."));
      }));
    field.focus();
    field.select();
  }

  private say(text: string): void {
    byId("said").textContent = text;
  }

  /** "harvest-amber.plan.json" */
  private fileName(ending: string): string {
    const title = this.look && isUsable(this.look.check) ? this.look.check.title : "";
    const stem = title.toLowerCase().normalize("NFKD").replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60);
    return `${stem || "starter"}.${ending}`;
  }
}

/** The plan as its form shows it; undefined while its text is no JSON object. */
function parsed(text: string): Value | undefined {
  try {
    const value = JSON.parse(text) as Value;
    return typeof value === "object" && value !== null && !Array.isArray(value) ? value : undefined;
  } catch {
    return undefined;
  }
}

async function start(): Promise<void> {
  const linked = await planIn(location.hash);
  // What a link's plan brings takes the place of what was kept of another.
  const accepted = linked === undefined ? kept("accepted") : await acceptedIn(location.hash);
  const engine = await engineFor(kept("practice"), accepted);
  const first = byId("plan").dataset["first"] ?? "{}";
  if (location.hash.startsWith("#plan=") && linked === undefined)
    byId("said").textContent = "The link is damaged, so its plan could not be read.";
  // What was in work here stays one undo away.
  const check = new SelfCheck(engine, kept("draft") ?? first, usableAccepted(engine, kept("accepted")));
  if (linked !== undefined) await check.follow(location.hash);
}

void start();
