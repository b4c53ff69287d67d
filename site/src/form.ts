// The plan as a form, made from the engine's own schema: names, words, explanations and examples are
// those that the reader of plans knows. Quantities are typed as people think of them, with units.

import { button, coded, fill, h, mark, newId, renew, say } from "./dom";
import { at, changes, isInside, partsOf, under } from "./pointer";
import { severityMark, signs } from "./results";
import type { Assumed, Fields, Finding, Operation, PlanError, Value } from "./types";

type Schema = { [name: string]: Value };

export interface FormHost {
  /** The plan as it stands. */
  document(): Value;
  /** Makes changes to it; those of one field one after another are undone as one. */
  change(patch: Operation[], field?: string): void;
  /** The plan with the usual steps written out. */
  writeSteps(): void;
  /** Whether that value at that place would leave nothing wrong there. */
  mends(pointer: string, value: string): boolean;
}

/** Where a name alone would not say enough. */
const labels: { [pointer: string]: string } = {
  "yeast.packaged": "Packaged on", "yeast.form": "Yeast comes as", "step.for": "How long", "step.in": "In",
  "step.do": "What is done", "step.to": "To", "step.from": "From", "step.with": "With", "step.at": "At",
  "step.after": "Waits for", "step.during": "During", "step.id": "Name of this step", "beer.kind": "Kind of beer",
  "beer.volume": "Batch", "beer.gravity": "Original gravity", "vessel.kind": "What it is",
  "extract.kind": "Extract", "extract.mass": "How much extract", "vessel.capacity": "Holds",
  "stage.vessel": "Grows in", "stage.temperature": "Grows at", "stage.duration": "Grows for",
  "place.room": "Room", "place.fridge": "Fridge", "vessel.coil_allowed": "Its maker allows a bare coil",
};

/** What a newcomer is asked first; the rest is folded away until it is wanted. */
const first: { [part: string]: string[] } = {
  plan: ["title", "member", "start"],
  place: ["altitude", "tap_water", "room", "fridge"],
  beer: ["kind", "volume", "gravity", "brew_day"],
  yeast: ["form", "packs", "packaged"],
  vessel: ["kind", "capacity", "material"],
  stage: ["water", "vessel", "agitation", "temperature", "duration"],
  extract: ["kind", "mass"],
  measured: ["volume", "volume_at", "gravity", "gravity_at", "cells", "cells_counted"],
};

/** Where the example of the quantity as such is none of the thing. */
const examples: { [pointer: string]: string } = {
  "beer.volume": "20 L", "vessel.capacity": "2 L", "yeast.slurry_volume": "150 mL", "place.tap_water": "14 °C",
  "place.fridge": "4 °C", "step.bath": "10 L", "step.ice": "1 kg", "step.ice_from": "40 °C", "step.at": "4 °C",
  "step.for": "12 min", "yeast.out_of_fridge": "3 h", "vessel.empty_mass": "350 g", "stage.boil_off": "0.2 L",
  "yeast.pack_mass": "11 g", "extract.solids": "95 %", "measured.volume_at": "22 °C", "measured.gravity": "1.036 SG",
};

/** Fields of the yeast that belong to one form of it. */
const ofForm: { [field: string]: string[] } = {
  cells_per_pack: ["liquid"], pack_mass: ["dry"], best_before: ["dry"], slurry_volume: ["slurry"],
  slurry_density: ["slurry"], packs: ["liquid", "dry"], packaged: ["liquid", "slurry"], out_of_fridge: ["liquid"],
};

/** What a step of each kind says, most wanted first. */
const ofStep: { [word: string]: string[] } = {
  weigh: [], dissolve: ["in"], heat: ["in", "heat", "to"], boil: ["in", "heat", "for", "boil_off"],
  add: ["items"], cover: ["with", "sealed", "during"], move: ["from", "to", "with"],
  chill: ["in", "bath", "to", "ice", "ice_from", "swirl", "water", "bath_depth"], sanitise: ["items", "for"],
  "check temperature": ["with"], pitch: ["from", "with"], agitate: ["with", "for"], rest: ["at", "for"],
  crash: ["at", "for"], store: ["in", "at", "for", "sealed"], decant: [], warm: ["to", "for"],
  "pitch to beer": [], "krausen pitch": [],
};
const ofAnyStep = ["stage", "id", "after", "during"];

interface Shown {
  element: HTMLElement;
  refresh(): void;
}

export class PlanForm {
  private readonly definitions: { [name: string]: Schema };
  private readonly top: Schema;
  private shown = new Map<string, Shown>();
  private places = new Map<string, HTMLElement>();
  /** Places with something said beside them. */
  private speaking = new Set<HTMLElement>();
  private shape = "";
  private assumed = new Map<string, string>();
  private unfolded = new Set<string>();

  constructor(private readonly place: HTMLElement, schema: Fields, private readonly host: FormHost) {
    this.top = schema;
    this.definitions = schema["$defs"] as { [name: string]: Schema };
  }

  /** Shows the plan, built anew when it has other parts, else only its values; and what the engine says,
   * beside the fields that it speaks of. */
  show(findings: Finding[], errors: PlanError[], assumed: Assumed[]): void {
    const shape = this.shapeOf(this.host.document());
    if (shape !== this.shape) {
      this.shape = shape;
      this.build();
    }
    this.assumed = new Map(assumed.map((a) => [a.where, a.value]));
    const said = new Map<HTMLElement, HTMLElement[]>();
    const tell = (where: string, element: HTMLElement): void => {
      const place = this.placeOf(where);
      if (place) said.set(place, [...(said.get(place) ?? []), element]);
    };
    for (const error of errors) tell(error.where, this.errorAt(error));
    for (const finding of findings)
      if (finding.severity !== "note")
        tell(finding.where, h("p", { class: `said ${finding.severity}` }, severityMark(finding.severity), " ", finding.title));
    for (const place of this.places.values()) {
      const now = said.get(place) ?? [];
      if (!this.speaking.has(place) && now.length === 0) continue;
      const told = place.querySelector(":scope > .told");
      // An error beside a field may have a button.
      if (told) (errors.length > 0 ? fill : renew)(told, ...now);
      if (now.length > 0) this.speaking.add(place);
      else this.speaking.delete(place);
    }
    for (const field of this.shown.values()) field.refresh();
  }

  private errorAt(error: PlanError): HTMLElement {
    const written = suggestion(error);
    return h("p", { class: "said error" }, signs.danger.sign + " ", ...coded(error.says),
      written !== undefined && this.shown.has(error.where) && this.host.mends(error.where, written)
        ? button(`Write ${written}`, () => this.set(error.where, written), { class: "apply" })
        : null);
  }

  /** Goes to the field that the place is or belongs to. */
  go(where: string): void {
    const place = this.placeOf(where);
    if (!place) return;
    for (let fold = place.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) fold.open = true;
    const field = place.querySelector<HTMLElement>("input, select, button, summary") ?? place;
    place.scrollIntoView({ block: "center" });
    field.focus({ preventScroll: true });
  }

  /** The place itself, the first field inside it, or the nearest part around it. */
  private placeOf(where: string): HTMLElement | undefined {
    for (let pointer = where; ; pointer = pointer.slice(0, pointer.lastIndexOf("/"))) {
      const own = this.places.get(pointer);
      if (own) return own;
      for (const [other, element] of this.places) if (pointer !== "" && isInside(other, pointer)) return element;
      if (pointer === "") return undefined;
    }
  }

  private set(pointer: string, value: Value | undefined): void {
    this.host.change(changes(this.host.document(), pointer, value), pointer);
  }

  /** All that decides which fields there are. */
  private shapeOf(document: Value): string {
    const steps = at(document, "/steps");
    const lengthOf = (pointer: string): number => {
      const list = at(document, pointer);
      return Array.isArray(list) ? list.length : 0;
    };
    const named = (pointer: string): string[] => {
      const object = at(document, pointer);
      return typeof object === "object" && object !== null ? Object.keys(object) : [];
    };
    return JSON.stringify([
      named("/vessels"), lengthOf("/stages"), at(document, "/yeast/form") ?? "", Array.isArray(steps),
      Array.isArray(steps) ? steps.map((step) => at(step, "/do") ?? "") : [],
    ]);
  }

  // Building

  private build(): void {
    const focused = document.activeElement?.id;
    this.shown = new Map();
    this.places = new Map();
    this.speaking = new Set();
    fill(this.place, this.part("About this plan", "", "plan", this.top, true),
      this.part("The beer", "/beer", "beer", this.definition("beer"), true),
      this.part("The yeast", "/yeast", "yeast", this.definition("yeast"), true, (name) => this.isOfYeast(name)),
      this.part("Where you are", "/place", "place", this.definition("place"), true),
      this.vessels(), this.stages(), this.steps());
    if (focused) document.getElementById(focused)?.focus();
  }

  private isOfYeast(name: string): boolean {
    const form = at(this.host.document(), "/yeast/form");
    const forms = ofForm[name];
    return !forms || typeof form !== "string" || forms.includes(form);
  }

  private definition(name: string): Schema {
    return this.definitions[name] ?? {};
  }
  private resolved(schema: Schema): Schema {
    const reference = schema["$ref"];
    return typeof reference === "string" ? { ...this.definition(reference.split("/").pop() ?? ""), ...schema } : schema;
  }

  private register(pointer: string, element: HTMLElement): HTMLElement {
    this.places.set(pointer, element);
    return element;
  }

  /** A group of fields with a heading: those asked first, and the rest folded away. */
  private part(title: string, pointer: string, kind: string, schema: Schema, legend: boolean,
               wanted: (name: string) => boolean = () => true): HTMLElement {
    const properties = this.resolved(schema)["properties"] as { [name: string]: Schema };
    const simple = Object.entries(properties).filter(([name, property]) => {
      const full = this.resolved(property);
      return wanted(name) && name !== "plan" && full["type"] !== "object" && full["type"] !== "array";
    });
    const asked = first[kind] ?? [];
    const front = asked.flatMap((name) => simple.filter(([other]) => other === name));
    const rest = simple.filter(([name]) => !asked.includes(name));
    const field = ([name, property]: [string, Schema]): HTMLElement => this.field(under(pointer, name), kind, name, property);
    const inner = this.nested(pointer, kind, properties);
    const body = [h("div", { class: "told" }), ...inner.before, ...front.map(field),
      rest.length > 0 && this.fold(`${pointer} more`, kind === "extract" ? "More about the extract" : "More about it", rest.map(field)),
      ...inner.after];
    const element = legend
      ? h("fieldset", {}, h("legend", {}, title), ...body)
      : h("div", { class: "part" }, ...body);
    return this.register(pointer, element);
  }

  /** What a stage is made from, and what was measured of it. */
  private nested(pointer: string, kind: string, properties: { [name: string]: Schema }): { before: HTMLElement[]; after: HTMLElement[] } {
    if (kind !== "stage") return { before: [], after: [] };
    const inner = (name: string): HTMLElement =>
      this.part("", under(pointer, name), name, properties[name] ?? {}, false);
    return { before: [inner("extract")], after: [this.fold(`${pointer} measured`, "What you measured", [inner("measured")])] };
  }

  private fold(key: string, title: string, children: HTMLElement[]): HTMLElement {
    const details = h("details", {
      class: "fold",
      ontoggle: (event) => {
        if ((event.target as HTMLDetailsElement).open) this.unfolded.add(key);
        else this.unfolded.delete(key);
      },
    }, h("summary", {}, title), ...children);
    details.open = this.unfolded.has(key);
    return details;
  }

  private field(pointer: string, kind: string, name: string, property: Schema): HTMLElement {
    const schema = this.resolved(property);
    const id = "f" + pointer.replaceAll("/", "-").replace(/\s/g, "_");
    const helpId = newId("help");
    const label = labels[`${kind}.${name}`] ?? (name.charAt(0).toUpperCase() + name.slice(1)).replaceAll("_", " ");
    const control = this.control(pointer, kind, name, schema, { id, "aria-describedby": helpId });
    const said = examples[`${kind}.${name}`] ?? (Array.isArray(schema["examples"]) ? String(schema["examples"][0]) : "");
    const description = String(property["description"] ?? schema["description"] ?? "");
    const isFlag = schema["type"] === "boolean";
    // A field that brings its own choices or calendar needs no example.
    const typed = control.element instanceof HTMLInputElement && control.element.type === "text";
    const element = h("div", { class: isFlag ? "field flag" : "field" },
      ...(isFlag ? [control.element, h("label", { for: id }, label)] : [h("label", { for: id }, label), control.element]),
      h("p", { class: "help", id: helpId }, description + (typed && said ? ` For example ${said}.` : "")),
      h("div", { class: "told" }));
    this.shown.set(pointer, { element, refresh: control.refresh });
    return this.register(pointer, element);
  }

  private value(pointer: string): Value | undefined {
    return at(this.host.document(), pointer);
  }

  private control(pointer: string, kind: string, name: string, schema: Schema, attributes: { [name: string]: string }): Shown {
    if (Array.isArray(schema["enum"])) return this.choice(pointer, schema["enum"] as string[], attributes, false);
    if (kind === "step" && name === "do") return this.choice(pointer, Object.keys(ofStep), attributes, true);
    if (schema["type"] === "boolean") return this.flag(pointer, attributes);
    if (isVesselName(kind, name, this.value(pointer.replace(/\/[^/]*$/, "/do"))))
      return this.choice(pointer, this.vesselNames(), attributes, true);
    const reference = typeof schema["$ref"] === "string" ? schema["$ref"].split("/").pop() : "";
    if (reference === "names") return this.list(pointer, attributes);
    if (reference === "moment" || name === "brew_day") return this.entry(pointer, { ...attributes, type: "datetime-local" });
    if (reference === "day") return this.entry(pointer, { ...attributes, type: "date" });
    if (schema["type"] === "integer") return this.entry(pointer, { ...attributes, type: "text", inputmode: "numeric" }, true);
    return this.entry(pointer, { ...attributes, type: "text", autocapitalize: "off", autocomplete: "off", spellcheck: "false" });
  }

  private vesselNames(): string[] {
    const vessels = this.value("/vessels");
    return typeof vessels === "object" && vessels !== null ? Object.keys(vessels) : [];
  }

  private choice(pointer: string, words: string[], attributes: { [name: string]: string }, own: boolean): Shown {
    const none = h("option", { value: "" }, "");
    const element = h("select", {
      ...attributes,
      onchange: () => this.set(pointer, element.value === "" ? undefined : element.value),
    }, none, ...words.map((word) => h("option", { value: word }, word)));
    const refresh = (): void => {
      const value = this.value(pointer);
      const assumed = this.assumed.get(pointer);
      say(none, assumed ? `${assumed} (assumed)` : "not said");
      const text = typeof value === "string" ? value : "";
      if (text !== "" && !words.includes(text) && ![...element.options].some((o) => o.value === text))
        element.append(h("option", { value: text }, own ? text : `${text} (not known)`));
      if (element.value !== text) element.value = text;
    };
    return { element, refresh };
  }

  private flag(pointer: string, attributes: { [name: string]: string }): Shown {
    const element = h("input", { ...attributes, type: "checkbox", onchange: () => this.set(pointer, element.checked || undefined) });
    return { element, refresh: () => (element.checked = this.value(pointer) === true) };
  }

  private entry(pointer: string, attributes: { [name: string]: string }, whole = false): Shown {
    const typed = (): Value | undefined => {
      const text = element.value;
      if (text === "") return undefined;
      return whole && /^\d{1,9}$/.test(text.trim()) ? Number(text) : text;
    };
    const element = h("input", { ...attributes, oninput: () => this.set(pointer, typed()) });
    const refresh = (): void => {
      const value = this.value(pointer);
      const assumed = this.assumed.get(pointer);
      if (attributes["type"] === "text") mark(element, "placeholder", assumed ? `${assumed} (assumed)` : "");
      if (element === document.activeElement) return;
      const text = value === undefined || value === null ? "" : typeof value === "object" ? JSON.stringify(value) : String(value);
      const shown = attributes["type"] === "datetime-local" && /^\d{4}-\d\d-\d\d$/.test(text) ? `${text}T09:00`
        : attributes["type"] === "date" ? text.slice(0, 10) : text;
      if (element.value !== shown) element.value = shown;
    };
    return { element, refresh };
  }

  /** Several names, typed with commas between them. */
  private list(pointer: string, attributes: { [name: string]: string }): Shown {
    const typed = (): Value | undefined => {
      const names = element.value.split(",").map((name) => name.trim()).filter((name) => name !== "");
      return names.length === 0 ? undefined : names.length === 1 ? names[0] : names;
    };
    const element = h("input", { ...attributes, type: "text", autocapitalize: "off", oninput: () => this.set(pointer, typed()) });
    const refresh = (): void => {
      if (element === document.activeElement) return;
      const value = this.value(pointer);
      element.value = Array.isArray(value) ? value.join(", ") : typeof value === "string" ? value : "";
    };
    return { element, refresh };
  }

  // Parts that repeat

  private vessels(): HTMLElement {
    const cards = this.vesselNames().map((name) => {
      const pointer = under("/vessels", name);
      const rename = h("input", { id: newId("name"), type: "text", value: name, onchange: () => this.rename(name, rename) });
      return h("section", { class: "card" },
        h("h4", {}, name),
        h("div", { class: "field" }, h("label", { for: rename.id }, "Name"), rename,
          h("p", { class: "help" }, "What stages and steps call it.")),
        this.part(name, pointer, "vessel", this.definition("vessel"), false),
        button("Remove this vessel", () => this.host.change([{ op: "remove", path: pointer }]), { class: "quiet" }));
    });
    return this.register("/vessels", h("fieldset", {}, h("legend", {}, "Vessels"), h("div", { class: "told" }), ...cards,
      button("Add a vessel", () => this.addVessel())));
  }

  private addVessel(): void {
    const names = this.vesselNames();
    let name = "flask";
    for (let n = 2; names.includes(name); ++n) name = `flask ${n}`;
    this.host.change(changes(this.host.document(), under("/vessels", name), { kind: "conical flask", capacity: "2 L" }));
  }

  /** A vessel under another name, here and wherever the plan speaks of it. */
  private rename(name: string, input: HTMLInputElement): void {
    const wanted = input.value.trim();
    if (wanted === "" || wanted === name || this.vesselNames().includes(wanted)) {
      input.value = name;
      return;
    }
    const patch: Operation[] = [{ op: "move", from: under("/vessels", name), path: under("/vessels", wanted) }];
    const follow = (list: string, fields: string[]): void => {
      const items = this.value(list);
      if (!Array.isArray(items)) return;
      items.forEach((item, i) => {
        for (const field of fields)
          if (at(item, `/${field}`) === name) patch.push({ op: "replace", path: `${list}/${i}/${field}`, value: wanted });
      });
    };
    follow("/stages", ["vessel"]);
    follow("/steps", ["in", "from", "to"]);
    this.host.change(patch);
  }

  private stages(): HTMLElement {
    const stages = this.value("/stages");
    const count = Array.isArray(stages) ? stages.length : 0;
    const cards = Array.from({ length: count }, (_, i) =>
      h("section", { class: "card" }, h("h4", {}, count === 1 ? "The starter" : `Stage ${i + 1}`),
        this.part("", `/stages/${i}`, "stage", this.definition("stage"), false),
        count > 1 && button(`Remove stage ${i + 1}`, () => this.host.change([{ op: "remove", path: `/stages/${i}` }]), { class: "quiet" })));
    const another = (): void => {
      const last = Array.isArray(stages) ? stages[stages.length - 1] : undefined;
      this.host.change([...(Array.isArray(stages) ? [] : changes(this.host.document(), "/stages", [])),
        { op: "add", path: "/stages/-", value: last ?? { extract: { kind: "light dry malt", mass: "100 g" }, water: "1 L" } }]);
    };
    return this.register("/stages", h("fieldset", {}, h("legend", {}, "The starter wort"), h("div", { class: "told" }), ...cards,
      button("Grow it in one more stage", another)));
  }

  private steps(): HTMLElement {
    const steps = this.value("/steps");
    const list = h("ol", { class: "steps" });
    const element = h("fieldset", {}, h("legend", {}, "The steps"), h("div", { class: "told" }));
    this.register("/steps", element);
    if (!Array.isArray(steps)) {
      element.append(h("p", {}, "Your plan does not list its steps, so the usual ones are taken; the schedule shows them."),
        button("Write the usual steps out", () => this.host.writeSteps()));
      return element;
    }
    steps.forEach((step, i) => list.append(this.stepCard(step, i, steps.length)));
    element.append(list, button("Add a step", () => this.host.change([{ op: "add", path: "/steps/-", value: { do: "rest", for: "10 min" } }])),
      button("Take the usual steps instead", () => this.host.change([{ op: "remove", path: "/steps" }]), { class: "quiet" }));
    return element;
  }

  private stepCard(step: Value, i: number, count: number): HTMLElement {
    const pointer = `/steps/${i}`;
    const properties = this.definition("step")["properties"] as { [name: string]: Schema };
    const word = at(step, "/do");
    const usual = (typeof word === "string" && ofStep[word]) || [];
    const present = typeof step === "object" && step !== null ? Object.keys(step) : [];
    const shown = [...usual, ...present.filter((name) => name !== "do" && !usual.includes(name) && properties[name])];
    const rest = ofAnyStep.filter((name) => !shown.includes(name));
    const field = (name: string): HTMLElement => this.field(under(pointer, name), "step", name, properties[name] ?? {});
    const move = (to: number): void => this.host.change([{ op: "move", from: pointer, path: `/steps/${to}` }]);
    const number = i + 1;
    const summary = h("summary", {});
    const details = this.fold(`step ${i}`, "", [h("div", { class: "told" }), field("do"), ...shown.map(field),
      this.fold(`step ${i} more`, "More about it", rest.map(field)),
      h("div", { class: "buttons" },
        button("Earlier", () => move(i - 1), { class: "quiet", disabled: i === 0, "aria-label": `Step ${number} earlier` }),
        button("Later", () => move(i + 1), { class: "quiet", disabled: i + 1 === count, "aria-label": `Step ${number} later` }),
        button("Step after", () => this.host.change([{ op: "add", path: `/steps/${number}`, value: { do: "rest", for: "10 min" } }]),
          { class: "quiet", "aria-label": `Add a step after step ${number}` }),
        button("Remove", () => this.host.change([{ op: "remove", path: pointer }]), { class: "quiet", "aria-label": `Remove step ${number}` }))]);
    details.querySelector("summary")?.replaceWith(summary);
    const refresh = (): void => {
      const now = this.value(pointer);
      say(summary, `${number}. ${inFewWords(now)}`);
    };
    this.shown.set(pointer, { element: details, refresh });
    return h("li", {}, this.register(pointer, details));
  }
}

/** "boil · flask · 12 min": what the member wrote, for a folded step. */
function inFewWords(step: Value | undefined): string {
  if (typeof step !== "object" || step === null || Array.isArray(step)) return "?";
  const told = ["do", "in", "from", "to", "with", "items", "for"].flatMap((name) => {
    const value = step[name];
    return value === undefined ? [] : Array.isArray(value) ? value.map(String) : [String(value)];
  });
  return told.join(" · ");
}

function isVesselName(kind: string, name: string, word: Value | undefined): boolean {
  if (kind === "stage") return name === "vessel";
  return kind === "step" && (name === "in" || (name === "to" && word === "move"));
}

/** The value that a mistaken field should have, as far as the engine's advice is one. */
export function suggestion(error: PlanError): string | undefined {
  if (error.write === "" || partsOf(error.where).length === 0) return undefined;
  try {
    const value: unknown = JSON.parse(error.write);
    return typeof value === "string" ? value : undefined;
  } catch {
    return error.write;
  }
}
