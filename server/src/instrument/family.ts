/** What kind of instrument a design describes. */

export type Family = "transverse" | "duct" | "rim" | "panpipe" | "vessel";
