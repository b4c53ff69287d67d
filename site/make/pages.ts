// All pages of the site, from the engine's own texts.

import type { Engine } from "../src/engine";
import type { Explained } from "../src/types";
import { Html, coded, html, uncoded } from "./html";
import { lessonPages, pathOf } from "./lessons";
import type { Lesson } from "./lessons";
import type { Page } from "./shell";

export interface Ingredients {
  engine: Engine;
  /** A graph to the picture of it. */
  draw(dot: string): string;
  /** Plans to begin with: name and text. */
  plans: { title: string; text: string }[];
  /** In teaching order. */
  lessons: Lesson[];
  licences: { part: string; licence: string; text: string }[];
}

/** "glass-shock" to "Glass shock" */
const spaced = (id: string): string => (id.charAt(0).toUpperCase() + id.slice(1)).replaceAll("-", " ");

const start = (): Page => ({
  path: "index.html",
  title: "Start",
  description: "Check a yeast starter before you light the stove.",
  body: html`<h1>Check your yeast starter before you light the stove</h1>
<p class="lead">Write down what you mean to do. You see what will happen: how strong the wort gets, whether the ice is enough, what the glass takes, how many cells grow, and when each step falls due. What to mend is said with its numbers, its reason and a fix.</p>
<ul class="doors">
<li><a class="door" href="check.html"><strong>Check a plan</strong><span>Fill in a form, or start from an example.</span></a></li>
<li><a class="door" href="stove.html"><strong>At the stove</strong><span>One step at a time, with timers and cautions.</span></a></li>
<li><a class="door" href="mentor.html"><strong>For mentors</strong><span>Many plans at once, and a review to hand back.</span></a></li>
<li><a class="door" href="lessons/index.html"><strong>Lessons</strong><span>Find what is wrong with a plan, then read why.</span></a></li>
<li><a class="door" href="process.html"><strong>The process</strong><span>The usual steps, in one picture.</span></a></li>
<li><a class="door" href="rules/index.html"><strong>The rules</strong><span>What is looked at, and why.</span></a></li>
</ul>
<p>It works without a network after your first visit. Plans stay on your device.</p>`,
});

const check = (plans: Ingredients["plans"]): Page => ({
  path: "check.html",
  title: "Check a plan",
  description: "A yeast starter plan as a form, with findings as you type.",
  scripts: ["check"],
  body: html`<h1>Check a plan</h1>
<div class="buttons"><button type="button" id="undo" disabled>Undo</button><button type="button" id="redo" disabled>Redo</button></div>
<details class="fold files"><summary>Open, save, share, print</summary><div class="bar" role="group" aria-label="This plan">
<label class="button">Open a file<input id="open" type="file" multiple accept=".json,application/json" class="unseen"></label>
<button type="button" id="save">Save as a file</button>
<button type="button" id="share">Make a link</button>
<button type="button" id="print">Print</button>
</div>
<p class="help">A plan; with it, or by itself, the <code>.accepted.json</code> file that a mentor gave you, or your club's <code>.practice.json</code> file.</p>
<div id="shared"></div></details>
<div id="practice" tabindex="-1"></div>
<div id="accepted" tabindex="-1"></div>
<p id="said" role="status"></p>
<details class="fold start"><summary>Start from an example</summary>
<div class="buttons">${plans.map((plan) => html`<button type="button" data-example="${plan.text}">${plan.title}</button>
`)}</div></details>
<div class="switches">
<fieldset class="switch"><legend>Show the plan as</legend>
<label><input type="radio" name="view" id="view-form" value="form" checked> form</label>
<label><input type="radio" name="view" id="view-text" value="text"> text</label>
<label><input type="radio" name="view" id="view-both" value="both"> both</label>
</fieldset>
<fieldset class="switch"><legend>Tell numbers in</legend>
<label><input type="radio" name="units" value="metric" checked> metric</label>
<label><input type="radio" name="units" value="us"> US</label>
</fieldset>
</div>
<div class="workbench">
<section id="plan" aria-label="The plan" data-first="${plans[0]?.text}">
<p id="form-off" class="trouble" hidden>The plan's text is not complete, so the form waits until it can be read.</p>
<div id="form"></div>
<div id="as-text" hidden><label for="text">The plan as text</label>
<textarea id="text" spellcheck="false" autocapitalize="off" autocomplete="off" rows="30"></textarea></div>
</section>
<div class="results" id="results" tabindex="-1">
<section id="unusable" aria-labelledby="unusable-title" hidden><h2 id="unusable-title">This plan cannot be used yet</h2>
<ul id="errors" class="findings"></ul></section>
<div id="usable">
<h2 id="print-title" class="on-paper"></h2>
<section aria-labelledby="findings-title"><h2 id="findings-title">Findings <span id="tally"></span></h2>
<p id="verdict" class="verdict" role="status"></p>
<ol id="findings" class="findings"></ol></section>
<section aria-labelledby="key-title"><h2 id="key-title">Key numbers</h2><div id="key-numbers"></div>
<details class="fold" id="numbers-part"><summary>Every number, and how it was worked out</summary><div id="numbers"></div></details></section>
<section aria-labelledby="schedule-title"><h2 id="schedule-title">Schedule</h2>
<p class="no-print"><button type="button" id="calendar" hidden>Save it for a calendar</button>
<a class="button" href="stove.html">Take it to the stove</a></p>
<div id="schedule"></div></section>
<section class="picture-part" aria-labelledby="picture-title"><h2 id="picture-title">Picture</h2>
<p class="no-print"><button type="button" id="draw">Draw the process</button></p>
<p id="picture-note" role="status"></p><div id="picture"></div></section>
<section aria-labelledby="cautions-title"><h2 id="cautions-title">Take care</h2><ul id="cautions" class="cautions"></ul></section>
<section id="assumed-part" aria-labelledby="assumed-title"><h2 id="assumed-title">Taken for granted</h2>
<p>Your plan does not say these. Write them into it, and the numbers get surer.</p><ul id="assumed"></ul></section>
</div>
</div>
</div>
<a class="to-findings no-print" href="#results">To the findings <span id="float-tally"></span></a>`,
});

const stove = (plans: Ingredients["plans"]): Page => ({
  path: "stove.html",
  title: "At the stove",
  description: "A plan step by step, with timers, cautions and readings.",
  scripts: ["stove"],
  body: html`<div id="no-plan" hidden><h1>At the stove</h1>
<p>The plan that you are working on cannot be used yet. <a href="check.html">Mend it first.</a></p></div>
<div id="stove" data-first="${plans[0]?.text}" hidden>
<p class="kicker"><span id="plan-title"></span> · <span id="count"></span></p>
<h1 id="step-title" class="large" tabindex="-1"></h1>
<p id="when" class="large"></p>
<ul id="cautions" class="cautions"></ul>
<ul id="found" class="findings"></ul>
<div id="timer"></div>
<p><button type="button" id="now">I begin this step now</button></p>
<p id="rung" class="rung" role="alert"></p>
<p id="others" class="others"></p>
<section id="readings-part" aria-labelledby="readings-title"><h2 id="readings-title">What you measured</h2>
<div id="readings"></div></section>
<section id="changed" role="status"></section>
<p id="coming" class="coming"></p>
<div class="walk"><button type="button" id="back">Back</button><button type="button" id="next" class="main">Done: next step</button></div>
<details class="fold"><summary>All steps, and more</summary><ol id="all" class="all"></ol>
<p><label class="flag" id="awake-part"><input type="checkbox" id="awake"> Keep the screen on</label></p>
<div class="buttons"><button type="button" id="save">Save the plan with its readings</button>
<button type="button" id="again">Start over</button></div></details>
</div>`,
});

const mentor = (): Page => ({
  path: "mentor.html",
  title: "For mentors",
  description: "Many plans at once, findings accepted with a reason, and a review to hand back.",
  scripts: ["mentor"],
  body: html`<h1>For mentors</h1>
<p class="lead no-print">Choose the plan files of your club, or drop them here: with the <code>.accepted.json</code> files beside them, and your club's <code>.practice.json</code> file if it has one.</p>
<p id="kept" class="no-print">All of it is kept in this browser, on this device, until you press “Forget all of it”. Nothing is uploaded.</p>
<div class="bar wide"><label class="button">Choose files<input id="choose" type="file" multiple accept=".json,application/json" class="unseen"></label>
<button type="button" id="save-accepted" disabled>Save what is accepted</button>
<button type="button" id="export">Save the review</button><button type="button" id="print">Print</button>
<button type="button" id="clear" class="quiet">Forget all of it</button></div>
<p id="progress" role="status"></p>
<div id="practice" tabindex="-1"></div>
<div id="lonely"></div>
<div class="signature no-print"><div class="field"><label for="mentor">Your name</label><input id="mentor" type="text" autocomplete="name" aria-describedby="signs"></div>
<div class="field"><label for="day">The day</label><input id="day" type="date" aria-describedby="signs"></div></div>
<p id="signs" class="help no-print">They stand with what you accept. The day may be left empty.</p>
<div id="table-part" class="scrolls" tabindex="0" role="group" aria-label="Plans" hidden><table><caption>Plans, worst first</caption>
<thead><tr><th scope="col">Plan</th><th scope="col">Member</th><th scope="col">To mend</th><th scope="col">Accepted</th></tr></thead>
<tbody id="rows"></tbody></table></div>
<section id="one" aria-labelledby="one-title" hidden>
<h2 id="one-title" tabindex="-1"></h2><p id="one-who" class="kicker"></p>
<p id="one-verdict" class="verdict"></p>
<p class="no-print"><a class="button" id="one-open" href="check.html">Open it in the self-check</a></p>
<div id="one-file" class="no-print"></div>
<ol id="one-findings" class="findings"></ol>
<div id="one-unused"></div>
<h3>Key numbers</h3><div id="one-numbers"></div></section>`,
});

const picture = (svg: string, drawing: { about: string }): Html =>
  html`<div class="canvas" tabindex="0" role="group" aria-label="The picture; it scrolls"><img src="${svg}" alt="${uncoded(drawing.about)}"></div>`;

const process = (drawing: { about: string }): Page => ({
  path: "process.html",
  title: "The process",
  description: "The usual steps of a yeast starter, in one picture.",
  body: html`<h1>The usual process</h1>
<p class="lead">A starter, from the scales to the beer. After the boil, whatever touches the wort must be clean.</p>
${picture("pictures/process.svg", drawing)}`,
});

const severityMark = (severity: string): Html => {
  const signs: { [severity: string]: string } = { danger: "▲", spoils: "■", weakens: "◆", note: "○" };
  return html`<span class="mark ${severity}" aria-hidden="true">${signs[severity] ?? ""}</span> `;
};

function rule(explained: Explained, { engine, lessons }: Ingredients): Page {
  const taught = lessons.filter((lesson) => lesson.teaches.includes(explained.rule));
  const cautions = engine.cautions().filter((c) => explained.cautions.includes(c.id));
  const metric = engine.rows(explained.rule, "metric");
  const us = engine.rows(explained.rule, "us");
  const row = (i: number): Html => {
    const m = metric.rows[i]!;
    const other = us.rows[i]!.says;
    return html`<dt>${m.name}</dt><dd>${m.severity && severityMark(m.severity)}${coded(m.says)}${other !== m.says && html`<br><span class="other">US: ${coded(other)}</span>`}</dd>`;
  };
  return {
    path: `rules/${explained.rule}.html`,
    title: explained.title,
    description: uncoded(explained.do),
    body: html`<p class="kicker"><a href="index.html">Rules</a> · ${explained.rule}</p>
<h1>${explained.title}</h1>
<h2>Why</h2><p>${coded(explained.why)}</p>
<h2>What to do</h2><p>${coded(explained.do)}</p>
<h2>For example</h2>
<dl class="pairs"><dt>not</dt><dd>${coded(explained.example.wrong)}</dd><dt>but</dt><dd>${coded(explained.example.right)}</dd></dl>
<h2>What is looked at</h2><dl class="pairs">${metric.rows.map((_, i) => row(i))}</dl>
<div class="canvas" tabindex="0" role="group" aria-label="The picture; it scrolls"><img src="../pictures/${explained.rule}.svg" alt="${uncoded(engine.drawRule(explained.rule, "metric").about)}"></div>
${cautions.length > 0 && html`<h2>Take care</h2><ul class="cautions">${cautions.map((c) => html`<li><strong>${c.title}.</strong> ${coded(c.text)}</li>`)}</ul>`}
${taught.length > 0 && html`<h2>Learn it</h2><ul class="rules">${taught.map((lesson) => html`<li><a href="../${pathOf(lesson)}">Lesson ${Number(lesson.number)}: ${lesson.title}</a></li>`)}</ul>`}
<h2>Sources</h2><ul>${metric.sources.map((source) => html`<li>${coded(source)}</li>`)}</ul>`,
  };
}

function rules(all: Explained[]): Page {
  const lessons = [...new Set(all.map((r) => r.lesson))].sort();
  return {
    path: "rules/index.html",
    title: "Rules",
    description: "What a plan is judged by.",
    body: html`<h1>${all.length} rules</h1>
<p class="lead">What a plan is judged by. Each says what it looks at, why, what to do, and where its numbers come from.</p>
${lessons.map((lesson) => html`<h2>${spaced(lesson)}</h2><ul class="rules">${all.filter((r) => r.lesson === lesson).map((r) =>
  html`<li><a href="${r.rule}.html">${r.title}</a></li>`)}</ul>`)}`,
  };
}

const about = (engine: Engine): Page => ({
  path: "about.html",
  title: "About",
  description: "What this site is, what it does not do, and its cautions.",
  body: html`<h1>About</h1>
<p>starter-plan reads the plan for a yeast starter, works out what will happen, judges it by a catalogue of rules, and explains every finding with its numbers, its reason, its source and a computed fix. It is for members who want to check themselves, for mentors who review a club's plans, and for workshop leaders.</p>
<h2>How sure it is</h2>
<p>Yeast counts, growth and heat transfer are uncertain by tens of per cent, so numbers that depend on them come with a range. A finding is <em>certain</em> when the whole range breaks the rule, <em>likely</em> when the likely value does, and <em>possible</em> when only an end of the range does; then it is a note. A plan without findings is no promise of good beer: watch, measure and taste.</p>
<h2>Your plans</h2>
<p>They are worked on by a program inside this page. Nothing is uploaded, nobody is counted or followed, and after the first visit no request leaves your device. The plan that you work on, what a mentor accepted of it, and your club’s practice are kept in this browser only; so is all of the mentor’s page, which has a button that forgets it. A link that you make holds the plan behind its “#”, which browsers send to no one; whoever has the link can read it.</p>
<h2>The same answer everywhere</h2>
<p>This site and the program for the command line are one engine. Both give the same findings and the same numbers, to the last digit.</p>
<h2 id="cautions">Cautions</h2>
<p>Product labels, local codes and licensed practice come first.</p>
<ul class="cautions">${engine.cautions().map((c) => html`<li><strong>${c.title}.</strong> ${coded(c.text)}</li>`)}</ul>`,
});

const licences = (parts: Ingredients["licences"]): Page => ({
  path: "licences.html",
  title: "Licences",
  description: "The parts that this site ships, and their licences.",
  body: html`<h1>Licences</h1><p>This site ships these parts.</p>
${parts.map((p) => html`<h2>${p.part}</h2><p>${p.licence}</p><details class="fold"><summary>The licence of ${p.part}</summary><pre class="licence" tabindex="0">${p.text}</pre></details>`)}`,
});

export function pages(from: Ingredients): { pages: Page[]; pictures: { [path: string]: string } } {
  const all = from.engine.explain();
  const standard = from.engine.drawStandard("metric");
  const pictures: { [path: string]: string } = {
    "pictures/process.svg": from.engine.picture(from.draw(standard.dot), standard),
  };
  for (const { rule: id } of all) {
    const drawn = from.engine.drawRule(id, "metric");
    pictures[`pictures/${id}.svg`] = from.engine.picture(from.draw(drawn.dot), drawn);
  }
  const lessons = lessonPages(from);
  return {
    pages: [start(), check(from.plans), stove(from.plans), mentor(), process(standard), rules(all), ...all.map((r) => rule(r, from)),
      ...lessons.pages, about(from.engine), licences(from.licences)],
    pictures: { ...pictures, ...lessons.pictures },
  };
}
