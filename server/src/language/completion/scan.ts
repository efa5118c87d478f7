/** Shared by the two scanners: the maps and lists that are open at a place, and the place itself once it is found. */

/** A map or list that is open. */
export interface Frame {
  readonly kind: "map" | "list";
  readonly flow: boolean;
  /** Column of its entries; block style only. */
  readonly indent: number;
  /** Of a map: the name whose value is being read. */
  key: string | undefined;
  /** Of a map: whether that name has a value on its own line, so that none can follow below. */
  hasValue: boolean;
  readonly names: string[];
  /** Of a list. */
  index: number;
}

/** The cursor's place as a scanner found it. */
export interface Spot {
  readonly role: "key" | "value" | "dash";
  readonly start: number;
  readonly flow: boolean;
  readonly column: number;
  readonly quote?: string | undefined;
  readonly needsBlank?: boolean;
  /** The name would open a map that has none yet, as the value of the innermost frame's entry. */
  readonly newMap?: boolean;
  /** The name that stands at the cursor itself, which is not among the others. */
  readonly own?: string;
}

export class Scan {
  readonly frames: Frame[] = [];
  spot: Spot | undefined;

  constructor(
    readonly text: string,
    public position: number,
    /** Where the cursor is; nothing after it is read. */
    readonly end: number,
  ) {}

  get atEnd(): boolean {
    return this.position >= this.end;
  }

  push(kind: Frame["kind"], indent: number, flow: boolean): Frame {
    const frame: Frame = { kind, indent, flow, key: undefined, hasValue: false, names: [], index: 0 };
    this.frames.push(frame);
    return frame;
  }

  /**
   * Passes a quoted text that begins here. Returns its content, or undefined with the position at the cursor where the
   * text is not closed before it.
   */
  quoted(): string | undefined {
    const quote = this.text.charAt(this.position);
    const from = this.position + 1;
    for (let i = from; i < this.end; i++) {
      const char = this.text.charAt(i);
      if (char === "\\" && quote === '"') i++;
      else if (char === quote) {
        this.position = i + 1;
        return this.text.slice(from, i);
      }
    }
    this.position = this.end;
    return undefined;
  }

  /** Passes a comment up to the end of its line. True where the cursor is in it. */
  comment(): boolean {
    while (!this.atEnd && !/[\r\n]/.test(this.text.charAt(this.position))) this.position++;
    return this.atEnd;
  }
}
