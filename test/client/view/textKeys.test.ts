/** Which keys in the bore view mean the text beside it. Bindings: those of VS Code for undo, redo and save on its systems. */
import { describe, expect, it } from "vitest";
import { textKey } from "../../../client/view/textKeys.js";

const pressed = (key: string, ...held: ("ctrlKey" | "metaKey" | "shiftKey" | "altKey")[]) =>
  textKey({
    key,
    ctrlKey: held.includes("ctrlKey"),
    metaKey: held.includes("metaKey"),
    shiftKey: held.includes("shiftKey"),
    altKey: held.includes("altKey"),
  });

describe("textKey", () => {
  it("undoes, redoes and saves by the keys of every system", () => {
    expect(pressed("z", "ctrlKey")).toBe("undo");
    expect(pressed("z", "metaKey")).toBe("undo");
    expect(pressed("Z", "ctrlKey", "shiftKey")).toBe("redo");
    expect(pressed("y", "ctrlKey")).toBe("redo");
    expect(pressed("s", "ctrlKey")).toBe("save");
    expect(pressed("s", "metaKey")).toBe("save");
  });

  it("leaves every other key to the view and the editor", () => {
    expect(pressed("z")).toBeUndefined();
    expect(pressed("z", "ctrlKey", "altKey")).toBeUndefined();
    expect(pressed("S", "ctrlKey", "shiftKey")).toBeUndefined();
    expect(pressed("y", "metaKey")).toBeUndefined();
    expect(pressed("ArrowLeft", "ctrlKey")).toBeUndefined();
  });
});
