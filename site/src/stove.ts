// Beside the stove: the plan step by step, in large type, with timers, cautions, and places for what
// was really measured. Each reading goes into the plan, which is then worked out again.

import "./common";
import { inForce, usableAccepted } from "./beside";
import { button, byId, coded, download, fill, h, newId } from "./dom";
import { difference } from "./compare";
import type { Engine, PlanText } from "./engine";
import { RequestRefused } from "./engine";
import { forget, keep, kept } from "./kept";
import { at, changes } from "./pointer";
import { counts, hoursIn, lengthText, severityMark, whenText } from "./results";
import { engineFor } from "./site";
import { Timers, clockOf, leftText, readyToRing, ring } from "./timers";
import { isUsable } from "./types";
import type { Judged, Look, Operation, Row, Units, Value } from "./types";

interface Reading {
  label: string;
  pointer: string;
  example: string;
}

class Stove {
  private text: string;
  private document: Value = {};
  private look!: Look;
  private row: number;
  private readonly timers = new Timers();
  private readonly units: Units = kept("units") === "us" ? "us" : "metric";
  private awake: WakeLockSentinel | undefined;

  constructor(private readonly engine: Engine, private readonly plan: string, private readonly accepted: string | undefined) {
    // What was measured stays with the plan that it was measured for.
    const going = kept("stove.of") === plan;
    this.text = (going && kept("stove")) || engine.withSteps(plan);
    this.row = going ? Number(kept("stove.row") ?? 0) || 0 : 0;
    if (!going) this.timers.clear();
    keep("stove.of", plan);
    this.workOut();
    this.listen();
    this.show();
    setInterval(() => this.tick(), 250);
    document.addEventListener("visibilitychange", () => {
      this.tick();
      if (!document.hidden && byId<HTMLInputElement>("awake").checked) void this.stayAwake();
    });
  }

  private listen(): void {
    byId("back").addEventListener("click", () => this.go(this.row - 1));
    byId("next").addEventListener("click", () => this.go(this.row + 1));
    byId("save").addEventListener("click", () => download("starter-with-readings.plan.json", "application/json", this.text));
    byId("again").addEventListener("click", () => {
      forget("stove");
      forget("stove.row");
      this.timers.clear();
      this.text = this.engine.withSteps(this.plan);
      this.row = 0;
      this.workOut();
      fill(byId("changed"));
      this.show();
    });
    byId("now").addEventListener("click", () => this.beginNow());
    const awake = byId<HTMLInputElement>("awake");
    byId("awake-part").hidden = !("wakeLock" in navigator);
    awake.addEventListener("change", () => void (awake.checked ? this.stayAwake() : this.awake?.release()));
  }

  private async stayAwake(): Promise<void> {
    try {
      this.awake = await navigator.wakeLock.request("screen");
    } catch {
      byId<HTMLInputElement>("awake").checked = false;
    }
  }

  private get rows(): Row[] {
    return this.look.schedule?.times ?? [];
  }
  /** Of the timer: readings move times, never steps. */
  private get key(): string {
    return String(this.row);
  }
  private get judged(): Judged | undefined {
    return isUsable(this.look.check) ? this.look.check : undefined;
  }

  /** With what a mentor accepted in the self-check. */
  private given(plan: string): PlanText {
    return { plan, accepted: this.accepted };
  }
  private workOut(): void {
    this.document = JSON.parse(this.text) as Value;
    this.look = this.engine.look(this.given(this.text), this.units);
  }

  private go(row: number): void {
    this.row = Math.min(Math.max(row, 0), this.rows.length - 1);
    keep("stove.row", String(this.row));
    fill(byId("changed"));
    this.show();
    byId("step-title").focus();
  }

  private show(): void {
    const judged = this.judged;
    const row = this.rows[Math.min(this.row, this.rows.length - 1)];
    if (!judged || !row) return;
    byId("plan-title").textContent = judged.title;
    byId("count").textContent = `Step ${this.row + 1} of ${this.rows.length}`;
    byId("step-title").textContent = row.words.charAt(0).toUpperCase() + row.words.slice(1);
    byId("when").textContent = [whenText(row), lengthText(row)].filter((text) => text !== "").join(" · ");
    byId<HTMLButtonElement>("back").disabled = this.row === 0;
    byId<HTMLButtonElement>("next").disabled = this.row === this.rows.length - 1;
    const does = this.look.steps?.find((s) => s.where === row.where)?.do ?? "";
    byId("now").hidden = ["decant", "warm", "pitch to beer", "krausen pitch"].includes(does);
    const next = this.rows[this.row + 1];
    byId("coming").textContent = next ? `Then: ${next.words}, ${whenText(next)}.` : "This is the last step.";
    const cautions = judged.cautions.filter((c) => c.steps.includes(row.where));
    fill(byId("cautions"), ...cautions.map((c) => h("li", {}, h("strong", {}, c.title + ". "), c.text)));
    const found = judged.findings.filter((f) => counts(f) && f.severity !== "note" && f.where !== "" && (f.where + "/").startsWith(row.where + "/") && row.where !== "");
    fill(byId("found"), ...found.map((f) => h("li", { class: `finding ${f.severity}` }, severityMark(f.severity), " ", ...coded(f.says))));
    this.showTimer(row);
    this.showReadings(row);
    this.showAll();
    document.documentElement.dataset["ready"] = "true";
  }

  private showTimer(row: Row): void {
    const place = byId("timer");
    const timer = this.timers.of(this.key);
    // A boil takes its heating up too, but its time counts from when it boils.
    const step = this.look.steps?.find((s) => s.where === row.where && row.step !== null);
    const minutes = step?.minutes ?? (row.end_hours - row.start_hours) * 60;
    const cue = step?.do === "boil" ? "When it boils, start the timer" : "Start the timer";
    if (!timer && minutes < 0.5) return fill(place);
    if (!timer)
      return fill(place, button(`${cue}: ${hoursIn(minutes / 60)}`, () => {
        readyToRing();
        this.timers.start(this.key, row.words, minutes);
        this.show();
      }, { class: "main" }));
    fill(place, h("p", { class: "left", role: "timer", id: "left" }, leftText(timer.ends)),
      h("p", {}, `It ends at ${clockOf(timer.ends)} by the clock of this device. A locked telephone may keep silent: set its own alarm too.`),
      button("Stop the timer", () => {
        this.timers.stop(this.key);
        this.show();
      }));
  }

  private tick(): void {
    const own = this.timers.of(this.key);
    const left = document.getElementById("left");
    if (own && left) {
      left.textContent = leftText(own.ends);
      left.classList.toggle("over", own.ends <= Date.now());
    }
    for (const timer of this.timers.ended()) {
      ring();
      byId("rung").textContent = `Time is up: ${timer.what}.`;
    }
    const others = this.timers.all.filter((timer) => timer.of !== this.key);
    const told = others.map((timer) => `${timer.what}: ${leftText(timer.ends)}`).join(" · ");
    if (byId("others").textContent !== told) byId("others").textContent = told;
  }

  // Readings

  /** What can be measured at a step, and where it belongs in the plan. */
  private readingsOf(row: Row): Reading[] {
    const step = this.look.steps?.find((s) => s.where === row.where && row.step !== null);
    if (!step) return [];
    const stage = `/stages/${step.stage - 1}`;
    const chill = this.look.steps?.find((s) => s.stage === step.stage && s.do === "chill")?.where;
    const volume = { label: "Volume of the wort", pointer: `${stage}/measured/volume`, example: "1.1 L" };
    const volumeAt = { label: "Its temperature then", pointer: `${stage}/measured/volume_at`, example: "25 °C" };
    const gravity = { label: "Gravity, as read", pointer: `${stage}/measured/gravity`, example: "1.036 SG" };
    const gravityAt = { label: "Temperature of the sample", pointer: `${stage}/measured/gravity_at`, example: "22 °C" };
    const grows = { label: "Temperature it grows at", pointer: `${stage}/temperature`, example: "21 °C" };
    switch (step.do) {
      case "weigh":
        return [{ label: "Extract, as weighed", pointer: `${stage}/extract/mass`, example: "112 g" }];
      case "dissolve":
        return [{ label: "Water, as measured", pointer: `${stage}/water`, example: "1.15 L" }];
      case "boil":
        return [{ label: "How long it boiled", pointer: `${row.where}/for`, example: "13 min" }, volume, volumeAt];
      case "chill":
        return [{ label: "Temperature of the bath water", pointer: `${row.where}/water`, example: "14 °C" },
          { label: "Ice, as weighed", pointer: `${row.where}/ice`, example: "1.2 kg" }, volume, volumeAt, gravity, gravityAt];
      case "check temperature":
        return [...(chill ? [{ label: "Temperature of the wort", pointer: `${chill}/to`, example: "22 °C" }] : []), gravity, gravityAt];
      case "pitch":
        return [{ label: "How long the pack stood warm", pointer: "/yeast/out_of_fridge", example: "3 h" }];
      case "agitate":
      case "rest":
        return [grows, { label: "Cells counted", pointer: `${stage}/measured/cells`, example: "200 billion" }];
      case "crash":
        return [{ label: "Temperature in the cold", pointer: `${row.where}/at`, example: "4 °C" }];
      case "warm":
        return [{ label: "Temperature of the yeast", pointer: `${row.where}/to`, example: "16 °C" }];
      default:
        return [];
    }
  }

  private showReadings(row: Row): void {
    const readings = this.readingsOf(row);
    byId("readings-part").hidden = readings.length === 0;
    fill(byId("readings"), ...readings.map((reading) => {
      const id = newId("reading");
      const now = at(this.document, reading.pointer);
      const error = h("p", { class: "said error", role: "alert", hidden: true });
      const input = h("input", { id, type: "text", autocapitalize: "off", autocomplete: "off",
        placeholder: typeof now === "string" ? `planned: ${now}` : `for example ${reading.example}` });
      return h("form", { class: "reading", onsubmit: (event) => {
        event.preventDefault();
        this.take(reading, input.value, error);
      } }, h("label", { for: id }, reading.label), h("div", { class: "beside" }, input, h("button", {}, "Take it")), error);
    }));
  }

  private take(reading: Reading, typed: string, error: HTMLElement): void {
    const text = typed.trim();
    if (text === "") return;
    const told = this.apply(changes(this.document, reading.pointer, text), `${reading.label}: ${text}`);
    error.hidden = told === "";
    error.textContent = told;
  }

  /** \return why the plan cannot take it; empty when it has. */
  private apply(patch: Operation[], what: string): string {
    try {
      const text = this.engine.change(this.text, patch);
      const look = this.engine.look(this.given(text), this.units);
      if (!isUsable(look.check)) {
        const error = look.check.errors[0]!;
        return error.says + (error.write ? `. Write: ${error.write}` : ".");
      }
      const before = this.look;
      this.text = text;
      keep("stove", text);
      this.workOut();
      this.show();
      this.tellChange(what, before);
      return "";
    } catch (problem) {
      if (problem instanceof RequestRefused) return problem.message;
      throw problem;
    }
  }

  private tellChange(what: string, before: Look): void {
    const d = difference(before, this.look);
    const nothing = d.numbers.length + d.come.length + d.gone.length === 0;
    fill(byId("changed"), h("h2", {}, "What that changed"), h("p", {}, what + "."),
      nothing && h("p", {}, "Nothing that matters: carry on as planned."),
      d.numbers.length > 0 && h("ul", {}, ...d.numbers.map((n) => h("li", {}, `${n.name}: ${n.after}, was ${n.before}.`))),
      ...d.come.map((f) => h("p", { class: `said ${f.severity}` }, severityMark(f.severity), " ", ...coded(f.says))),
      ...d.gone.map((f) => h("p", { class: "said" }, `No longer: ${f.title}.`)));
  }

  /** Steps of brew day are laid back from when the yeast is due, so those before the cold rest ends
   * tell when the first began. */
  private beginNow(): void {
    const row = this.rows[this.row];
    if (!row) return;
    const start = wallClock(new Date(Date.now() - row.start_hours * 3_600_000));
    this.apply(changes(this.document, "/start", start), `You begin this step now, at ${clockOf(Date.now())}`);
  }

  private showAll(): void {
    fill(byId("all"), ...this.rows.map((row, i) => h("li", {},
      button(`${i + 1}. ${row.words}`, () => this.go(i), { class: "quiet", "aria-current": i === this.row ? "step" : null }),
      h("span", { class: "when" }, whenText(row)))));
  }
}

/** "2027-04-06T18:00": the clock on the wall, as plans have it. */
function wallClock(time: Date): string {
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}T${two(time.getHours())}:${two(time.getMinutes())}`;
}

async function start(): Promise<void> {
  const engine = await engineFor(kept("practice"), kept("accepted"));
  const plan = kept("draft") ?? byId("stove").dataset["first"] ?? "{}";
  inForce(engine);
  const accepted = usableAccepted(engine, kept("accepted"));
  const usable = isUsable(engine.look({ plan, accepted }, "metric").check);
  byId("stove").hidden = !usable;
  byId("no-plan").hidden = usable;
  if (usable) new Stove(engine, plan, accepted);
  else document.documentElement.dataset["ready"] = "true";
}

void start();
