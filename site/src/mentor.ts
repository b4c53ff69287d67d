// For mentors: many plans at once, each opened, findings accepted with a reason, and a review to
// hand back. All of it stays in the page until it is saved.

import "./common";
import { button, byId, download, fill, h, newId } from "./dom";
import type { Engine } from "./engine";
import { keep, kept } from "./kept";
import { at } from "./pointer";
import { findingCard, keyOf, showErrors, showKeyNumbers, tally } from "./results";
import { fragmentOf } from "./share";
import { engine as loadEngine } from "./site";
import { isUsable } from "./types";
import type { Finding, Look, Severity, Units, Value } from "./types";

interface Accepted {
  rule: string;
  where: string;
  because: string;
}
interface Read {
  file: string;
  text: string;
  member: string;
  look: Look;
  accepted: Accepted[];
}

const mostRead = 1 << 20; // bytes of a file: far above any real plan
const rank: { [severity in Severity]: number } = { danger: 0, spoils: 1, weakens: 2, note: 3 };

/** Worst first; plans that cannot be used before all, those in which all is accepted last. */
function order(read: Read): number {
  if (!isUsable(read.look.check)) return -1;
  const open = read.look.check.findings.filter((f) => !acceptanceOf(read, f) || f.severity === "danger");
  return Math.min(4, ...open.map((f) => rank[f.severity]));
}
const acceptanceOf = (read: Read, finding: Finding): Accepted | undefined =>
  read.accepted.find((a) => a.rule === finding.rule && a.where === finding.where);

function memberOf(text: string): string {
  try {
    const member = at(JSON.parse(text) as Value, "/member");
    return typeof member === "string" ? member : "";
  } catch {
    return "";
  }
}

class Mentor {
  private plans: Read[] = [];
  private shown: Read | undefined;
  private readonly units: Units = kept("units") === "us" ? "us" : "metric";

  constructor(private readonly engine: Engine) {
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
    const name = byId<HTMLInputElement>("mentor");
    name.value = kept("mentor") ?? "";
    name.addEventListener("input", () => keep("mentor", name.value));
    byId("export").addEventListener("click", () => this.export());
    byId("print").addEventListener("click", () => print());
    byId("clear").addEventListener("click", () => {
      this.plans = [];
      this.shown = undefined;
      this.show();
    });
    this.show();
    document.documentElement.dataset["ready"] = "true";
  }

  /** Plan by plan, so that the page stays alive with a whole club's plans. */
  private async read(files: File[]): Promise<void> {
    for (const [i, file] of files.entries()) {
      byId("progress").textContent = `Reading ${i + 1} of ${files.length}`;
      const bytes = new Uint8Array(await file.slice(0, mostRead + 1).arrayBuffer());
      const look = this.engine.look(bytes, this.units, { fixes: true, name: file.name });
      const text = new TextDecoder().decode(bytes);
      const again = this.plans.findIndex((plan) => plan.file === file.name && plan.text === text);
      if (again >= 0) continue;
      this.plans.push({ file: file.name, text, member: memberOf(text), look, accepted: [] });
      await new Promise((later) => setTimeout(later));
    }
    byId("progress").textContent = `${this.plans.length} plans.`;
    this.show();
  }

  private show(): void {
    this.plans.sort((a, b) => order(a) - order(b) || a.file.localeCompare(b.file, "en-GB"));
    byId("table-part").hidden = this.plans.length === 0;
    fill(byId("rows"), ...this.plans.map((plan) => this.rowOf(plan)));
    this.showPlan();
  }

  private rowOf(plan: Read): HTMLElement {
    const { check } = plan.look;
    const title = isUsable(check) ? check.title : plan.file;
    return h("tr", {},
      h("td", {}, button(title, () => {
        this.shown = plan;
        this.showPlan();
        byId("one").scrollIntoView();
        byId("one-title").focus({ preventScroll: true });
      }, { class: "quiet" })),
      h("td", {}, plan.member),
      h("td", {}, isUsable(check) ? tally(check) : "cannot be used"),
      h("td", {}, isUsable(check) ? `${plan.accepted.length} of ${check.findings.length}` : ""));
  }

  private showPlan(): void {
    const plan = this.shown;
    byId("one").hidden = !plan;
    if (!plan) return;
    const { check } = plan.look;
    byId("one-title").textContent = isUsable(check) ? check.title : plan.file;
    byId("one-who").textContent = [plan.member, plan.file].filter((text) => text !== "").join(" · ");
    const open = byId<HTMLAnchorElement>("one-open");
    void fragmentOf(plan.text).then((fragment) => (open.href = "check.html" + fragment));
    if (!isUsable(check)) {
      byId("one-verdict").textContent = "This plan cannot be used yet.";
      showErrors(byId("one-findings"), check.errors);
      fill(byId("one-numbers"));
      return;
    }
    byId("one-verdict").textContent = check.verdict;
    fill(byId("one-findings"), ...check.findings.map((finding) => {
      const card = findingCard(finding, { more: (f) => this.acceptance(plan, f), heading: "h3" });
      if (acceptanceOf(plan, finding)) card.classList.add("accepted");
      return card;
    }));
    showKeyNumbers(byId("one-numbers"), plan.look.key_numbers ?? []);
  }

  private acceptance(plan: Read, finding: Finding): HTMLElement {
    const accepted = acceptanceOf(plan, finding);
    if (accepted)
      return h("div", {}, h("p", {}, h("strong", {}, "Accepted"), `: ${accepted.because}`,
        finding.severity === "danger" && " A danger still counts."),
        button("Take that back", () => {
          plan.accepted = plan.accepted.filter((a) => a !== accepted);
          this.show();
        }, { class: "quiet", "aria-label": `Take back: ${finding.title}` }));
    const id = newId("because");
    const reason = h("input", { id, type: "text", required: true, maxlength: 500 });
    return h("form", { class: "reading", onsubmit: (event) => {
      event.preventDefault();
      const because = reason.value.trim();
      if (because === "") return;
      plan.accepted.push({ rule: finding.rule, where: finding.where, because });
      this.show();
      document.querySelector<HTMLElement>(`[data-key="${CSS.escape(keyOf(finding))}"]`)?.focus();
    } }, h("label", { for: id }, "Accept it, because"),
      h("div", { class: "beside" }, reason, h("button", { "aria-label": `Accept: ${finding.title}` }, "Accept")));
  }

  private export(): void {
    const review = {
      review: 1,
      by: byId<HTMLInputElement>("mentor").value.trim(),
      plans: this.plans.map((plan) => {
        const { check } = plan.look;
        if (!isUsable(check)) return { plan: plan.file, member: plan.member, errors: check.errors };
        return {
          plan: plan.file, member: plan.member, title: check.title, verdict: check.verdict,
          findings: check.findings.map((f) => ({
            rule: f.rule, severity: f.severity, certainty: f.certainty, where: f.where, says: f.says,
            fix: f.fix?.says ?? f.do, accepted: acceptanceOf(plan, f)?.because ?? null,
          })),
        };
      }),
    };
    download("review.json", "application/json", JSON.stringify(review, null, 2) + "\n");
  }
}

void loadEngine().then((engine) => new Mentor(engine));
