/** Thrown out of a calculation that was told to stop: not a fault, the answer is no longer wanted. */
export class Cancelled extends Error {
  override readonly name = "Cancelled";
  constructor() {
    super("The calculation was stopped before it ended.");
  }
}
