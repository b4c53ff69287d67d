// What this browser keeps between visits: on this device, and nowhere else. Every reading may fail
// (private windows, full storage), and then nothing is kept.

const prefix = "starter-plan.";

export function keep(name: string, value: string): boolean {
  try {
    localStorage.setItem(prefix + name, value);
    return true;
  } catch {
    return false;
  }
}

export function kept(name: string): string | undefined {
  try {
    return localStorage.getItem(prefix + name) ?? undefined;
  } catch {
    return undefined;
  }
}

export function forget(name: string): void {
  try {
    localStorage.removeItem(prefix + name);
  } catch {
    // Nothing was kept.
  }
}
