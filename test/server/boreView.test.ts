/** What the bore view is told over the protocol, and what a drag would write. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../server/src/document/edits.js";
import {
  BORE_VIEW,
  type BoreViewAnswer,
  type BoreViewData,
  FIXES,
  type FixesAnswer,
  PROPOSAL,
  type ProposalAnswer,
  RESPONSE,
  type ResponseAnswer,
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
  const about = { uri, documentIndex: 0, version: 1 };
  const proposed = (change: object) => self.connection.sendRequest<ProposalAnswer>(PROPOSAL, { ...about, change });
  const fixes = (row: number) => self.connection.sendRequest<FixesAnswer>(FIXES, { ...about, row });
  const response = (row: number) => self.connection.sendRequest<ResponseAnswer>(RESPONSE, { ...about, row });
  return { ask, tried, proposed, fixes, response };
}

/** As the view would write it. */
const written = (text: string, edits: TrialAnswer["edits"]) =>
  applyEdits(
    text,
    edits.map(({ start, end, text: put }) => ({ span: { start, end }, text: put })),
  );
const changedLines = (before: string, after: string) =>
  after.split("\n").filter((line, i) => line !== before.split("\n")[i]);

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

  it("gives each hole a place and a width to drag, within its neighbours, the bore and the foot", async () => {
    const { handles, outline } = await drawn(WHISTLE);
    const holes = outline.body.kind === "tube" ? outline.body.holes : [];
    expect(handles.map(({ kind }) => kind).sort()).toEqual(
      [...holes.flatMap(() => ["place", "width"]), "foot", "stationWidth", "stationWidth"].sort(),
    );
    for (const { kind, hole, value, least, greatest } of handles) {
      expect(value).toBeGreaterThanOrEqual(least);
      expect(value).toBeLessThanOrEqual(greatest);
      if (kind === "place" && hole > 0) expect(least).toBeGreaterThan(holes[hole - 1]?.at ?? Number.NaN);
    }
  });

  it("stops a hole where it can still be made, so that what is let go there stays", async () => {
    const { ask, tried } = await opened(WHISTLE);
    const { handles = [] } = (await ask({ documentIndex: 0 })).view ?? {};
    const places = handles.filter(({ kind }) => kind === "place");
    expect(places.length).toBeGreaterThan(2);
    for (const { path, least, greatest } of places)
      for (const value of [Math.ceil(least * 10) / 10, Math.floor(greatest * 10) / 10])
        expect(await tried({ path, value })).toMatchObject({ view: expect.anything() });
  });

  it("cuts a two-chamber flute with its slow chamber, plug and tied block", async () => {
    const { section, outline } = await drawn(example("harbour-mist-flute"));
    const mouth = outline.body.kind === "tube" ? outline.body.mouth : undefined;
    if (mouth?.kind !== "two-chamber") throw new Error("not the two-chamber flute");
    const extents = section?.others.map((area) => [
      Math.min(...area.map(([z]) => z)),
      Math.max(...area.map(([z]) => z)),
    ]);
    expect(extents).toEqual([
      [mouth.plug.from, mouth.plug.to],
      [mouth.windway.to - mouth.block.length, mouth.windway.to],
    ]);
    // Closed at the mouth but for its hole.
    const front =
      section?.cut
        .flat()
        .filter(([, y]) => y > 0)
        .map(([z]) => z) ?? [];
    expect(Math.min(...front)).toBeLessThan(mouth.chamber.from);
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

  it("is brief where that is asked: the same notes, without bands and slopes", async () => {
    const { ask } = await opened(WHISTLE);
    const [brief, full] = [await ask({ documentIndex: 0, brief: true }), await ask({ documentIndex: 0 })];
    expect(brief.view?.rows.map(({ cents }) => cents)).toEqual(full.view?.rows.map(({ cents }) => cents));
    expect(brief.view?.rows.some(({ band }) => band !== undefined)).toBe(false);
    expect(full.view?.rows.every(({ band }) => band !== undefined)).toBe(true);
    expect(brief.view?.handles.every(({ centsPerMillimetre }) => centsPerMillimetre.length === 0)).toBe(true);
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

const example = (name: string) => readFileSync(join(EXAMPLES, `${name}.bore.yaml`), "utf8");

describe("what can be dragged", () => {
  it.each([
    ["ferry-flute", ["stopper", "station", "stationWidth"]],
    ["harbour-mist-flute", ["stopper"]],
    ["breakwater-pipes", ["stopper"]],
    ["lantern-vessel", ["width"]],
  ])("in %s is among other things %o", async (name, kinds) => {
    const { handles } = await drawn(example(name));
    expect(handles.map(({ kind }) => kind)).toEqual(expect.arrayContaining(kinds));
    // What is dragged changes the notes as its slopes say: one millimetre of one handle of each kind.
    const { tried, ask } = await opened(example(name));
    const before = (await ask({ documentIndex: 0 })).view as BoreViewData;
    for (const kind of new Set(kinds)) {
      const handle = before.handles.findLast((each) => each.kind === kind);
      if (handle === undefined) throw new Error(kind);
      const { view, refused } = await tried({ path: handle.path, value: handle.value + 0.2 });
      expect(refused).toBeUndefined();
      view?.rows.forEach(({ cents = 0 }, i) => {
        const foretold = (before.rows[i]?.cents ?? 0) + 0.2 * (handle.centsPerMillimetre[i] ?? 0);
        expect(Math.abs(cents - foretold)).toBeLessThan(1);
      });
    }
  });

  it("moves the parameter behind a formula, and says what else follows", async () => {
    const text = example("quay-whistle");
    const { ask, tried } = await opened(text);
    const { handles = [] } = (await ask({ documentIndex: 0 })).view ?? {};
    const named = (name: string, kind = "place") => handles.find((each) => each.name === name && each.kind === kind);
    expect(named("R1")?.moves).toBe("the parameter lower, and with it R2 and R3");
    // `=lower + gap`: the one that moves fewer others. `=lower + 2*gap + 13`: its own number.
    expect(named("R2")?.moves).toBe("the parameter gap, and with it R3");
    expect(named("R3")?.moves).toBeUndefined();
    const changes = async (path: unknown, value: number) => {
      const { edits, view } = await tried({ path, value });
      expect(view).toBeDefined();
      return changedLines(text, written(text, edits));
    };
    expect(await changes(["holes", 3, "at"], 272)).toEqual([expect.stringMatching(/^ {2}lower: 272 /)]);
    expect(await changes(["holes", 4, "at"], 290)).toEqual([expect.stringMatching(/^ {2}gap: 19.2 /)]);
    expect(await changes(["holes", 5, "at"], 322.4)).toEqual([expect.stringContaining("=lower + 2*gap + 14,")]);
    expect(await changes(["bore", 1, "diameter"], 16.5)).toEqual([expect.stringMatching(/^ {2}tube: 16.5 /)]);
  });

  it.each([
    ["at: =a + b, diameter: 8.5", "a` or `b"],
    ["at: =L1.at + L1.diameter, diameter: 8.5", "no parameter"],
    ["at: =round(c), diameter: 8.5", "no parameter"],
  ])("says why %s cannot be moved", async (formula, says) => {
    const text = WHISTLE.replace("at: 210.3, diameter: 8.5", formula).replace(
      "tube: 16",
      "tube: 16, a: 200, b: 10, c: 210",
    );
    const { ask, tried } = await opened(text);
    const handle = (await ask({ documentIndex: 0 })).view?.handles.find((each) => each.name === "L2");
    expect(handle?.refused).toContain(says);
    expect(await tried({ path: handle?.path, value: 212 })).toEqual({ edits: [], refused: handle?.refused });
  });
});

describe("hands and bed", () => {
  it("gives the distance of neighbouring fingers and what lies beyond their reach", async () => {
    const { fingers } = await drawn(`${WHISTLE}hands: { reach: 30 }\n`);
    expect(fingers.map(({ apart, far, most }) => [Number(apart.toFixed(1)), far, most])).toEqual([
      [37, true, 30],
      [19.5, false, 30],
      [18.8, false, 30],
      [31.8, true, 30],
    ]);
  });

  it.each([
    ["breakwater-pipes", "The row of pipes"],
    ["lantern-vessel", "The vessel"],
  ])("lays %s on the bed as one piece", async (name, part) => {
    const { bed } = await drawn(example(name));
    expect(bed?.parts).toEqual([{ name: part, length: expect.any(Number), fits: true, words: "fits straight" }]);
    const small = await drawn(example(name).replace(/bed: \[[^\]]*\]/, "bed: [40, 40, 40]"));
    expect(small.bed?.parts[0]).toMatchObject({ fits: false, words: "does not fit" });
  });

  it("lays each part on the bed", async () => {
    const { bed } = await drawn(`${WHISTLE}print: { bed: [200, 200, 200] }\n`);
    expect(bed).toMatchObject({
      sides: [200, 200, 200],
      parts: [{ name: "The tube", fits: false, words: "does not fit" }],
    });
    expect((await drawn(WHISTLE)).bed).toBeUndefined();
  });
});

describe("borewright/response", () => {
  it("draws the impedance with its minimum at the note, and the cut-off of the open holes", async () => {
    const { ask, response } = await opened(WHISTLE);
    const row = (await ask({ documentIndex: 0 })).view?.rows[4];
    const { curve, cutOffHz, strength = 0 } = await response(4);
    const near = curve.filter(([hz]) => Math.abs(hz / (row?.predictedHz ?? 0) - 1) < 0.2);
    const lowest = near.reduce((least, each) => (each[1] < least[1] ? each : least));
    expect(Math.abs(lowest[0] / (row?.predictedHz ?? 0) - 1)).toBeLessThan(0.01);
    expect(strength).toBeGreaterThan(10);
    expect(cutOffHz).toBeGreaterThan(row?.predictedHz ?? 0);
    expect((await response(77)).curve).toEqual([]);
  });
});

describe("borewright/proposal", () => {
  it.each([
    { do: "retune", freedom: "holes" },
    { do: "rekey", to: "A4", by: "print-scale" },
    { do: "rekey", to: "F4", by: "redraw" },
  ])("shows what %o would make of it, and changes nothing", async (change) => {
    const { ask, proposed } = await opened(WHISTLE);
    const { view, edits, says, title, refused } = await proposed(change);
    expect(refused).toBeUndefined();
    expect(title).not.toBe("");
    expect(says[0]).toMatch(/worst note/);
    const after = await drawn(written(WHISTLE, edits));
    expect(view?.rows.map(({ cents }) => cents)).toEqual(after.rows.map(({ cents }) => cents));
    expect((await ask({ documentIndex: 0 })).view?.rows[0]?.cents).not.toBeUndefined();
  });

  it("offers the fixes of a note by their titles, and shows each", async () => {
    const { fixes, proposed, ask } = await opened(WHISTLE);
    const rows = (await ask({ documentIndex: 0 })).view?.rows ?? [];
    const off = rows.findIndex(({ inTune }) => !inTune);
    const { titles } = await fixes(off);
    expect(titles.length).toBeGreaterThan(0);
    const { view } = await proposed({ do: "fix", row: off, title: titles[0] });
    expect(Math.abs(view?.rows[off]?.cents ?? 99)).toBeLessThan(Math.abs(rows[off]?.cents ?? 0));
    expect(await proposed({ do: "fix", row: off, title: "Sing louder" })).toMatchObject({
      edits: [],
      refused: expect.stringContaining("no longer"),
    });
  });

  it("says what prevents it where it cannot be done", async () => {
    // With the foot fixed far too long, no hole brings the lowest note where it should be.
    const fixed = WHISTLE.replace("at: 394.1, diameter: =tube", "at: 700, diameter: =tube, fixed: true");
    const { proposed } = await opened(fixed);
    const { refused = "", says, edits } = await proposed({ do: "retune", freedom: "all" });
    expect(`${refused} ${says.join(" ")}`).toMatch(/station|bore|foot|fixed|Held back/i);
    expect(edits.length === 0 || says.length > 1).toBe(true);
  });

  it.each([{}, { do: "sing" }, { do: "rekey", to: 3, by: "refit" }, null])("refuses %o", async (change) => {
    const { proposed } = await opened(WHISTLE);
    expect((await proposed(change as object)).refused).toMatch(/not a change/);
  });
});

describe("borewright/tryNumber", () => {
  const place = ["holes", 1, "at"];

  it("gives the notes as they would be, and the edit that makes them so", async () => {
    const { ask, tried } = await opened(WHISTLE);
    const before = (await ask({ documentIndex: 0 })).view as BoreViewData;
    const handle = before.handles.find(({ path }) => path.join() === place.join());
    const { view, edits } = await tried({ path: place, value: (handle?.value ?? 0) - 2 });
    const text = applyEdits(
      WHISTLE,
      edits.map(({ start, end, text: put }) => ({ span: { start, end }, text: put })),
    );
    expect((await drawn(text)).rows.map(({ cents }) => cents)).toEqual(view?.rows.map(({ cents }) => cents));
    // The slopes predict it nearly.
    view?.rows.forEach(({ cents }, i) => {
      const foretold = (before.rows[i]?.cents ?? 0) - 2 * (handle?.centsPerMillimetre[i] ?? 0);
      expect(Math.abs((cents ?? 0) - foretold)).toBeLessThan(2);
    });
    expect(text.split("\n").filter((line, i) => line !== WHISTLE.split("\n")[i])).toHaveLength(1);
  });

  it.each([
    ["another version", { version: 9, path: place, value: 200 }, "changed"],
    ["no path", { path: "holes", value: 200 }, "not a number"],
    ["not a number", { path: place, value: "far" }, "not a number"],
    ["a hole beyond the foot", { path: place, value: 9_000 }, ""],
  ])("refuses %s in words", async (_, question, says) => {
    const { tried } = await opened(WHISTLE);
    const { edits, refused } = await tried(question);
    expect(edits).toEqual([]);
    expect(refused).toContain(says);
  });
});
