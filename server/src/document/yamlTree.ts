/** Builds the common tree from what the YAML library read: aliases and merge keys followed, places kept. */
import {
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  type ParsedNode,
  type YAMLMap,
  type YAMLSeq,
} from "yaml";
import { Suggestions } from "../instrument/didYouMean.js";
import { t } from "../words/translation.js";
import { duplicateKeys } from "./duplicateKeys.js";
import { DEEPEST, type TextProblem } from "./parsed.js";
import type { Span } from "./span.js";
import type { MapEntry, Scalar, TreeNode } from "./tree.js";

/**
 * Values made by following aliases in one document, at most. A design has some hundreds of values; a few lines of aliases
 * to aliases could make billions.
 */
const MOST_ALIASED = 20_000;

/** The alias being followed: the place of the outermost one, for everything that it brings in. */
interface Via {
  readonly here: Span;
}

export class YamlTreeBuilder {
  readonly problems: TextProblem[] = [];
  /** Anchors met so far, in the order of the text: an alias means the last one of its name before it. */
  private readonly anchors = new Map<string, Node>();
  /** Nodes being built, to see an alias that stands inside what it names. */
  private readonly open = new Set<Node>();
  private readonly suggestions = new Suggestions();
  /** Codes of findings that are reported once. */
  private readonly told = new Set<string>();
  private aliased = 0;
  private depth = 0;

  constructor(private readonly text: string) {}

  build(node: unknown, after: number, via?: Via): TreeNode {
    const own = isNode(node) ? spanOfNode(node) : { start: after, end: after };
    if (!isNode(node) || !this.enter(node, own, via)) return this.nothing(own, via);
    this.open.add(node);
    this.depth++;
    if (!isAlias(node) && node.anchor !== undefined && via === undefined) this.anchors.set(node.anchor, node);
    const built = this.buildKnown(node, own, via);
    this.depth--;
    this.open.delete(node);
    return built;
  }

  /** False where a node may not be built: too deep, too many, or inside itself. */
  private enter(node: Node, own: Span, via: Via | undefined): boolean {
    if (this.depth >= DEEPEST) {
      this.once(
        "file/too-deep",
        t`Values are nested more than ${DEEPEST} levels deep; a design needs four or five.`,
        own,
      );
      return false;
    }
    if (via === undefined) return true;
    if (this.open.has(node)) {
      this.problem(
        "file/alias-cycle",
        t("This alias is inside the value that it repeats, so it would never end. Write the value out."),
        via.here,
      );
      return false;
    }
    if (++this.aliased <= MOST_ALIASED) return true;
    this.once(
      "file/too-many-aliases",
      t`The aliases of this file would make more than ${MOST_ALIASED} values. Use fewer.`,
      via.here,
    );
    return false;
  }

  private buildKnown(node: Node, own: Span, via: Via | undefined): TreeNode {
    if (isAlias(node)) return this.follow(node.source, own, via);
    if (isMap(node)) return this.map(node, own, via);
    if (isSeq(node)) return this.list(node, own, via);
    if (!isScalar(node)) return this.nothing(own, via);
    const raw = this.text.slice(own.start, own.end);
    const tag = node.tag === undefined ? {} : { tag: node.tag };
    return { kind: "scalar", value: scalarOf(node.value, raw), raw, ...tag, ...placed(own, via) };
  }

  private follow(name: string, own: Span, via: Via | undefined): TreeNode {
    const target = this.anchors.get(name);
    if (target === undefined) {
      const message = t`No anchor \`&${name}\` stands before this alias.${this.suggestions.inWords(name, this.anchors.keys())}`;
      this.problem("file/unknown-anchor", message, via?.here ?? own);
      return this.nothing(own, via);
    }
    return this.build(target, own.end, via ?? { here: own });
  }

  private list(node: YAMLSeq, own: Span, via: Via | undefined): TreeNode {
    let after = own.start;
    const items = node.items.map((item) => {
      const built = this.build(item, after, via);
      after = ownSpan(built).end;
      return built;
    });
    const flow = node.flow === true;
    return { kind: "list", items, flow, ...placed(flow ? own : { start: own.start, end: after }, via) };
  }

  private map(node: YAMLMap, own: Span, via: Via | undefined): TreeNode {
    const entries: MapEntry[] = [];
    const merges: { readonly at: number; readonly entries: readonly MapEntry[] }[] = [];
    let end = own.start;
    for (const pair of node.items) {
      const keySpan = isNode(pair.key) ? spanOfNode(pair.key) : { start: end, end };
      if (isMergeKey(pair)) {
        const merged = this.merge(pair.value, keySpan, via);
        merges.push({ at: entries.length, entries: merged });
        end = Math.max(keySpan.end + 1, isNode(pair.value) ? spanOfNode(pair.value).end : 0);
        continue;
      }
      // A value not yet written stands right after the colon, if there is one.
      const colon = this.text.charAt(keySpan.end) === ":" ? keySpan.end + 1 : keySpan.end;
      const value = this.build(pair.value, colon, via);
      entries.push({ key: this.keyOf(pair, keySpan), keySpan: via?.here ?? keySpan, value, merged: false });
      end = Math.max(colon, ownSpan(value).end);
    }
    if (via === undefined) for (const problem of duplicateKeys(entries)) this.problems.push(problem);
    const flow = node.flow === true;
    return {
      kind: "map",
      entries: withMerged(entries, merges),
      flow,
      ...placed(flow ? own : { start: own.start, end }, via),
    };
  }

  private keyOf({ key }: Pair, span: Span): string {
    if (isAlias(key)) {
      const target = this.anchors.get(key.source);
      if (isScalar(target)) return String(target.value);
    }
    if (isScalar(key)) {
      if (key.anchor !== undefined) this.anchors.set(key.anchor, key);
      return String(key.value ?? "");
    }
    if (key !== null)
      this.problem(
        "file/syntax",
        t("The name of a property is a word, not a list or group. Remove the brackets."),
        span,
      );
    return this.text.slice(span.start, span.end);
  }

  /** Entries that `<<` brings in: of one map, or of several of which the first has precedence. */
  private merge(value: unknown, keySpan: Span, via: Via | undefined): readonly MapEntry[] {
    const here = via?.here ?? (isNode(value) ? spanOfNode(value) : keySpan);
    const before = this.problems.length;
    const built = this.build(value, keySpan.end, { here });
    const maps = built.kind === "list" ? built.items : [built];
    if (maps.some(({ kind }) => kind !== "map") && this.problems.length === before) {
      this.problem("file/syntax", t("`<<` takes an alias to a group of properties, or a list of such aliases."), here);
    }
    const entries = maps.flatMap((map) => (map.kind === "map" ? map.entries : []));
    return entries.map((entry) => ({ ...entry, keySpan: here, merged: true }));
  }

  private nothing(own: Span, via: Via | undefined): TreeNode {
    return { kind: "scalar", value: null, raw: this.text.slice(own.start, own.end), ...placed(own, via) };
  }

  private problem(code: TextProblem["code"], message: string, span: Span): void {
    this.problems.push({ code, severity: "error", message, span });
  }

  private once(code: TextProblem["code"], message: string, span: Span): void {
    if (this.told.has(code)) return;
    this.told.add(code);
    this.problem(code, message, span);
  }
}

/** A map's own entry has precedence over one merged in, and an earlier merge over a later. */
function withMerged(
  own: readonly MapEntry[],
  merges: readonly { at: number; entries: readonly MapEntry[] }[],
): readonly MapEntry[] {
  if (merges.length === 0) return own;
  const known = new Set(own.map(({ key }) => key));
  const all: MapEntry[] = [];
  let taken = 0;
  for (const { at, entries } of merges) {
    for (const entry of own.slice(taken, at)) all.push(entry);
    taken = at;
    for (const entry of entries) {
      if (known.has(entry.key)) continue;
      known.add(entry.key);
      all.push(entry);
    }
  }
  return [...all, ...own.slice(taken)];
}

function placed(own: Span, via: Via | undefined): { readonly span: Span; readonly source?: Span } {
  return via === undefined ? { span: own } : { span: via.here, source: own };
}

function ownSpan(node: TreeNode): Span {
  return node.source ?? node.span;
}

function isNode(value: unknown): value is ParsedNode {
  return isScalar(value) || isMap(value) || isSeq(value) || isAlias(value);
}

function spanOfNode(node: ParsedNode): Span {
  const [start, end] = node.range ?? [0, 0];
  return { start, end: Math.max(start, end) };
}

/** With `merge: true` the library gives the key `<<` a value of its own. */
function isMergeKey({ key }: Pair): boolean {
  return isScalar(key) && (typeof key.value === "symbol" || (key.value === "<<" && key.type === "PLAIN"));
}

/** What YAML 1.1 reads as dates or large integers stays the text that was written. */
function scalarOf(value: unknown, raw: string): Scalar {
  if (value === null || value === undefined) return null;
  if (typeof value === "string" || typeof value === "number" || typeof value === "boolean") return value;
  return typeof value === "bigint" ? Number(value) : raw;
}
