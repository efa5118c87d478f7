/** Where networks work out their equations: all with the same number of ports share it, since none is ever interrupted. */
export class NetworkMemory {
  /** The equations, row by row. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Flow out of the bore at each port, by the unknowns. */
  readonly outRe: Float64Array;
  readonly outIm: Float64Array;
  /** Axial flow that near holes induce at each hole; then the whole flow there. By the unknowns. */
  readonly alongRe: Float64Array;
  readonly alongIm: Float64Array;
  /** Pressure and flow in the bore where the walk stands, by the unknowns; and the right-hand sides. */
  readonly pRe: Float64Array;
  readonly pIm: Float64Array;
  readonly uRe: Float64Array;
  readonly uIm: Float64Array;
  readonly bRe: Float64Array;
  readonly bIm: Float64Array;
  /** The port that each place in a row stands for, and the reverse. */
  readonly portAt: Int32Array;
  readonly placeOf: Int32Array;
  /** The first place of what the flow along the bore at each hole depends on. */
  readonly firstAlong: Int32Array;
  /** Rows of flows that are added to another, and by what factors. */
  readonly sources: Int32Array;
  readonly factors: Float64Array;

  constructor(readonly ports: number) {
    const vector = () => new Float64Array(ports);
    const matrix = () => new Float64Array(ports * ports);
    const indices = () => new Int32Array(ports);
    [this.re, this.im, this.outRe, this.outIm] = [matrix(), matrix(), matrix(), matrix()];
    [this.alongRe, this.alongIm] = [matrix(), matrix()];
    [this.pRe, this.pIm, this.uRe, this.uIm] = [vector(), vector(), vector(), vector()];
    [this.bRe, this.bIm, this.factors] = [vector(), vector(), vector()];
    [this.portAt, this.placeOf, this.firstAlong, this.sources] = [indices(), indices(), indices(), indices()];
  }
}

let latest: NetworkMemory | undefined;

/** The last one's again where it has the size: hundreds of columns of as many holes follow one another, and a dozen arrays each cost more than solving. */
export function memoryFor(ports: number): NetworkMemory {
  if (latest?.ports !== ports) latest = new NetworkMemory(ports);
  return latest;
}
