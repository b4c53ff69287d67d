// Timers that stand by the clock: what is kept is when they end, so a locked screen, a closed page
// or an empty battery changes nothing about what is left.

import { keep, kept } from "./kept";

export interface Timer {
  /** What it is for, by a name of the page's own. */
  of: string;
  what: string;
  /** Milliseconds since 1970, by this device's clock. */
  ends: number;
  rung: boolean;
}

export class Timers {
  private list: Timer[];

  constructor() {
    this.list = readTimers(kept("timers"));
  }

  get all(): readonly Timer[] {
    return this.list;
  }
  of(name: string): Timer | undefined {
    return this.list.find((timer) => timer.of === name);
  }
  start(of: string, what: string, minutes: number, now = Date.now()): void {
    this.list = [...this.list.filter((t) => t.of !== of), { of, what, ends: now + minutes * 60_000, rung: false }];
    this.save();
  }
  stop(name: string): void {
    this.list = this.list.filter((timer) => timer.of !== name);
    this.save();
  }
  clear(): void {
    this.list = [];
    this.save();
  }
  /** Those that ended since this was last asked. */
  ended(now = Date.now()): Timer[] {
    const due = this.list.filter((timer) => !timer.rung && timer.ends <= now);
    for (const timer of due) timer.rung = true;
    if (due.length > 0) this.save();
    return due;
  }
  private save(): void {
    keep("timers", JSON.stringify(this.list));
  }
}

function readTimers(text: string | undefined): Timer[] {
  try {
    const list: unknown = JSON.parse(text ?? "[]");
    if (!Array.isArray(list)) return [];
    return list.filter((t: Partial<Timer>) => typeof t?.of === "string" && typeof t.what === "string" && Number.isFinite(t.ends) && typeof t.rung === "boolean") as Timer[];
  } catch {
    return [];
  }
}

/** "1:05:09", "12:00"; of what is past, with how long ago. */
export function leftText(ends: number, now = Date.now()): string {
  const seconds = Math.ceil(Math.abs(ends - now) / 1000);
  const two = (n: number): string => String(n).padStart(2, "0");
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor(seconds / 60) % 60;
  const text = hours > 0 ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`;
  return ends > now ? text : `over since ${text}`;
}

/** "20:14", by this device's clock. */
export const clockOf = (time: number): string =>
  new Date(time).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });

let sound: AudioContext | undefined;
/** Browsers let a page sound only after a touch; the touch that starts a timer is one. */
export function readyToRing(): void {
  try {
    sound ??= new AudioContext();
    void sound.resume();
  } catch {
    // A device without sound.
  }
}
export function ring(): void {
  navigator.vibrate?.([400, 200, 400, 200, 400]);
  if (!sound || sound.state !== "running") return;
  for (const start of [0, 0.5, 1]) {
    const tone = sound.createOscillator();
    const volume = sound.createGain();
    volume.gain.value = 0.25;
    tone.frequency.value = 880;
    tone.connect(volume).connect(sound.destination);
    tone.start(sound.currentTime + start);
    tone.stop(sound.currentTime + start + 0.3);
  }
}
