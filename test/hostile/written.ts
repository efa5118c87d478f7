/** The same data as different makers write it: blocks and braces, quotes, comments, parameters, anchors and merge keys. */
import type { Data } from "./drawnDesign.js";
import type { Random } from "./random.js";

export interface Written {
  readonly file: string;
  readonly text: string;
}

export function written(design: Data, random: Random): Written {
  if (random.chance(0.2)) {
    const indent = random.pick([0, 2, 2, 4, "\t"]);
    return { file: "drawn.bore.json", text: ended(JSON.stringify(design, null, indent), random) };
  }
  const data = random.chance(0.4) ? withParameters(design, random) : design;
  const text = new Writer(random).top(data);
  return { file: "drawn.bore.yaml", text: ended(text, random) };
}

function ended(text: string, random: Random): string {
  const marked = random.chance(0.1) ? `\uFEFF${text}` : text;
  return random.chance(0.25) ? marked.replaceAll("\n", "\r\n") : marked;
}

/** Some of the lengths as parameters and expressions. */
function withParameters(design: Data, random: Random): Data {
  const parameters: Data = {};
  const named = (name: string, value: unknown): unknown => {
    if (typeof value !== "number" || !random.chance(0.4)) return value;
    parameters[name] = value;
    return random.pick([`=${name}`, `=${name} + 0`, `=2*${name}/2`]);
  };
  const { holes, wall } = design;
  const list = Array.isArray(holes) ? (holes as Data[]) : undefined;
  const changed = {
    ...design,
    ...(wall !== undefined && { wall: named("wallThickness", wall) }),
    ...(list && {
      holes: list.map((hole, i) => ({ ...hole, ...(hole.at !== undefined && { at: named(`place${i}`, hole.at) }) })),
    }),
  };
  return Object.keys(parameters).length === 0 ? design : { ...changed, parameters };
}

class Writer {
  /** Values that may be pointed at, by their text. */
  private readonly anchors = new Map<string, string>();
  private readonly anchoring: boolean;
  private readonly commenting: boolean;
  private comments = 0;

  constructor(private readonly random: Random) {
    this.anchoring = random.chance(0.3);
    this.commenting = random.chance(0.7);
  }

  top(data: Data): string {
    const style = this.random.whole(0, 2);
    const lines = Object.entries(data).flatMap(([key, value]) =>
      this.entry(key, value, style === 0 ? "" : style === 1 ? "  " : "    "),
    );
    return `${this.commenting ? "# drawn by chance: { at: 7 }\n" : ""}${lines.join("\n")}\n`;
  }

  private entry(key: string, value: unknown, indent: string): string[] {
    const name = this.random.chance(0.05) ? JSON.stringify(key) : key;
    if (Array.isArray(value) && value.some((item) => typeof item === "object"))
      return [`${name}:${this.comment()}`, ...this.items(value as Data[], indent)];
    if (isMap(value) && this.random.chance(0.5))
      return [`${name}:${this.comment()}`, ...Object.entries(value).flatMap(([own, inner]) => this.nested(own, inner))];
    return [`${name}: ${this.flow(value, key)}${this.comment()}`];
  }

  private nested(key: string, value: unknown): string[] {
    return [`  ${key}: ${this.flow(value, key)}${this.comment()}`];
  }

  /** A list in blocks; with merge keys, later items take from the first what is alike in both. */
  private items(items: readonly Data[], indent: string): string[] {
    const merging = this.anchoring && this.random.chance(0.6);
    return items.flatMap((item, i) => {
      const [first] = items;
      const alike = merging && i > 0 && first !== undefined ? likeIn(item, first) : [];
      const own = Object.entries(item).filter(([key]) => !alike.includes(key));
      const anchor = merging && i === 0 ? "&first " : "";
      const merge = alike.length > 0 ? ["<<: *first"] : [];
      if (this.random.chance(0.25) && own.length > 0 && anchor === "") {
        const lines = own.map(([key, value]) => `${key}: ${this.flow(value, key)}${this.comment()}`);
        return [...lines, ...merge].map((line, j) => `${indent}${j === 0 ? "- " : "  "}${line}`);
      }
      const pairs = own.map(([key, value]) => `${key}: ${this.flow(value, key)}`);
      const all = this.random.chance(0.5) ? [...merge, ...pairs] : [...pairs, ...merge];
      const comma = this.random.chance(0.1) ? "," : "";
      return [`${indent}- ${anchor}{ ${all.join(", ")}${comma} }${this.comment()}`];
    });
  }

  private flow(value: unknown, key = ""): string {
    if (Array.isArray(value)) return `[${value.map((item) => this.flow(item)).join(", ")}]`;
    if (isMap(value))
      return `{ ${Object.entries(value)
        .map(([name, inner]) => `${name}: ${this.flow(inner, name)}`)
        .join(", ")} }`;
    if (typeof value === "string") return this.words(value);
    const text = String(value);
    return typeof value === "number" && key !== "" ? this.anchored(text) : text;
  }

  private anchored(text: string): string {
    const known = this.anchors.get(text);
    if (!this.anchoring || !this.random.chance(0.4)) return text;
    if (known !== undefined) return `*${known}`;
    const name = `a${this.anchors.size}`;
    this.anchors.set(text, name);
    return `&${name} ${text}`;
  }

  private words(text: string): string {
    const plain = /^[\w●○◐][\w ●○◐.]*%?$/.test(text) || /^=[\w +*/.-]*$/.test(text);
    if (plain && !this.random.chance(0.15)) return text;
    return this.random.chance(0.5) ? JSON.stringify(text) : `'${text.replaceAll("'", "''")}'`;
  }

  private comment(): string {
    return this.commenting && this.random.chance(0.2) ? `   # note ${++this.comments}: 7 # too` : "";
  }
}

const isMap = (value: unknown): value is Data => typeof value === "object" && value !== null && !Array.isArray(value);

/** Keys that both have with the same plain value. */
const likeIn = (item: Data, first: Data) =>
  Object.keys(item).filter((key) => typeof item[key] !== "object" && item[key] === first[key]);
