/** The drawing's step of a dimension, mm; a dimension with its offset added is a whole number of steps. */
export interface DrawingStep {
  readonly step: number;
  readonly offset: number;
  /** The only values there are, ascending; the step is then the widest gap between them. */
  readonly choices?: readonly number[];
}

/** The steps of the drawing on both sides of a value, the nearer first; at the end of the choices, the same one twice. */
export function neighbours(value: number, drawing: DrawingStep): readonly [number, number] {
  const { step, offset, choices } = drawing;
  if (choices !== undefined) {
    const [below, above] = [choices.findLast((choice) => choice <= value), choices.find((choice) => choice >= value)];
    const [low, high] = [below ?? above ?? value, above ?? below ?? value];
    if (low === high) return [low, next(low, drawing, 1)];
    return value - low <= high - value ? [low, high] : [high, low];
  }
  const place = (value + offset) / step;
  const nearer = Math.round(place);
  return [nearer * step - offset, (nearer + (place > nearer ? 1 : -1)) * step - offset];
}

/** The value one step up (`1`) or down (`-1`) from a drawn one; the same at the end of the choices. */
export function next(value: number, { step, choices }: DrawingStep, way: 1 | -1): number {
  if (choices === undefined) return value + way * step;
  const beyond = choices.filter((choice) => (choice - value) * way > ON_IT);
  return (way > 0 ? beyond[0] : beyond.at(-1)) ?? value;
}

/** Millimetres: rounding of sums. */
const ON_IT = 1e-6;
