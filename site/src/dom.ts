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
  element.append(...given(children));
  return element;
}

/** A text of the engine's, in which names between backticks are shown as code. */
export const coded = (text: string): Child[] =>
  text.split(/(`[^`]*`)/).map((part) => (/^`[^`]*`$/.test(part) ? h("code", {}, part.slice(1, -1)) : part));
/** The same where there can be no code, as in a label. */
export const uncoded = (text: string): string => text.replaceAll("`", "");

const given = (children: Child[]): (Node | string)[] =>
  children.filter((c): c is Node | string => c !== null && c !== undefined && c !== false && c !== "");

/** Puts children in place of those that are there. */
export function fill(parent: Element, ...children: Child[]): void {
  parent.replaceChildren(...given(children));
}

// What is laid into a page anew is styled, laid out and painted anew, which takes longer than to find out
// whether it has to be.

/** Makes an element say that. */
export function say(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}
/** Gives an element an attribute, or with false takes it away. */
export function mark(element: Element, name: string, value: string | boolean): void {
  const text = value === true ? "" : value;
  if (text === false) element.removeAttribute(name);
  else if (element.getAttribute(name) !== text) element.setAttribute(name, text);
}

/** As fill(), but what stands there as it is wanted stays. For children without listeners: those that
 * stay keep what listens to them. */
export function renew(parent: Element, ...children: Child[]): void {
  const wanted = given(children).map((child) => (typeof child === "string" ? document.createTextNode(child) : child));
  wanted.forEach((child, i) => {
    const there = parent.childNodes[i];
    if (!there) parent.append(child);
    else if (there.isEqualNode(child)) return;
    else if (there instanceof Element && there.childElementCount > 0 && there.cloneNode().isEqualNode(child.cloneNode()))
      renew(there, ...child.childNodes);
    else there.replaceWith(child);
  });
  while (parent.childNodes.length > wanted.length) parent.lastChild?.remove();
}

/** Makes these the children, in this order; those that are there already are left where they are. */
export function arrange(parent: Element, children: Element[]): void {
  const wanted = new Set(children);
  for (const there of [...parent.children]) if (!wanted.has(there)) there.remove();
  children.forEach((child, i) => {
    if (parent.children[i] !== child) parent.insertBefore(child, parent.children[i] ?? null);
  });
}

/** Calls once the page is painted as it stands now; never while it is not to be seen. */
export function afterPainting(then: () => void): void {
  requestAnimationFrame(() => setTimeout(then));
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
