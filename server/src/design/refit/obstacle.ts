/** What stands in the way of a refit. */

export interface Obstacle {
  readonly message: string;
  readonly advice: string;
  /** What the limit is, and what the tuning needed: printed millimetres, or cents where notes contradict each other. */
  readonly limit: number;
  readonly needed: number;
  readonly unit: "mm" | "cents";
  /** The dimensions as solved are in tune; only as drawn they are not. Another key would not help. */
  readonly ofDrawing?: boolean;
}
