// Pages as text. What is laid into markup is escaped unless it is markup of ours.

export class Html {
  constructor(readonly text: string) {}
}
type Part = Html | string | number | null | undefined | false | Part[];

const entities: { [character: string]: string } = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };
const escape = (text: string): string => text.replace(/[&<>"']/g, (c) => entities[c] ?? c);

const textOf = (part: Part): string =>
  part instanceof Html ? part.text
  : Array.isArray(part) ? part.map(textOf).join("")
  : part === null || part === undefined || part === false ? ""
  : escape(String(part));

export function html(strings: TemplateStringsArray, ...parts: Part[]): Html {
  return new Html(strings.map((string, i) => string + textOf(parts[i])).join(""));
}

/** A text of the engine's, in which names between backticks are shown as code. */
export const coded = (text: string): Html => new Html(escape(text).replace(/`([^`]*)`/g, "<code>$1</code>"));
/** The same where there can be no code, as in a description. */
export const uncoded = (text: string): string => text.replaceAll("`", "");
