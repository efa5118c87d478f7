/** An instrument from nothing, as the editor asks for it. */

/** Request without parameters, to {@link InstrumentKind}[]. */
export const INSTRUMENT_KINDS = "borewright/instrumentKinds";
/** Request: {@link NewInstrumentQuestion} to {@link NewInstrumentAnswer}. */
export const NEW_INSTRUMENT = "borewright/newInstrument";

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
