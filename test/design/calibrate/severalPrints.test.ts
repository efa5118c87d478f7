/** Calibration by several prints: one player and one printer, several drawings, and what each print scatters. */
import { describe, expect, it } from "vitest";
import { calibrate, type PrintedDesign } from "../../../server/src/design/calibrate/calibrate.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { played } from "../../support/played.js";

const withExtra = (text: string, extra: number) => text.replace(/^( +window: .*)$/m, `$1\n  extra: ${extra}`);
const printed = (text: string, print: string) => `${text}print: { ${print} }\n`;
/** Another drawing: holes moved, the bore longer. */
const REDRAWN = WHISTLE.replace("173.3", "170").replace("289.6", "293").replace("394.1", "396");

/** A drawing, measured on a thing that is another one, all notes so many cents higher. */
function measured(drawn: string, thing: string, cents: number): PrintedDesign {
  const notes = played(thing).map(
    ({ note, hz }) => `  - { note: ${note}, hz: ${hz * 2 ** (cents / 1200)}, temperature: 22 }`,
  );
  const { resolution } = documentOf(fileOf(`${drawn}measured:\n${notes.join("\n")}\n`));
  return { resolution, analysis: analyse(resolution.instrument) };
}

const fitted = ({ resolution, analysis }: PrintedDesign, earlier: readonly PrintedDesign[]) =>
  calibrate(resolution, analysis, { earlier });
const valueFitted = (calibration: ReturnType<typeof fitted>, quantity: string) =>
  calibration.fitted.find((each) => each.quantity === quantity)?.after;

describe("calibration by several prints", () => {
  const first = measured(WHISTLE, withExtra(WHISTLE, 2), 6);
  const second = measured(withExtra(REDRAWN, 0.6), withExtra(REDRAWN, 2), -6);

  it("evens out what single prints scatter, whatever each drawing and its mouth were", () => {
    expect(Math.abs((valueFitted(fitted(second, []), "mouth") ?? 0) - 2)).toBeGreaterThan(0.3);
    const both = fitted(second, [first]);
    expect(valueFitted(both, "mouth")).toBeCloseTo(2, 1);
    expect(both.fitted[0]?.before).toBe(0.6);
    // Those of the print that is corrected; what the earlier one has left is told apart.
    expect(both.notes).toHaveLength(7);
    expect(both.earlier).toMatchObject({ prints: 1, notes: 7 });
    expect(both.earlier?.rmsResidualCents).toBeCloseTo(6, 0);
    expect(both.rmsResidualCents).toBeCloseTo(6, 0);
  });

  it("takes the lips to be as long in a print of another scale", () => {
    const larger = "scale: 110 %";
    const earlier = measured(printed(WHISTLE, larger), printed(withExtra(WHISTLE, 2 / 1.1), larger), 0);
    expect(valueFitted(fitted(measured(WHISTLE, withExtra(WHISTLE, 2), 0), [earlier]), "mouth")).toBeCloseTo(2, 2);
  });

  it("finds what one printer takes from every hole, whatever each drawing allowed for", () => {
    const thing = (text: string) => printed(withExtra(text, 1), "holeUndersize: 0.6");
    const earlier = measured(printed(WHISTLE, "holeUndersize: 0.15"), thing(WHISTLE), 2);
    const own = measured(printed(REDRAWN, "holeUndersize: 0.05"), thing(REDRAWN), -2);
    const both = fitted(own, [earlier]);
    expect(valueFitted(both, "undersize")).toBeCloseTo(0.6, 1);
    expect(valueFitted(both, "mouth")).toBeCloseTo(1, 0);
  });

  it("does not lay what several prints have in common to the air of one day", () => {
    const warm = (text: string) => withExtra(text, 3).replace("temperature: 22", "temperature: 31.5");
    const undated = ({ resolution, analysis: { instrument } }: PrintedDesign): PrintedDesign => ({
      resolution,
      analysis: analyse({
        ...instrument,
        measured: instrument.measured.map((each) => ({ ...each, temperature: undefined })),
      }),
    });
    const [own, earlier] = [REDRAWN, WHISTLE].map((text) => undated(measured(text, warm(text), 0))) as [
      PrintedDesign,
      PrintedDesign,
    ];
    expect(fitted(own, []).withAir).toBeDefined();
    expect(fitted(own, [earlier]).withAir).toBeUndefined();
  });

  it("refuses an earlier print with another kind of mouth", () => {
    const other = WHISTLE.replace(/window: .*/, "correction: 20");
    expect(() => fitted(second, [measured(other, other, 0)])).toThrow("another kind of mouth");
  });
});
