/** A design made into files, as the editor asks for it: the solid, the drawing, the chart. */

/** Request: {@link MakeQuestion} to {@link MakeAnswer}; cancelled, or overtaken by a newer text, it ends with the protocol's error. */
export const MAKE = "borewright/make";

/** What can be made, in which formats; the first is the usual one. */
export const MAKE_FORMATS = { solid: ["3mf", "stl"], drawing: ["pdf", "svg"], chart: ["pdf", "svg"] } as const;
export type Makeable = keyof typeof MAKE_FORMATS;

export interface MakeQuestion {
  readonly uri: string;
  readonly documentIndex: number;
  readonly what: Makeable;
  readonly format: string;
}

export interface MakeAnswer {
  readonly files: readonly {
    /** Goes before the ending of the name that was asked for; empty for one that holds everything. */
    readonly suffix: string;
    readonly base64: string;
  }[];
  /** Parts, printing, putting together, cautions: plain text to be shown beside the files. */
  readonly sheet?: string | undefined;
  /** Why nothing was made, in the maker's words, and where: UTF-16 offsets into the text. */
  readonly refused?: readonly { readonly message: string; readonly start?: number | undefined }[];
}

/** Request: {@link SolidQuestion} to {@link SolidAnswer}: the solid to be looked at, its parts put together. */
export const SOLID = "borewright/solid";

export interface SolidQuestion {
  readonly uri: string;
  readonly documentIndex: number;
}

/** A mesh in the outline's axes, mm as laid on the bed: little-endian bytes in base 64. */
export interface SolidPart {
  readonly name: string;
  /** 32-bit floats, three a corner. */
  readonly vertices: string;
  /** 32-bit whole numbers, three corners a triangle. */
  readonly triangles: string;
}

export interface SolidAnswer {
  readonly parts: readonly SolidPart[];
  /** Why there is none, in the maker's words. */
  readonly refused?: string | undefined;
}
