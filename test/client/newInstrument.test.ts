/** The tube at hand, as makers write it. */
import { describe, expect, it, vi } from "vitest";

vi.mock("vscode", () => import("../support/vscodeWords.js"));

const { tubeOf } = await import("../../client/src/newInstrument.js");

describe("tubeOf", () => {
  it.each([
    ["14", { bore: 14, wall: 1 }],
    ["14 x 1.5", { bore: 14, wall: 1.5 }],
    [" 12,5 mm × 0,6 mm ", { bore: 12.5, wall: 0.6 }],
  ])("reads %j", (text, expected) => expect(tubeOf(text)).toEqual(expected));

  it.each(["", "wide", "200", "14 x 0", "14 x", "-3"])("refuses %j", (text) => expect(tubeOf(text)).toBeUndefined());
});
