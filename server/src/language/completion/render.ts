/** Turns an example of the schema into text to insert: YAML block, YAML flow or JSON, with a tab stop at each value. */

export interface Rendering {
  readonly style: "block" | "flow" | "json";
  /** Column of the entry itself; what goes on further lines is indented from it. */
  readonly column: number;
  /** Without, the text is inserted as it is. */
  readonly tabStops: boolean;
  /** Whether the client leaves the indentation of further lines alone; if not, everything stays on one line. */
  readonly manyLines: boolean;
}

const INDENT = 2;

/** Writes values one after the other, counting the tab stops through. */
export class Renderer {
  private stop = 0;

  constructor(private readonly rendering: Rendering) {}

  /** A value to stand after its name and a blank, or after a line break of its own; `choices` become a choice. */
  afterName(value: unknown, choices: readonly unknown[] = []): string {
    const { style, column, manyLines } = this.rendering;
    if (choices.length > 0) return ` ${this.choice(choices)}`;
    if (style === "block" && manyLines && isDeep(value)) return this.block(value, column + INDENT);
    return ` ${this.flow(value)}`;
  }

  /** `{ at: 170, diameter: 6.5 }`, `[220, 220, 250]`, `"=wall"`. */
  flow(value: unknown): string {
    if (Array.isArray(value)) return `[${value.map((item) => this.flow(item)).join(", ")}]`;
    if (typeof value !== "object" || value === null) return this.scalar(value, this.rendering.style);
    const entries = Object.entries(value).map(([name, item]) => `${this.name(name)}: ${this.flow(item)}`);
    return entries.length === 0 ? "{}" : `{ ${entries.join(", ")} }`;
  }

  name(name: string): string {
    const text = this.rendering.style === "json" ? JSON.stringify(name) : name;
    return this.rendering.tabStops ? escapeSnippet(text) : text;
  }

  private block(value: unknown, column: number): string {
    const line = `\n${" ".repeat(column)}`;
    if (Array.isArray(value)) return value.map((item) => `${line}- ${this.flow(item)}`).join("");
    const entries = Object.entries(value as object);
    return entries.map(([name, item]) => `${line}${this.name(name)}: ${this.flow(item)}`).join("");
  }

  private scalar(value: unknown, style: Rendering["style"]): string {
    const text = scalarText(value, style);
    if (!this.rendering.tabStops) return text;
    this.stop++;
    // A quoted text keeps its quotes outside the tab stop, so that typing over it leaves them.
    const quoted = /^(["'])(.*)\1$/.exec(text);
    if (quoted !== null) return `${quoted[1]}\${${this.stop}:${escapeSnippet(quoted[2] ?? "")}}${quoted[1]}`;
    return `\${${this.stop}:${escapeSnippet(text)}}`;
  }

  private choice(values: readonly unknown[]): string {
    const texts = values.map((value) => scalarText(value, this.rendering.style));
    if (!this.rendering.tabStops) return texts[0] ?? "";
    this.stop++;
    return `\${${this.stop}|${texts.map((text) => escapeSnippet(text).replace(/[,|]/g, "\\$&")).join(",")}|}`;
  }
}

/** Maps of maps and lists of maps stand on lines of their own in block style. */
function isDeep(value: unknown): boolean {
  if (typeof value !== "object" || value === null) return false;
  return Object.values(value).some((item) => typeof item === "object" && item !== null);
}

export function escapeSnippet(text: string): string {
  return text.replace(/[\\$}]/g, "\\$&");
}

/** A scalar as it must be written in the style: quoted where YAML or JSON would read something else. */
export function scalarText(value: unknown, style: Rendering["style"]): string {
  if (typeof value !== "string") return JSON.stringify(value);
  return style === "json" || !isPlain(value, style) ? JSON.stringify(value) : value;
}

/** Words that some YAML readers take for a boolean or null. */
const SPECIAL_WORDS = /^(true|false|yes|no|on|off|null|~|y|n)$/i;

function isPlain(text: string, style: "block" | "flow"): boolean {
  if (text === "" || text !== text.trim() || SPECIAL_WORDS.test(text)) return false;
  if (/^[-?:,[\]{}#&*!|>'"%@`]/.test(text) || /: |:$| #|[\r\n\t]/.test(text)) return false;
  if (style === "flow" && /[,[\]{}]/.test(text)) return false;
  return Number.isNaN(Number(text));
}
