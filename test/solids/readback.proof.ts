/**
 * Every example measured back from its mesh, by slicing that knows nothing of the making: bore, holes, cavity. The description with the
 * measured numbers must predict the same notes, and no side of a polygon may lie farther from its circle than a chord's error.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { DEFAULT_SETTINGS } from "../../server/src/design/settings.js";
import { readDesign, syntaxOf } from "../../server/src/document/read.js";
import { resolveInstrument } from "../../server/src/instrument/check.js";
import type { Instrument } from "../../server/src/instrument/model.js";
import { measuredBack } from "../support/measuredBack.js";

/** mm; mm of a side from its circle; cents. */
const MEASURED = 0.02;
const CHORD = 0.01;
const SAME_NOTE = 0.2;
/** What single precision leaves of a corner, mm. */
const SINGLE = 2e-4;

const failures: string[] = [];

async function prove(name: string): Promise<void> {
  const document = readDesign(readFileSync(join("examples", name), "utf8"), syntaxOf(name)).documents[0];
  if (document === undefined) throw new Error(`${name} holds nothing`);
  const { resolution } = document;
  const { data, measuring } = await measuredBack(resolution);
  const notes = (instrument: Instrument) =>
    analyse(instrument, DEFAULT_SETTINGS).fingerings.map(({ predictedHz }) => predictedHz);
  const [drawn, made] = [notes(resolution.instrument), notes(resolveInstrument(data).instrument)];
  const apart = drawn.map((hz, i) => (hz === undefined ? 0 : Math.abs(1200 * Math.log2((made[i] ?? 0) / hz))));
  const cents = Math.max(...apart);
  console.log(
    `${name}: sizes within ${measuring.worst.toFixed(4)} mm, sides within ${measuring.chord.toFixed(4)} mm of their circles, ${drawn.length} notes within ${cents.toFixed(3)} cents`,
  );
  if (!(measuring.worst <= MEASURED)) failures.push(`${name}: a size is ${measuring.worst} mm off`);
  if (!(measuring.chord <= CHORD + SINGLE)) failures.push(`${name}: a side is ${measuring.chord} mm off`);
  if (!(cents <= SAME_NOTE)) failures.push(`${name}: a note is ${cents} cents off`);
}

async function main(): Promise<void> {
  for (const name of readdirSync("examples").filter((each) => /\.bore\./.test(each))) await prove(name);
  for (const failure of failures) console.log(`FAILED ${failure}`);
  process.exitCode = failures.length === 0 ? 0 : 1;
}
void main();
