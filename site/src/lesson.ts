// A lesson's exercise: what was ticked is scored, each choice is explained, and the answers open.
// Without this script the answers can still be opened.

import "./common";
import { byId } from "./dom";
import { markOf, scoreInWords } from "./score";
import type { Answer, Mark } from "./score";

const words: { [mark in Mark]: string } = {
  right: "✓ Right.", missed: "○ Missed.", wrong: "✗ The check finds none of it.",
};

const choices = [...document.querySelectorAll<HTMLElement>(".choices > li")].map((item) => ({
  item,
  box: item.querySelector("input")!,
  told: item.querySelector<HTMLElement>(".told")!,
}));
const score = byId("score");
const scored = byId("scored");

function tell(): void {
  const answers: Answer[] = [];
  for (const { item, box, told } of choices) {
    const answer = { ticked: box.checked, speaks: item.dataset["speaks"] === "true" };
    answers.push(answer);
    const mark = markOf(answer);
    item.dataset["mark"] = mark ?? "";
    told.hidden = mark === undefined;
    if (mark) told.querySelector("strong")!.textContent = words[mark];
  }
  scored.hidden = false;
  scored.textContent = scoreInWords(answers);
  byId<HTMLDetailsElement>("answers").open = true;
}

/** What was said is of other ticks. */
function forget(): void {
  scored.hidden = true;
  scored.textContent = "";
  for (const { item, told } of choices) {
    item.dataset["mark"] = "";
    told.hidden = true;
  }
}

score.hidden = false;
score.addEventListener("click", tell);
for (const { box } of choices) box.addEventListener("change", forget);
