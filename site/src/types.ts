// What the engine answers; engine/browser/answer.h and engine/output/*.schema.json have the words.

export type Severity = "danger" | "spoils" | "weakens" | "note";
export type Units = "metric" | "us";
export type Value = null | boolean | number | string | Value[] | { [name: string]: Value };
export type Fields = { [name: string]: Value };

export interface Operation {
  op: "add" | "remove" | "replace" | "move" | "copy" | "test";
  path: string;
  from?: string;
  value?: Value;
}
export interface Fix {
  says: string;
  patch: Operation[];
}
export interface Measure {
  name: string;
  of: string;
  value: number;
  low: number;
  high: number;
  unit: string;
  how: string;
}
export interface Source {
  label: "published" | "practice" | "memory";
  text: string;
}
export interface Finding {
  rule: string;
  severity: Severity;
  certainty: "certain" | "likely" | "possible";
  where: string;
  says: string;
  why: string;
  numbers: Measure[];
  fix: Fix | null;
  sources: Source[];
  lesson: string;
  title: string;
  margin: string;
  narrow: string;
  do: string;
  cautions: string[];
  club: string | null;
  accepted: (Acceptance & { counts: boolean }) | null;
  reopened: (Acceptance & { changes: { what: string; was: string; is: string }[] }) | null;
}
export interface Acceptance {
  by: string;
  because: string;
  on: string | null;
}
/** A mentor's word, as the program tells it. */
export interface Word {
  stands: "accepted" | "reopened" | "unused";
  /** Its index among the findings; null for one that is no longer found. */
  finding: number | null;
  rule: string;
  /** As the acceptance's record has it, which takes it back. */
  where: string;
  says: string;
}
/** A club's practice file. */
export interface Practice {
  club: string;
  rules: { rule: string; title: string; own: boolean; says: string }[];
  off: { rule: string; title: string; because: string }[];
}
export interface Assumed {
  where: string;
  value: string;
  says: string;
}
export interface NeededCaution {
  id: string;
  title: string;
  text: string;
  steps: string[];
}
export interface Judged {
  plan: string;
  title: string;
  verdict: string;
  assumed: Assumed[];
  findings: Finding[];
  cautions: NeededCaution[];
}
export interface PlanError {
  where: string;
  line: number;
  says: string;
  write: string;
}
export interface Unusable {
  plan: string;
  errors: PlanError[];
}
export interface Row {
  step: number | null;
  where: string;
  start: string | null;
  end: string | null;
  hands_on: boolean;
  slack: number | null;
  critical: boolean;
  words: string;
  start_hours: number;
  end_hours: number;
}
export interface Calendar {
  times: Row[];
  start: string | null;
  due: string | null;
  slack: number | null;
  latest_start: string | null;
  ready: string | null;
  ready_hours: number;
  hands_on_hours: number;
}
export interface KeyNumbers {
  title: string;
  rows: [string, string][];
}
export interface ToldNumber {
  name: string;
  of: string;
  title: string;
  says: string;
  how: string;
}
export interface Look {
  check: Judged | Unusable;
  schedule?: Calendar;
  key_numbers?: KeyNumbers[];
  numbers?: ToldNumber[];
  words?: Word[];
  steps?: { where: string; do: string; stage: number; minutes: number | null }[];
}
export interface Drawn {
  dot: string;
  title: string;
  about: string;
}
export interface Explained {
  rule: string;
  title: string;
  kind: string;
  why: string;
  do: string;
  example: { wrong: string; right: string };
  cautions: string[];
  sources: Source[];
  lesson: string;
}
export interface RuleRows {
  rows: { name: string; says: string; severity: Severity | null }[];
  sources: string[];
}
export interface Caution {
  id: string;
  title: string;
  text: string;
}
export interface Refused {
  error: string;
}

export const isUsable = (check: Judged | Unusable): check is Judged => !("errors" in check);
