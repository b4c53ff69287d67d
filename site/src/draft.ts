// The plan that is being written, with what undo needs.

const mostKept = 200;
const oneThought = 1500; // milliseconds: typing in one field is undone as one

export class Draft {
  private before: string[] = [];
  private after: string[] = [];
  private lastField = "";
  private lastTime = 0;

  constructor(private now: string) {}

  get text(): string {
    return this.now;
  }

  /** `field`: changes of one field that follow each other closely are one. */
  set(text: string, field = ""): void {
    if (text === this.now) return;
    const time = Date.now();
    const same = field !== "" && field === this.lastField && time - this.lastTime < oneThought;
    if (!same) {
      this.before.push(this.now);
      if (this.before.length > mostKept) this.before.shift();
    }
    this.lastField = field;
    this.lastTime = time;
    this.after = [];
    this.now = text;
  }

  get canUndo(): boolean {
    return this.before.length > 0;
  }
  get canRedo(): boolean {
    return this.after.length > 0;
  }
  undo(): void {
    const text = this.before.pop();
    if (text === undefined) return;
    this.after.push(this.now);
    this.now = text;
    this.lastField = "";
  }
  redo(): void {
    const text = this.after.pop();
    if (text === undefined) return;
    this.before.push(this.now);
    this.now = text;
    this.lastField = "";
  }
}
