// Making elements. Text only ever becomes text: nothing here reads markup.

type Child = Node | string | null | undefined | false;
type Listener = (event: Event) => void;
export type Attributes = { [name: string]: string | number | boolean | null | undefined | Listener };

/** An element. A function is a listener ("onclick"), true an attribute without a value, and false,
 * null or undefined leave it out. */
export function h<K extends keyof HTMLElementTagNameMap>(
  tag: K, attributes: Attributes = {}, ...children: Child[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) element.setAttribute(name, String(value));
  }
  for (const child of children) if (child !== null && child !== undefined && child !== false) element.append(child);
  return element;
}

/** A text of the engine's, in which names between backticks are shown as code. */
export const coded = (text: string): Child[] =>
  text.split(/(`[^`]*`)/).map((part) => (/^`[^`]*`$/.test(part) ? h("code", {}, part.slice(1, -1)) : part));
/** The same where there can be no code, as in a label. */
export const uncoded = (text: string): string => text.replaceAll("`", "");

/** Puts children in place of those that are there. */
export function fill(parent: Element, ...children: Child[]): void {
  parent.replaceChildren(...children.filter((c): c is Node | string => c !== null && c !== undefined && c !== false));
}

export function byId<T extends HTMLElement = HTMLElement>(id: string): T {
  const found = document.getElementById(id);
  if (!found) throw new Error(`#${id} is not on this page`);
  return found as T;
}

export const button = (label: string, onclick: () => void, attributes: Attributes = {}): HTMLButtonElement =>
  h("button", { type: "button", ...attributes, onclick }, label);

let numbered = 0;
export const newId = (stem: string): string => `${stem}-${++numbered}`;

/** Gives bytes to the reader as a file. */
export function download(name: string, type: string, content: string | Uint8Array): void {
  const url = URL.createObjectURL(new Blob([content as BlobPart], { type }));
  const link = h("a", { href: url, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
