/** The drawing's step of a dimension, mm; a dimension with its offset added is a whole number of steps. */
export interface DrawingStep {
  readonly step: number;
  readonly offset: number;
}

/** The steps of the drawing on both sides of a value, the nearer first. */
export function neighbours(value: number, { step, offset }: DrawingStep): readonly [number, number] {
  const place = (value + offset) / step;
  const nearer = Math.round(place);
  return [nearer * step - offset, (nearer + (place > nearer ? 1 : -1)) * step - offset];
}
