// The lessons: a page that lists them, and a page for each with its exercise.

import { deflateRawSync } from "node:zlib";
import markdown from "markdown-it";
import type { Engine } from "../src/engine";
import { fragmentOfPacked } from "../src/share";
import type { Drawn, Explained } from "../src/types";
import { Html, coded, html, uncoded } from "./html";
import type { Page } from "./shell";

/** What `starter-plan lesson NN --format json` prints; engine/lesson/lesson.schema.json has the words. */
export interface Lesson {
  number: string;
  name: string;
  title: string;
  summary: string;
  teaches: string[];
  text: string;
  plan: string;
  mended: string;
  facts: [string, string][];
  steps: string[];
  choices: { rule: string; title: string; speaks: boolean; says: string }[];
}

export interface Ingredients {
  engine: Engine;
  draw(dot: string): string;
  lessons: Lesson[];
}

/** "lessons/03-how-much-extract.html" */
export const pathOf = (lesson: Lesson): string => `lessons/${lesson.name}.html`;
const numberOf = (lesson: Lesson): number => Number(lesson.number);

const wrongOnPurpose = "Never brew from the plan of a lesson: it is wrong on purpose, and some of these faults scald, cut or poison.";

/** Prose as markup. Raw HTML in it is shown as text; the image called “picture” is the plan's. */
export function proseWith(picture: Html): (text: string) => Html {
  const reader = markdown("commonmark", { html: false });
  reader.renderer.rules["image"] = (tokens, i) => {
    const token = tokens[i]!;
    return token.attrGet("src") === "picture" ? picture.text : html`${token.content}`.text;
  };
  // Words of the check are laid into the prose as plain text, with their backticks.
  reader.renderer.rules["text"] = (tokens, i) => coded(tokens[i]!.content).text;
  // The picture is a part of its own and stands in no paragraph.
  const alone = (tokens: { children: unknown[] | null }[], inline: number): boolean =>
    tokens[inline]?.children?.length === 1 && (tokens[inline].children[0] as { type: string }).type === "image";
  reader.renderer.rules["paragraph_open"] = (tokens, i, options, _, self) => (alone(tokens, i + 1) ? "" : self.renderToken(tokens, i, options));
  reader.renderer.rules["paragraph_close"] = (tokens, i, options, _, self) => (alone(tokens, i - 1) ? "\n" : self.renderToken(tokens, i, options));
  return (text) => new Html(reader.render(text));
}

/** What it tells, and the answers to the questions at its end. */
function partsOf(lesson: Lesson): { told: string; own: string } {
  const [told = "", own, ...more] = lesson.text.split(/^## Answers$/m);
  if (own === undefined || more.length > 0) throw new Error(`lesson ${lesson.name} has no one part “Answers”`);
  return { told, own };
}

const exercise = (lesson: Lesson): Html => html`<section id="exercise" aria-labelledby="exercise-title">
<h2 id="exercise-title">Which of these will the check find?</h2>
<p id="how-many">Tick what you expect. More than one may be right.</p>
<fieldset aria-labelledby="exercise-title" aria-describedby="how-many"><ul class="choices">
${lesson.choices.map((choice) => html`<li data-speaks="${String(choice.speaks)}"><label><input type="checkbox" name="choice" value="${choice.rule}" autocomplete="off"> <span>${choice.title}</span></label>
<p class="told" hidden><strong></strong> <span>${coded(choice.says)}</span></p></li>
`)}</ul></fieldset>
<p class="no-print"><button type="button" id="score" class="main" hidden>See how well I did</button></p>
<p id="scored" class="verdict" role="status" hidden></p>
</section>`;

/** The self-check with a plan in it. */
const checked = (plan: string): string => `../check.html${fragmentOfPacked(deflateRawSync(plan))}`;

function page(lesson: Lesson, drawn: Drawn, rules: Map<string, Explained>, all: Lesson[]): Page {
  const at = all.indexOf(lesson);
  const before = all[at - 1];
  const next = all[at + 1];
  const { told, own } = partsOf(lesson);
  const prose = proseWith(html`<div class="canvas" tabindex="0" role="group" aria-label="The picture; it scrolls"><img src="${lesson.name}.svg" alt="${uncoded(drawn.about)}"></div>`);
  return {
    path: pathOf(lesson),
    title: lesson.title,
    description: uncoded(lesson.summary),
    scripts: ["lesson"],
    body: html`<p class="kicker"><a href="index.html">Lessons</a> · ${numberOf(lesson)} of ${all.length}</p>
<h1>${lesson.title}</h1>
<h2>The plan</h2>
<p class="caution">${wrongOnPurpose}</p>
<dl class="pairs">${lesson.facts.map(([name, value]) => html`<dt>${name}</dt><dd>${coded(value)}</dd>`)}</dl>
<ol class="plan-steps">${lesson.steps.map((step) => html`<li>${coded(step)}</li>`)}</ol>
${exercise(lesson)}
<details id="answers"><summary>Read what is wrong, and why</summary>
<div class="prose">${prose(told)}</div>
<details class="own"><summary>Answers to these questions</summary><div class="prose">${prose(own)}</div></details>
<section class="no-print" aria-labelledby="try-title"><h2 id="try-title">Try it yourself</h2>
<p>Change the plan in the self-check, and see what each change does.</p>
<p class="buttons"><a class="button" id="open-plan" href="${checked(lesson.plan)}">Open the plan with its faults</a>
<a class="button" id="open-mended" href="${checked(lesson.mended)}">Open the mended plan</a></p></section>
<h2>Rules in this lesson</h2>
<ul class="rules">${lesson.teaches.map((id) => html`<li><a href="../rules/${id}.html">${rules.get(id)?.title ?? id}</a></li>`)}</ul>
</details>
<nav class="turn" aria-label="Other lessons">
${before ? html`<a rel="prev" href="${before.name}.html"><span>Before this</span> ${numberOf(before)}. ${before.title}</a>` : html`<span></span>`}
${next && html`<a rel="next" href="${next.name}.html"><span>Next</span> ${numberOf(next)}. ${next.title}</a>`}
</nav>`,
  };
}

const list = (all: Lesson[]): Page => ({
  path: "lessons/index.html",
  title: "Lessons",
  description: "Plans that go wrong, as exercises: find what is wrong, then read why.",
  body: html`<h1>${all.length} lessons</h1>
<p class="lead">Each is a plan that goes wrong, the same plan mended, and why. Look at the plan first, say what you expect the check to find, and then read on. They build on one another.</p>
<p class="caution">${wrongOnPurpose}</p>
<ol class="lessons">${all.map((lesson) => html`<li><a href="${lesson.name}.html"><strong>${lesson.title}</strong></a> <span>${coded(lesson.summary)}</span></li>
`)}</ol>`,
});

export function lessonPages({ engine, draw, lessons }: Ingredients): { pages: Page[]; pictures: { [path: string]: string } } {
  const rules = new Map(engine.explain().map((rule) => [rule.rule, rule]));
  const pages = [list(lessons)];
  const pictures: { [path: string]: string } = {};
  for (const lesson of lessons) {
    const drawn = engine.draw(lesson.plan, "metric");
    if ("errors" in drawn) throw new Error(`the plan of lesson ${lesson.name} cannot be drawn: ${drawn.errors[0]?.says}`);
    pictures[`lessons/${lesson.name}.svg`] = engine.picture(draw(drawn.dot), drawn);
    pages.push(page(lesson, drawn, rules, lessons));
  }
  return { pages, pictures };
}
