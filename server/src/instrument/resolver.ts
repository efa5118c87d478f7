/** Works out the expressions of a design, each after those that it refers to. */

import { t } from "../words/translation.js";
import type { Finding, Path } from "./finding.js";
import { evaluate } from "./formula/evaluate.js";
import { type ExpressionNode, namesIn } from "./formula/expression.js";
import type { Names } from "./formula/names.js";
import type { Quantity } from "./formula/resolvedNumber.js";
import { pathKey } from "./path.js";

/** One place where a number stands. */
export interface Site {
  readonly path: Path;
  readonly quantity: Quantity;
  value: number | undefined;
  readonly expression?: string;
  readonly ast?: ExpressionNode;
  /** Length of what stands before the expression's text in the string value: blanks and `=`. */
  readonly offset: number;
}

/** A site being worked out, and what it still waits for. */
interface Frame {
  readonly key: string;
  readonly needs: readonly { readonly key: string; readonly within: readonly [number, number] }[];
  next: number;
}

/** Circles reported, and members of one circle named: more would bury the rest. */
const MOST_RINGS = 20;
const MOST_SHOWN = 6;

/** Works expressions out after those they refer to. Without recursion: a chain of thousands must not exhaust the stack. */
export class Resolver {
  private readonly done = new Set<string>();
  private readonly frames: Frame[] = [];
  private readonly waiting = new Map<string, number>();
  /** In a circle, or referring to a name that does not exist. */
  private readonly broken = new Set<string>();
  private rings = 0;

  constructor(
    private readonly sites: ReadonlyMap<string, Site>,
    private readonly names: Names,
    private readonly findings: Finding[],
  ) {}

  run(): void {
    for (const key of this.sites.keys()) {
      this.open(key);
      while (this.frames.length > 0) this.step();
    }
  }

  /** By key, every value with that of `changed` moved by `by`; expressions are worked out in the order in which they were. */
  changed(changed: string, by: number, follow: boolean): ReadonlyMap<string, number | undefined> {
    const values = new Map([...this.sites].map(([key, { value }]) => [key, value] as const));
    const own = values.get(changed);
    values.set(changed, own === undefined ? undefined : own + by);
    if (!follow) return values;
    for (const key of this.done) {
      const site = this.sites.get(key);
      if (site?.ast === undefined || site.value === undefined || key === changed) continue;
      const { value } = evaluate(site.ast, (name) => {
        const path = this.names.pathOf(name.steps);
        return path && values.get(pathKey(path));
      });
      values.set(key, value);
    }
    return values;
  }

  private open(key: string): void {
    const site = this.sites.get(key);
    if (site === undefined || this.done.has(key)) return;
    if (site.ast === undefined) {
      this.done.add(key);
      return;
    }
    this.waiting.set(key, this.frames.length);
    this.frames.push({ key, needs: this.needsOf(site, site.ast), next: 0 });
  }

  private needsOf(site: Site, ast: ExpressionNode): Frame["needs"] {
    return namesIn(ast).flatMap((name) => {
      const within = [name.start + site.offset, name.end + site.offset] as const;
      const found = this.names.find(name.steps);
      if (found.path) return [{ key: pathKey(found.path), within }];
      this.broken.add(pathKey(site.path));
      this.findings.push({
        code: "expression/unknown-name",
        severity: "error",
        message: found.problem,
        path: site.path,
        within,
        ...(found.meant === undefined ? {} : { correction: { do: "write", text: found.meant } as const }),
      });
      return [];
    });
  }

  private step(): void {
    const frame = this.frames.at(-1);
    if (frame === undefined) return;
    const need = frame.needs[frame.next];
    if (need === undefined) {
      this.close(frame);
      return;
    }
    frame.next++;
    const started = this.waiting.get(need.key);
    if (started === undefined) this.open(need.key);
    else this.reportRing(started);
  }

  private close({ key }: Frame): void {
    this.frames.pop();
    this.waiting.delete(key);
    this.done.add(key);
    const site = this.sites.get(key);
    if (site?.ast === undefined || this.broken.has(key)) return;
    const { value, fault } = evaluate(site.ast, (name) => {
      const path = this.names.pathOf(name.steps);
      return path && this.sites.get(pathKey(path))?.value;
    });
    site.value = value;
    if (fault === undefined) return;
    const within = [fault.start + site.offset, fault.end + site.offset] as const;
    this.findings.push({ code: fault.code, severity: "error", message: fault.message, path: site.path, within });
  }

  /** One finding for a circle, at the member met first, the others as related places. */
  private reportRing(started: number): void {
    const last = this.frames.at(-1);
    if (last) this.broken.add(last.key);
    if (this.rings++ >= MOST_RINGS) return;
    const ring = this.frames.slice(started);
    for (const { key } of ring) this.broken.add(key);
    const [first] = ring;
    const site = first && this.sites.get(first.key);
    if (first === undefined || site === undefined) return;
    const within = first.needs[first.next - 1]?.within;
    const shown = ring.slice(0, MOST_SHOWN).map(({ key }) => this.label(key));
    const related = ring.slice(1, MOST_SHOWN).flatMap(({ key }, i) => {
      const path = this.sites.get(key)?.path;
      return path ? [{ path, message: t`${shown[i + 1]} refers to ${shown[i + 2] ?? shown[0]}` }] : [];
    });
    const message = ringMessage(shown, ring.length);
    const finding = { code: "expression/cycle", severity: "error", message, path: site.path, related } as const;
    this.findings.push(within === undefined ? finding : { ...finding, within });
  }

  private label(key: string): string {
    const path = this.sites.get(key)?.path ?? [];
    if (path[0] === "parameters") return String(path[1]);
    return path.length === 1 ? String(path[0]) : this.names.inWords(path);
  }
}

function ringMessage(names: readonly string[], count: number): string {
  if (count === 1) return t`${names[0]} refers to itself. Write a number, or another name.`;
  const round = [...names, ...(count > names.length ? ["…"] : []), names[0]].join(" → ");
  return t`${count} values refer to each other in a circle: ${round}. Give one of them a number.`;
}
