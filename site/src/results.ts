// What the engine says of a plan, as parts of a page. Shared by the pages that show plans.

import { arrange, button, coded, fill, h, renew, uncoded } from "./dom";
import { root } from "./site";
import type {
  Assumed, Calendar, Finding, Judged, KeyNumbers, Look, NeededCaution, PlanError, Practice, Row, Severity, ToldNumber, Word,
} from "./types";
import { isUsable } from "./types";

/** Told by a sign and a word as well as by a colour. */
export const signs: { [severity in Severity]: { sign: string; word: string } } = {
  danger: { sign: "▲", word: "danger" },
  spoils: { sign: "■", word: "spoils it" },
  weakens: { sign: "◆", word: "weakens it" },
  note: { sign: "○", word: "note" },
};

export const severityMark = (severity: Severity): HTMLElement =>
  h("span", { class: `mark ${severity}` },
    h("span", { "aria-hidden": "true" }, signs[severity].sign + " "), signs[severity].word);

export const keyOf = (finding: Finding): string => `${finding.rule} ${finding.where}`;

/** Findings by rule and place, and by their turn where several have both. */
export function named(findings: Finding[]): Map<string, Finding> {
  const all = new Map<string, Finding>();
  for (const finding of findings) {
    let name = keyOf(finding);
    while (all.has(name)) name += " again";
    all.set(name, finding);
  }
  return all;
}

/** Whether a mentor's word lets the finding stand; a danger counts whatever is said. */
export const counts = (finding: Finding): boolean => finding.accepted?.counts ?? true;

/** What a mentor said of each finding. */
export const wordsOf = (look: Look): Map<Finding, Word> => {
  const findings = isUsable(look.check) ? look.check.findings : [];
  return new Map((look.words ?? []).flatMap((word) => (word.finding === null ? [] : [[findings[word.finding]!, word]])));
};

export interface FindingOptions {
  /** Makes the change of a fix; without it fixes are words only. */
  apply?: (finding: Finding) => void;
  /** Shows the place in the plan. */
  go?: (where: string) => void;
  /** Of findings without advice: as they were in a look before, whose advice is shown and not offered
   * until the new is there. */
  waiting?: Map<Finding, Finding>;
  /** What a mentor said of findings. */
  words?: Map<Finding, Word>;
  /** The club's practice that is in force. */
  practice?: Practice | undefined;
  /** More that belongs to a finding. */
  more?: (finding: Finding) => Node | null;
  /** Level of the headings. */
  heading?: "h3" | "h4";
}

/** What would narrow its range. */
const narrowOf = (finding: Finding, options: FindingOptions): string =>
  finding.narrow || (finding.certainty !== "certain" && options.waiting?.get(finding)?.narrow) || "";

/** The fix, or what to do where there is none. */
function fixOf(finding: Finding, options: FindingOptions): HTMLElement {
  const waiting = !finding.fix && options.waiting?.get(finding)?.fix;
  const fix = finding.fix ?? (waiting || null);
  if (!fix) return h("div", { class: "fix" }, h("p", {}, h("strong", {}, "Do "), ...coded(finding.do)));
  const apply = options.apply && fix.patch.length > 0
    ? button("Apply this", () => options.apply?.(finding), {
        class: "apply", disabled: Boolean(waiting), "aria-label": `Apply this: ${uncoded(fix.says)}`,
      })
    : null;
  return h("div", { class: "fix" }, h("p", {}, h("strong", {}, "Fix "), ...coded(fix.says)), apply);
}

/** Which of the findings' own parts are folded open, so that they stay so while a plan is typed. */
const opened = new Set<string>();

/** @param name tells it from others of its rule and place. */
export function findingCard(finding: Finding, options: FindingOptions, name = keyOf(finding)): HTMLElement {
  const club = options.practice?.rules.find((rule) => rule.rule === finding.rule);
  const word = options.words?.get(finding);
  const narrow = narrowOf(finding, options);
  const why = h("details", {
    ontoggle: (event) => {
      if ((event.target as HTMLDetailsElement).open) opened.add(name);
      else opened.delete(name);
    },
  }, h("summary", {}, "Why"), h("p", {}, ...coded(finding.why)),
    narrow && h("p", {}, ...coded(narrow)),
    club && h("p", {}, "Of the club: ", ...coded(club.says)),
    // A club's own rule has no page here.
    !club?.own && h("p", {}, h("a", { href: new URL(`rules/${finding.rule}.html`, root).href }, "The whole rule, and where it comes from")));
  why.open = opened.has(name);
  const certainty = finding.certainty === "certain" ? "" : ` · ${finding.certainty}`;
  const severity = finding.severity + (counts(finding) ? "" : " accepted");
  return h("li", { class: `finding ${severity}`, "data-rule": finding.rule, "data-where": finding.where },
    h("p", { class: "kicker" }, severityMark(finding.severity), certainty, finding.club && ` · ${finding.club}`),
    h(options.heading ?? "h3", {}, finding.title),
    h("p", {}, ...coded(finding.says)),
    word && h("p", { class: `word ${word.stands}` },
      h("strong", {}, word.stands === "accepted" ? "Mentor " : "Open again "), word.says),
    finding.margin && h("p", { class: "margin" }, ...coded(finding.margin)),
    fixOf(finding, options),
    why,
    options.go && button("Show in the plan", () => options.go?.(finding.where),
      { class: "quiet", "aria-label": `Show in the plan: ${finding.title}` }),
    options.more?.(finding));
}

/** A card that stands on a page, and what it was made from. */
interface Card {
  element: HTMLElement;
  says: string;
  fix: string;
}
/** The cards of a list by their rule, place and severity. */
const cards = new WeakMap<Element, Map<string, Card>>();

/** Makes the card that stands say what the new one says. Only the fix has a listener that may do
 * something else now. */
function becomes(card: Card, fresh: Card): void {
  const fix = fresh.element.querySelector(":scope > .fix")!;
  const another = card.fix !== fresh.fix;
  if (another) fix.replaceWith(fix.cloneNode(true));
  if (another || card.says !== fresh.says) renew(card.element, ...fresh.element.childNodes);
  if (another) card.element.querySelector(":scope > .fix")!.replaceWith(fix);
  card.says = fresh.says;
  card.fix = fresh.fix;
}

/** What a mentor lets stand comes last. Of cards that stand already only what changed is laid anew. */
export function showFindings(list: Element, findings: Finding[], options: Omit<FindingOptions, "more" | "heading">): void {
  const before = cards.get(list);
  const now = new Map<string, Card>();
  const practice = JSON.stringify(options.practice);
  const standing = findings.filter((finding) => !counts(finding));
  for (const [name, finding] of named([...findings.filter(counts), ...standing])) {
    const fix = JSON.stringify([finding.fix, options.waiting?.get(finding)?.fix]);
    const said = { ...finding, fix: 0, narrow: narrowOf(finding, options), narrow_where: 0, narrow_patch: 0 };
    const says = JSON.stringify([said, options.words?.get(finding)]) + practice;
    const key = `${name} ${finding.severity} ${counts(finding)}`;
    let card = before?.get(key);
    if (card?.says !== says || card.fix !== fix) {
      const fresh = { element: findingCard(finding, options, name), says, fix };
      if (card) becomes(card, fresh);
      else card = fresh;
    }
    now.set(key, card);
  }
  cards.set(list, now);
  arrange(list, [...now.values()].map((card) => card.element));
}

export interface ErrorOptions {
  /** What is meant where no line is. */
  whole?: string;
  /** Tells the place of each too, as a JSON pointer. */
  places?: boolean;
  /** Lays what should be written where it belongs; told whether it can. */
  canWrite?: (error: PlanError) => boolean;
  write?: (error: PlanError) => void;
  go?: (error: PlanError) => void;
}

export function showErrors(list: Element, errors: PlanError[], options: ErrorOptions = {}): void {
  fill(list, ...errors.map((error) =>
    h("li", { class: "finding error" },
      h("p", { class: "kicker" }, error.line > 0 ? `line ${error.line}` : options.whole ?? "the whole plan",
        options.places && error.where !== "" && ", ", options.places && error.where !== "" && h("code", {}, error.where)),
      h("p", {}, ...coded(error.says)),
      error.write && h("p", {}, h("strong", {}, "Write "), h("code", {}, error.write)),
      options.write && options.canWrite?.(error) &&
        button(`Write ${error.write}`, () => options.write?.(error), { class: "apply" }),
      options.go && button("Show in the plan", () => options.go?.(error),
        { class: "quiet", "aria-label": `Show in the plan: ${uncoded(error.says)}` }))));
}

const pairs = (rows: [string, string][]): HTMLElement =>
  h("dl", { class: "pairs" }, ...rows.flatMap(([name, value]) => [h("dt", {}, name), h("dd", {}, ...coded(value))]));

export function showKeyNumbers(place: Element, parts: KeyNumbers[]): void {
  renew(place, ...parts.flatMap((part) => [part.title && h("h3", {}, part.title), pairs(part.rows)]));
}

export function showNumbers(place: Element, numbers: ToldNumber[]): void {
  renew(place, h("dl", { class: "workings" }, ...numbers.flatMap((n) => [
    h("dt", {}, n.title, " ", h("span", { class: "of" }, n.of || "the plan")),
    h("dd", {}, h("strong", {}, n.says), n.how && h("p", {}, ...coded(n.how))),
  ])));
}

export function showCautions(list: Element, cautions: { title: string; text: string }[]): void {
  renew(list, ...cautions.map((c) => h("li", {}, h("strong", {}, c.title + ". "), ...coded(c.text))));
}

export function showAssumed(list: Element, assumed: Assumed[]): void {
  renew(list, ...assumed.map((a) => h("li", {}, ...coded(a.says))));
}

const clockWords = new Intl.DateTimeFormat("en-GB", {
  weekday: "short", day: "numeric", month: "short", hour: "2-digit", minute: "2-digit", timeZone: "UTC",
});
/** "Fri, 9 Apr, 20:00": the clock on the wall, which has no zone. */
export const clockText = (iso: string): string => clockWords.format(new Date(iso + (iso.length > 16 ? "Z" : ":00Z")));

/** As the engine writes durations, but to the minute: days from 72 h. */
export const hoursIn = (hours: number): string => {
  if (hours >= 72) return `${Math.round(hours / 2.4) / 10} days`;
  const minutes = Math.round(hours * 60);
  const whole = Math.floor(minutes / 60);
  const rest = minutes % 60;
  return whole === 0 ? `${rest} min` : rest === 0 ? `${whole} h` : `${whole} h ${rest} min`;
};
export const whenText = (row: Row): string => (row.start ? clockText(row.start) : `${hoursIn(row.start_hours)} in`);
export const lengthText = (row: Row): string => {
  const length = row.end_hours - row.start_hours;
  return length * 60 < 0.5 ? "" : hoursIn(length);
};

/** When each step happens. Begin, ready and due are among the key numbers. */
export function showSchedule(place: Element, calendar: Calendar, cautions: NeededCaution[]): void {
  const ofStep = (row: Row): NeededCaution[] => (row.where ? cautions.filter((c) => c.steps.includes(row.where)) : []);
  const facts: [string, string][] = [];
  if (calendar.latest_start) facts.push(["Begin at the latest", clockText(calendar.latest_start)]);
  facts.push(["Hands on", hoursIn(calendar.hands_on_hours)]);
  renew(place, pairs(facts),
    h("ol", { class: "times" }, ...calendar.times.map((row) =>
      h("li", { class: row.hands_on ? "hands" : "waits" },
        h("span", { class: "box", "aria-hidden": "true" }),
        h("span", { class: "when" }, whenText(row)),
        h("span", { class: "what" }, row.words,
          ...ofStep(row).map((c) => h("span", { class: "take-care" }, c.title))),
        h("span", { class: "length" }, lengthText(row))))));
}

const counted = (count: number, severity: Severity): HTMLElement | null =>
  count === 0 ? null : h("span", { class: `count ${severity}` },
    h("span", { "aria-hidden": "true" }, `${signs[severity].sign} ${count}`),
    h("span", { class: "unseen" }, `${count} × ${signs[severity].word}`));

/** How many of each severity are to mend, in signs. */
export function tally(judged: Judged): HTMLElement {
  const count = (severity: Severity): number => judged.findings.filter((f) => f.severity === severity && counts(f)).length;
  const order: Severity[] = ["danger", "spoils", "weakens", "note"];
  return h("span", { class: "tally" }, ...order.map((severity) => counted(count(severity), severity)));
}
