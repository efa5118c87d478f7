import fc from "fast-check";
import { expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import type { Column } from "../../server/src/acoustics/column.js";
import { Response } from "../../server/src/acoustics/response.js";
import { instruments } from "./instruments.js";

const air = chaigneKergomardAir(20);

/** One thing of the column otherwise, chosen by two numbers. */
function changed(column: Column, what: number, which: number): Column {
  const { bore, holes, wall } = column;
  const grown = (value: number) => value * 1.001;
  const hole = holes[which % Math.max(1, holes.length)];
  const station = bore[which % bore.length] as Column["bore"][number];
  const withHole = (change: object): Column =>
    hole ? { ...column, holes: holes.with(holes.indexOf(hole), { ...hole, ...change }) } : column;
  switch (what) {
    case 0:
      return withHole({ x: grown(hole?.x ?? 0) });
    case 1:
      return withHole({ radius: grown(hole?.radius ?? 0) });
    case 2:
      return withHole({ chimney: grown(hole?.chimney ?? 0) });
    case 3:
      return withHole({ angle: (hole?.angle ?? 0) + 0.1 });
    case 4:
      return { ...column, wall: grown(wall) };
    default:
      return { ...column, bore: bore.with(bore.indexOf(station), { ...station, radius: grown(station.radius) }) };
  }
}

it("a column worked out from one that differs in one thing is, to the last bit, the one worked out alone", () => {
  const frequencies = fc.array(fc.double({ min: 5, max: 40, noNaN: true }), { minLength: 1, maxLength: 4 });
  fc.assert(
    fc.property(instruments, fc.nat(5), fc.nat(20), frequencies, fc.nat(255), (column, what, which, ks, pattern) => {
      const other = changed(column, what, which);
      const base = new Response(column, air);
      const alone = new Response(other, air);
      const together = new Response(other, air, undefined, base);
      const covers = column.holes.map((_, i) => (pattern >> i) & 1);
      for (const k of ks) {
        base.at(k, base.states(covers));
        expect(together.at(k, together.states(covers))).toEqual(alone.at(k, alone.states(covers)));
      }
      // Asked where the base does not stand, it does without.
      const elsewhere = (ks[0] as number) * 1.1;
      expect(together.at(elsewhere, together.states(covers))).toEqual(alone.at(elsewhere, alone.states(covers)));
    }),
  );
});
