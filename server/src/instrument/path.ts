/** Paths into plain data. */
import type { Path } from "./finding.js";

export type Data = Readonly<Record<string, unknown>>;

export function isMap(value: unknown): value is Data {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** The map's own value: never something inherited, so that a property called `constructor` is merely unknown. */
export function own(value: unknown, key: string): unknown {
  return isMap(value) && Object.hasOwn(value, key) ? value[key] : undefined;
}

/** The value at `path`, or undefined where nothing is written there. */
export function valueAt(data: unknown, path: Path): unknown {
  let value = data;
  for (const step of path) {
    value = Array.isArray(value) ? (typeof step === "number" ? value[step] : undefined) : own(value, String(step));
  }
  return value;
}

/** One text for one path, for use as a map key. */
export function pathKey(path: Path): string {
  return path.join("\u0000");
}

export function samePath(a: Path, b: Path): boolean {
  return a.length === b.length && a.every((step, i) => step === b[i]);
}

/** As a maker writes it in an expression: `mouth.window.width`, `bore[1].at`. */
export function pathText(path: Path): string {
  return path.map((step, i) => (typeof step === "number" ? `[${step}]` : i === 0 ? step : `.${step}`)).join("");
}
