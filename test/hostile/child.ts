/** The process that tries the cases of one kind: the parent sees from outside whether it crashes or hangs. */
import { type Fault, type Kind, signature, thrown } from "./kind.js";
import { KINDS } from "./kinds/index.js";
import { Random } from "./random.js";
import { shrunk } from "./shrink.js";

export type Message =
  | { readonly began: unknown }
  | { readonly ended: true; readonly faults: readonly string[] }
  | { readonly found: { readonly fault: Fault; readonly given: unknown } }
  | { readonly said: string }
  | { readonly done: true };

export interface Order {
  readonly kind: string;
  readonly seed: number;
  readonly milliseconds: number;
}

const tell = (message: Message) =>
  new Promise<void>((done) => {
    if (process.send === undefined) done();
    else process.send(message, () => done());
  });

/** Tries cases until the time is over, and at least one. */
export async function tryCases({ kind: name, seed, milliseconds }: Order): Promise<void> {
  const kind = KINDS.find((each) => each.name === name);
  if (kind === undefined) throw new Error(`no kind ${name}`);
  const unhandled: Fault[] = [];
  process.on("unhandledRejection", (reason) => unhandled.push(thrown("unhandled rejection", reason)));
  process.on("uncaughtException", (error) => unhandled.push(thrown("uncaught exception", error)));
  const known = new Set<string>();
  const end = performance.now() + milliseconds;
  for (let number = 0; number === 0 || performance.now() < end; number++) {
    const given = kind.draw(new Random(seed * SPREAD + number));
    await tell({ began: given });
    const faults = [...(await tried(kind, given)), ...unhandled.splice(0)];
    await tell({ ended: true, faults: faults.map(signature) });
    for (const fault of faults) {
      if (known.has(signature(fault))) continue;
      known.add(signature(fault));
      await tell({ found: { fault, given } });
      const smallest = await shrunk(kind, given, fault, Math.min(LONGEST_SHRINKING, milliseconds * SHRINKING_SHARE));
      unhandled.length = 0;
      await tell({ found: { fault, given: smallest } });
    }
  }
  await kind.end?.((said) => tell({ said }));
  await tell({ done: true });
  process.exit(0);
}

/** ms, and as a share of the whole time: the rest is for finding more. */
const LONGEST_SHRINKING = 15_000;
const SHRINKING_SHARE = 0.1;
/** Cases of one seed must not be those of the next. */
const SPREAD = 1_000_003;

async function tried<Case>(kind: Kind<Case>, given: Case): Promise<readonly Fault[]> {
  try {
    return await kind.check(given);
  } catch (error) {
    return [thrown("crash", error)];
  }
}
