// What a change did to a plan, in words: numbers that moved, findings that came and went.

import { keyOf } from "./results";
import { isUsable } from "./types";
import type { Finding, Look } from "./types";

export interface Difference {
  numbers: { name: string; before: string; after: string }[];
  come: Finding[];
  gone: Finding[];
}

function rowsOf(look: Look): Map<string, string> {
  const rows = new Map<string, string>();
  for (const part of look.key_numbers ?? [])
    for (const [name, value] of part.rows) rows.set(part.title ? `${part.title}: ${name}` : name, value);
  return rows;
}

const findingsOf = (look: Look): Finding[] => (isUsable(look.check) ? look.check.findings : []);

export function difference(before: Look, after: Look): Difference {
  const was = rowsOf(before);
  const is = rowsOf(after);
  const names = [...new Set([...was.keys(), ...is.keys()])];
  const numbers = names.map((name) => ({ name, before: was.get(name) ?? "–", after: is.get(name) ?? "–" }));
  const without = (list: Finding[], other: Finding[]): Finding[] => {
    const keys = new Set(other.map((f) => `${keyOf(f)} ${f.severity}`));
    return list.filter((f) => !keys.has(`${keyOf(f)} ${f.severity}`));
  };
  return {
    numbers: numbers.filter((n) => n.before !== n.after),
    come: without(findingsOf(after), findingsOf(before)),
    gone: without(findingsOf(before), findingsOf(after)),
  };
}
