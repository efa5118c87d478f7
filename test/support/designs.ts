/** Designs for tests, as text: what a maker would write. */
import type { CheckResult } from "../../server/src/design/check.js";
import { checkDocument } from "../../server/src/design/check.js";
import type { CheckSettings } from "../../server/src/design/settings.js";
import type { DesignDocument, DesignFile, Syntax } from "../../server/src/document/designFile.js";
import { readDesign } from "../../server/src/document/read.js";

/** A duct flute a little out of tune: the second hole flat, the rest within a few cents. Dimensions invented. */
export const WHISTLE = `# harbour workshop
borewright: 1
name: Test whistle   # first of its kind
family: duct
key: G4
tolerance: 10
air: { temperature: 22, humidity: 60 }
parameters: { wall: 3, tube: 16 }
mouth:
  window: { width: 9.82, cutUp: 4.5, labium: 1 }
bore:
  - { at: 0, diameter: =tube }
  - { at: 394.1, diameter: =tube }
wall: =wall
holes:
  - { name: L1, at: 173.3, diameter: 7 }
  - { name: L2, at: 210.3, diameter: 8.5 }   # too far down
  - { name: L3, at: 229.8, diameter: 7 }
  - { name: R1, at: 270.8, diameter: 7 }
  - { name: R2, at: 289.6, diameter: 8.5 }
  - { name: R3, at: 321.4, diameter: 6.5 }
fingerings:
  - { degree: 1, holes: ●●●●●● }
  - { degree: 2, holes: ●●●●●○ }
  - { degree: 3, holes: ●●●●○○ }
  - { degree: 4, holes: ●●●○○○ }
  - { note: D5, holes: ●●○○○○ }
  - { degree: 6, holes: ●○○○○○ }
  - { degree: 8, holes: ●●●●●●, register: 2 }
`;

/** A duct flute of four notes, in tune: for what takes many refits. Dimensions invented. */
export const THREE_HOLES = `borewright: 1
family: duct
key: D5
air: { temperature: 20 }
mouth: { window: { width: 8.5, cutUp: 4 } }
bore: [{ at: 0, diameter: 13 }, { at: 263.1, diameter: 13 }]
wall: 2
holes: [{ name: R1, at: 183.9, diameter: 6.5 }, { name: R2, at: 200.9, diameter: 9 }, { name: R3, at: 228.3, diameter: 8 }]
fingerings:
  - { degree: 1, holes: xxx }
  - { degree: 2, holes: xxo }
  - { degree: 3, holes: xoo }
  - { degree: 4, holes: ooo }
`;

export function fileOf(text: string, syntax: Syntax = "yaml"): DesignFile {
  return readDesign(text, syntax);
}

export function documentOf(file: DesignFile, index = 0): DesignDocument {
  const document = file.documents[index];
  if (document === undefined) throw new Error(`no document ${index}`);
  return document;
}

export function checked(text: string, syntax: Syntax = "yaml", settings?: CheckSettings): CheckResult {
  return checkDocument(documentOf(fileOf(text, syntax)), settings);
}
