/** What is remembered of open designs, and for how long. */
import { describe, expect, it } from "vitest";
import { drained } from "../../server/src/acoustics/steps.js";
import { fileNameOf, isDesignUri } from "../../server/src/language/designContext.js";
import { Designs } from "../../server/src/language/designs.js";
import { INITIAL_SETTINGS, type Settings } from "../../server/src/language/settings.js";
import { WHISTLE } from "../support/designs.js";
import { FULL_CLIENT, YAML_URI } from "../support/language.js";

const opened = (version: number, text: string, uri = YAML_URI) => ({ uri, version, getText: () => text });

function designs(settings: () => Settings = () => INITIAL_SETTINGS) {
  return new Designs(settings, () => FULL_CLIENT);
}

function analysisOf(all: Designs, version: number, text: string) {
  const design = drained(all.open(opened(version, text)));
  const document = design?.file.documents[0];
  if (design === undefined || document === undefined) throw new Error("no design");
  return design.analysis(document);
}

describe("Designs", () => {
  it("reads a version once", () => {
    const all = designs();
    expect(drained(all.open(opened(1, WHISTLE)))).toBe(drained(all.open(opened(1, WHISTLE))));
    expect(drained(all.open(opened(2, WHISTLE)))).not.toBe(drained(all.open(opened(1, WHISTLE))));
  });

  it("analyses again when a dimension changes, but not for a comment", () => {
    const all = designs();
    const first = analysisOf(all, 1, WHISTLE);
    expect(analysisOf(all, 2, `# a note to myself\n${WHISTLE}`)).toBe(first);
    const wider = analysisOf(all, 3, WHISTLE.replace("diameter: 8.5", "diameter: 9"));
    expect(wider).not.toBe(first);
    expect(wider.fingerings.map(({ predictedHz }) => predictedHz)).not.toEqual(
      first.fingerings.map(({ predictedHz }) => predictedHz),
    );
    expect(analysisOf(all, 4, WHISTLE)).toBe(first);
  });

  it("analyses again when a setting changes that matters", () => {
    let settings: Settings = INITIAL_SETTINGS;
    const all = designs(() => settings);
    const text = WHISTLE.replace("air: { temperature: 22, humidity: 60 }\n", "");
    const cold = analysisOf(all, 1, text);
    settings = { ...settings, analysis: { ...settings.analysis, temperature: settings.analysis.temperature + 5 } };
    const warm = analysisOf(all, 1, text);
    expect(warm.fingerings[0]?.predictedHz).toBeGreaterThan(
      cold.fingerings[0]?.predictedHz ?? Number.POSITIVE_INFINITY,
    );
  });

  it("forgets a file that is closed", () => {
    const all = designs();
    drained(all.open(opened(1, WHISTLE)));
    expect(all.size).toBe(1);
    all.close(YAML_URI);
    expect(all.size).toBe(0);
  });

  it("keeps the analyses of the files asked about last, not of every open one", () => {
    const all = designs();
    const analysis = (i: number) => {
      const design = drained(all.open(opened(1, WHISTLE, `file:///workshop/${i}.bore.yaml`)));
      const [document] = design?.file.documents ?? [];
      return document && design?.analysis(document);
    };
    const [first, second] = [analysis(0), analysis(1)];
    for (let i = 2; i < 50; i++) expect(analysis(i)).toBeDefined();
    // Asked about again, the first is not the one to go when there is one more.
    expect(analysis(0)).toBe(first);
    expect(analysis(50)).toBeDefined();
    expect(analysis(0)).toBe(first);
    expect(analysis(1)).not.toBe(second);
    expect(analysis(1)).toEqual(second);
    expect(all.size).toBe(51);
  });

  it("ignores any other file", () => {
    const all = designs();
    expect(drained(all.open(opened(1, WHISTLE, "file:///workshop/notes.yaml")))).toBeUndefined();
    expect(drained(all.open(undefined))).toBeUndefined();
    expect(all.size).toBe(0);
  });
});

describe("isDesignUri", () => {
  it.each([
    "file:///c%3A/My%20Flutes/d.bore.yaml",
    "file:///workshop/a.bore.yml",
    "file:///workshop/A.BORE.JSON",
    "untitled:new.bore.yaml",
    "vscode-vfs://host/repo/fl%C3%B6te.bore.json?ref=main#top",
    "file:///odd/100%25/50%.bore.yaml",
  ])("knows %s", (uri) => expect(isDesignUri(uri)).toBe(true));

  it.each(["file:///a.yaml", "file:///x.bore.yaml/readme.md", "file:///bore.yaml", "untitled:Untitled-1"])(
    "leaves %s alone",
    (uri) => expect(isDesignUri(uri)).toBe(false),
  );

  it("decodes a name where it can be", () => {
    expect(fileNameOf("file:///w/fl%C3%B6te.bore.yaml")).toBe("flöte.bore.yaml");
    expect(fileNameOf("file:///w/50%.bore.yaml")).toBe("50%.bore.yaml");
  });
});
