/** Where text stands in lines. */
import type { Path } from "../../instrument/finding.js";

/** First and last line of what stands at a path, from 0. */
export type Lines = (path: Path) => readonly [number, number];
