/**
 * Text of any signs: every one of Unicode's but halves of pairs. The library's own (`unit: "binary"`) first tables all 1.1 million of them,
 * which takes a second, and the memory for the rest of the run.
 */
import fc from "fast-check";

/** Unicode 3.9, D71 to D74: code points that stand for no sign of their own. */
const HALVES = { from: 0xd800, count: 0x800 };
const LAST_SIGN = 0x10ffff;

const anySign = fc
  .nat(LAST_SIGN - HALVES.count)
  .map((n) => String.fromCodePoint(n < HALVES.from ? n : n + HALVES.count));

/** @param maxLength in signs */
export function anyText(maxLength: number): fc.Arbitrary<string> {
  return fc.array(anySign, { maxLength }).map((signs) => signs.join(""));
}
