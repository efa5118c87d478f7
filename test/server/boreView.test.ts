/** What the bore view is told over the protocol, and what a drag would write. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../server/src/document/edits.js";
import {
  BORE_VIEW,
  type BoreViewAnswer,
  type BoreViewData,
  TRY_NUMBER,
  type TrialAnswer,
} from "../../server/src/protocol/boreView.js";
import { client, PULLING, URI } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";

const EXAMPLES = join(import.meta.dirname, "../../examples");

async function opened(text: string, uri = URI) {
  const self = await client(PULLING);
  self.open(text, uri);
  const ask = (question: object) => self.connection.sendRequest<BoreViewAnswer>(BORE_VIEW, { uri, ...question });
  const tried = (question: object) =>
    self.connection.sendRequest<TrialAnswer>(TRY_NUMBER, { uri, documentIndex: 0, version: 1, ...question });
  return { ask, tried };
}

const drawn = async (text: string): Promise<BoreViewData> => {
  const { view } = await (await opened(text)).ask({ documentIndex: 0 });
  if (view === undefined) throw new Error("nothing drawn");
  return view;
};

describe("borewright/boreView", () => {
  it.each(readdirSync(EXAMPLES).filter((name) => name.includes(".bore.")))(
    "draws %s with every fingering",
    async (name) => {
      const text = readFileSync(join(EXAMPLES, name), "utf8");
      const { ask } = await opened(text, `file:///${name}`);
      const { view } = await ask({ documentIndex: 0 });
      expect(view?.rows.length).toBeGreaterThan(5);
      for (const { cents, note, lines } of view?.rows ?? []) {
        // A first print gone wrong lacks a register.
        if (!name.startsWith("gull")) expect(cents).toBeTypeOf("number");
        expect(note).toMatch(/^[A-G]/);
        expect(lines[1]).toBeGreaterThanOrEqual(lines[0]);
      }
      const { body } = view?.outline ?? {};
      if (body?.kind !== "pipes") expect(view?.rows[0]?.covers).toHaveLength(body?.holes.length ?? -1);
    },
  );

  it("gives each row the lines on which it stands", async () => {
    const view = await drawn(WHISTLE);
    const lines = WHISTLE.split("\n");
    for (const {
      lines: [first],
      covers,
    } of view.rows) {
      const signs = covers.map((cover) => (cover === 1 ? "[●x]" : "[○o]")).join("");
      expect(lines[first]).toMatch(new RegExp(signs));
    }
  });

  it("gives each hole a place and a width to take hold of, within its neighbours, and the foot", async () => {
    const { handles, outline } = await drawn(WHISTLE);
    const holes = outline.body.kind === "tube" ? outline.body.holes : [];
    expect(handles.map(({ kind }) => kind).sort()).toEqual([...holes.flatMap(() => ["place", "width"]), "foot"].sort());
    for (const { kind, hole, value, least, greatest } of handles) {
      expect(value).toBeGreaterThanOrEqual(least);
      expect(value).toBeLessThanOrEqual(greatest);
      if (kind === "place" && hole > 0) expect(least).toBeGreaterThan(holes[hole - 1]?.at ?? Number.NaN);
    }
  });

  it("keeps what is fixed, and the limits that the design states", async () => {
    const text = WHISTLE.replace(
      /(\{ name: L2, at: [\d.]+, diameter: [\d.]+)/,
      "$1, fixed: true, limits: { at: [205, 214] }",
    );
    const handle = (await drawn(text)).handles.find(({ name, kind }) => name === "L2" && kind === "place");
    expect(handle).toMatchObject({ fixed: true, least: 205, greatest: 214 });
  });

  it("says where the text cannot be read", async () => {
    const { ask } = await opened(`${WHISTLE}\nholes: [\n`);
    expect(await ask({ documentIndex: 0 })).toEqual({
      trouble: expect.stringMatching(/^Line \d+ cannot be read yet: /),
    });
  });

  it("says what is missing", async () => {
    const { ask } = await opened("borewright: 1\nfamily: duct\n");
    expect((await ask({ documentIndex: 0 })).trouble).toBeTruthy();
  });

  it("finds the instrument at an offset", async () => {
    const { ask } = await opened(`${WHISTLE}---\n${WHISTLE}`);
    expect((await ask({ offset: WHISTLE.length + 30 })).view?.documentIndex).toBe(1);
  });

  it.each([{}, { documentIndex: 7 }, { offset: Number.NaN }, { documentIndex: "x" }])(
    "answers %o without a fault",
    async (question) => {
      const { ask } = await opened(WHISTLE);
      const { view, trouble } = await ask(question);
      expect(view ?? trouble).toBeDefined();
    },
  );
});

describe("borewright/tryNumber", () => {
  const place = ["holes", 1, "at"];

  it("tells what the notes would be, and the edit that makes them so", async () => {
    const { ask, tried } = await opened(WHISTLE);
    const before = (await ask({ documentIndex: 0 })).view as BoreViewData;
    const handle = before.handles.find(({ path }) => path.join() === place.join());
    const { view, edits } = await tried({ path: place, value: (handle?.value ?? 0) - 2 });
    const text = applyEdits(
      WHISTLE,
      edits.map(({ start, end, text: put }) => ({ span: { start, end }, text: put })),
    );
    expect((await drawn(text)).rows.map(({ cents }) => cents)).toEqual(view?.rows.map(({ cents }) => cents));
    // The slopes foretell it nearly.
    view?.rows.forEach(({ cents }, i) => {
      const foretold = (before.rows[i]?.cents ?? 0) - 2 * (handle?.centsPerMillimetre[i] ?? 0);
      expect(Math.abs((cents ?? 0) - foretold)).toBeLessThan(2);
    });
    expect(text.split("\n").filter((line, i) => line !== WHISTLE.split("\n")[i])).toHaveLength(1);
  });

  it.each([
    ["another version", { version: 9, path: place, value: 200 }, "changed"],
    ["no path", { path: "holes", value: 200 }, "no number"],
    ["no number", { path: place, value: "far" }, "no number"],
    ["a hole beyond the foot", { path: place, value: 9_000 }, ""],
  ])("refuses %s in words", async (_, question, says) => {
    const { tried } = await opened(WHISTLE);
    const { edits, refused } = await tried(question);
    expect(edits).toEqual([]);
    expect(refused).toContain(says);
  });
});
