// How well a reader guessed what the check will find.

export interface Answer {
  ticked: boolean;
  speaks: boolean;
}
export type Mark = "right" | "missed" | "wrong";

/** Nothing for what was rightly left alone. */
export function markOf({ ticked, speaks }: Answer): Mark | undefined {
  if (speaks) return ticked ? "right" : "missed";
  return ticked ? "wrong" : undefined;
}

/** "You found 2 of 3, and named 1 that is not there." As the program says it (engine/lesson/quiz.cpp). */
export function scoreInWords(answers: Answer[]): string {
  const count = (wanted: Mark): number => answers.filter((answer) => markOf(answer) === wanted).length;
  const [right, missed, wrong] = [count("right"), count("missed"), count("wrong")];
  const named = wrong === 0 ? "" : `, and named ${wrong} ${wrong === 1 ? "that is" : "that are"} not there`;
  return `You found ${right} of ${right + missed}${named}.${missed === 0 && wrong === 0 ? " All right!" : ""}`;
}
