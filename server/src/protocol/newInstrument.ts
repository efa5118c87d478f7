/** An instrument from nothing, as the editor asks for it. */

/** Request without parameters, to {@link InstrumentKind}[]. */
export const INSTRUMENT_KINDS = "borewright/instrumentKinds";
/** Request: {@link NewInstrumentQuestion} to {@link NewInstrumentAnswer}. */
export const NEW_INSTRUMENT = "borewright/newInstrument";

/** mm: a tube that somebody might blow, and the wall of most metal and plastic ones. Common practice, no source. */
export const TUBE_AT_HAND = { bore: [4, 80], wall: [0.2, 20], usualWall: 1 } as const;

export function isTubeAtHand({ bore, wall }: { readonly bore: number; readonly wall: number }): boolean {
  const within = (value: number, [least, most]: readonly [number, number]) =>
    typeof value === "number" && value >= least && value <= most;
  return within(bore, TUBE_AT_HAND.bore) && within(wall, TUBE_AT_HAND.wall);
}

export interface InstrumentKind {
  readonly id: string;
  /** In the maker's words. */
  readonly title: string;
}

export interface NewInstrumentQuestion {
  readonly kind: string;
  readonly key: string;
  /** The tube at hand, mm; undefined where it is printed. */
  readonly tube?: { readonly bore: number; readonly wall: number };
  readonly hand: "adult" | "child";
}

export interface NewInstrumentAnswer {
  /** A YAML design. */
  readonly text?: string;
  readonly name?: string;
  /** What came out, or why nothing did. */
  readonly message: string;
}
