/** `borewright solid` as its users meet it; runs the built program. */
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { WHISTLE } from "../support/designs.js";
import { read3mf, topology } from "../support/mesh.js";
import { runProgram } from "../support/program.js";

const DIST = join(import.meta.dirname, "../../dist");
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "borewright solid ä "));
  // As the packed program has it: the folder dist and nothing else of ours.
  cpSync(DIST, join(folder, "dist"), { recursive: true, filter: (name) => !name.endsWith(".map") });
  writeFileSync(join(folder, "whistle.bore.yaml"), WHISTLE);
  writeFileSync(
    join(folder, "jointed.bore.yaml"),
    WHISTLE.replace("  - { at: 394.1", "  - { at: 180, diameter: =tube, joint: true }\n  - { at: 394.1"),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: string[]) => runProgram(args, folder, { program: join(folder, "dist", "cli.cjs") });
const files = () => readdirSync(folder).filter((name) => /\.(3mf|stl|tmp)$/.test(name));

describe("borewright solid", () => {
  it("writes one package, and says how to print it, assemble it and what to mind", async () => {
    const { status, stdout, stderr } = await run("solid", "whistle.bore.yaml", "-o", "out/whistle.3mf");
    expect({ status, stderr }).toEqual({ status: 0, stderr: "Written: out/whistle.3mf\n" });
    const { objects } = read3mf(readFileSync(join(folder, "out/whistle.3mf")));
    expect(objects.map(({ name }) => name)).toEqual(["body", "block"]);
    for (const { soup } of objects) expect(topology(soup)).toMatchObject({ pieces: 1, openEdges: 0 });
    expect(stdout).toMatch(/^Test whistle$/m);
    expect(stdout).toMatch(/^ {2}body: 22 × 22 × 421\.\d mm, upright/m);
    expect(stdout).toContain("Print at 100 %");
    for (const word of ["food contact", "Ventilate", "swallowed", "Local rules"]) expect(stdout).toContain(word);
  });

  it("writes an STL file for each part, and data for programs", async () => {
    const { status, stdout } = await run("solid", "whistle.bore.yaml", "-o", "out/whistle.stl", "--json");
    expect(status).toBe(0);
    const { written, parts, cautions } = JSON.parse(stdout);
    expect(written).toEqual(["out/whistle-body.stl", "out/whistle-block.stl"]);
    expect(readFileSync(join(folder, "out/whistle-body.stl")).length).toBe(84 + 50 * parts[0].triangles);
    expect(cautions.length).toBeGreaterThan(4);
  });

  it("refuses what cannot be made, each reason with its place, and writes nothing", async () => {
    const { status, stdout, stderr } = await run("solid", "jointed.bore.yaml", "-o", "jointed.3mf");
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toMatch(/^jointed\.bore\.yaml: cannot be made as a solid:$/m);
    expect(stderr).toMatch(
      /^jointed\.bore\.yaml:17:\d+: error: L1 at 173\.3 mm would go through the joint.*\[solid\/no-room\]$/m,
    );
    expect(files()).toEqual([]);
  });

  it.each([
    [[], "-o: is missing"],
    [["-o", "whistle.obj"], "whistle.obj: end its name in .3mf"],
    [["-o", "whistle.3mf", "--instrument", "2"], "has no instrument 2"],
  ])("refuses the options %j", async (options, words) => {
    const { status, stderr } = await run("solid", "whistle.bore.yaml", ...options);
    expect(status).toBe(2);
    expect(stderr).toContain(words);
    expect(files()).toEqual([]);
  });

  it("makes nothing from a design with faults", async () => {
    writeFileSync(join(folder, "broken.bore.yaml"), WHISTLE.replace("at: 210.3", "at: =nowhere"));
    const { status, stderr } = await run("solid", "broken.bore.yaml", "-o", "broken.3mf");
    expect(status).toBe(2);
    expect(stderr).toMatch(/broken\.bore\.yaml:\d+:\d+: error: There is no value called `nowhere`/);
    expect(files()).toEqual([]);
  });
});

describe("borewright draw and chart", () => {
  it("write a PDF file with all sheets, or an SVG file for each", async () => {
    expect(await run("draw", "whistle.bore.yaml", "-o", "paper/whistle.pdf")).toMatchObject({ status: 0, stdout: "" });
    expect(readFileSync(join(folder, "paper/whistle.pdf"), "latin1").slice(0, 8)).toBe("%PDF-1.4");
    const { status, stderr } = await run("draw", "whistle.bore.yaml", "-o", "paper/whistle.svg", "--paper", "A3");
    expect(status).toBe(0);
    expect(stderr).toMatch(/^Written: paper\/whistle\.svg\nWritten: paper\/whistle-2\.svg/);
    expect(readFileSync(join(folder, "paper/whistle.svg"), "utf8")).toContain('width="420mm" height="297mm"');
    expect((await run("chart", "whistle.bore.yaml", "-o", "paper/chart.svg", "--cents")).status).toBe(0);
    expect(readFileSync(join(folder, "paper/chart.svg"), "utf8")).toContain("Register 2");
  });

  it.each([
    [["draw", "whistle.bore.yaml"], "-o: is missing"],
    [["chart", "whistle.bore.yaml", "-o", "chart.png"], "end its name in .svg or .pdf"],
    [["draw", "broken.bore.yaml", "-o", "broken.svg"], "There is no value called `nowhere`"],
  ])("refuse %j", async (args, words) => {
    writeFileSync(join(folder, "broken.bore.yaml"), WHISTLE.replace("at: 210.3", "at: =nowhere"));
    const { status, stderr } = await run(...args);
    expect(status).toBe(2);
    expect(stderr).toContain(words);
  });
});
