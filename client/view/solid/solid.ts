/** What the fold and the script that draws the solid share. */
import type { SolidPart } from "../../../server/src/protocol/making.js";

export interface Solid {
  show(parts: readonly SolidPart[]): void;
  /** Whether the half that is toward the viewer at first is taken away. */
  cut(isCut: boolean): void;
  dispose(): void;
}

/** @param say what is under the pointer, in words. @throws where the page cannot draw in three dimensions */
export type OpenSolid = (canvas: HTMLCanvasElement, say: (words: string) => void) => Solid;
