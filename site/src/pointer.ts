// JSON pointers (RFC 6901), and changes of single values as JSON Patch (RFC 6902).

import type { Operation, Value } from "./types";

export const escaped = (name: string): string => name.replaceAll("~", "~0").replaceAll("/", "~1");
const unescaped = (part: string): string => part.replaceAll("~1", "/").replaceAll("~0", "~");

export const under = (pointer: string, name: string | number): string => `${pointer}/${escaped(String(name))}`;
const parted = new Map<string, string[]>();
/** The names and numbers of a pointer. Kept, since a form asks for those of all its fields at each key. */
export function partsOf(pointer: string): readonly string[] {
  let parts = parted.get(pointer);
  if (!parts) parted.set(pointer, (parts = pointer.split("/").slice(1).map(unescaped)));
  return parts;
}
export const parentOf = (pointer: string): string => pointer.slice(0, Math.max(0, pointer.lastIndexOf("/")));

const isObject = (value: Value | undefined): value is { [name: string]: Value } =>
  typeof value === "object" && value !== null && !Array.isArray(value);

export function at(document: Value | undefined, pointer: string): Value | undefined {
  let value = document;
  for (const part of partsOf(pointer)) {
    if (Array.isArray(value)) value = /^\d+$/.test(part) ? value[Number(part)] : undefined;
    else if (isObject(value) && Object.hasOwn(value, part)) value = value[part];
    else return undefined;
  }
  return value;
}

/** The changes that lay `value` at the pointer, with the objects around it that are not there yet;
 * undefined takes away what is there. */
export function changes(document: Value, pointer: string, value: Value | undefined): Operation[] {
  const there = at(document, pointer);
  if (value === undefined) return there === undefined ? [] : [{ op: "remove", path: pointer }];
  if (there !== undefined) return [{ op: "replace", path: pointer, value }];
  const parent = parentOf(pointer);
  const made = parent !== "" && at(document, parent) === undefined ? changes(document, parent, {}) : [];
  return [...made, { op: "add", path: pointer, value }];
}

/** Whether the pointer is that place or one inside it. */
export const isInside = (pointer: string, place: string): boolean =>
  pointer === place || pointer.startsWith(place + "/");
