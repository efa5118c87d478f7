/** A text that was read a moment ago is not worked out again; whatever else its reading depends on counts. */
import { afterEach, describe, expect, it } from "vitest";
import { readDesign } from "../../server/src/document/read.js";
import { speak } from "../../server/src/words/translation.js";
import { fileOf, THREE_HOLES } from "../support/designs.js";

afterEach(() => speak(undefined));

const named = (name: string | number) => `${THREE_HOLES}name: ${name}\n`;

describe("a text that is read again", () => {
  it("is known, also after a few others", () => {
    const first = fileOf(named("again"));
    for (let other = 0; other < 5; other++) fileOf(named(other));
    expect(fileOf(named("again"))).toBe(first);
  });

  it("is forgotten after many others, the one used last at the end", () => {
    const [used, unused] = [fileOf(named("used")), fileOf(named("unused"))];
    for (let other = 0; other < 20; other++) {
      fileOf(named(other));
      expect(fileOf(named("used"))).toBe(used);
    }
    expect(fileOf(named("unused"))).not.toBe(unused);
  });

  it("is another reading in another language", () => {
    const messages = () => fileOf("").documents.flatMap(({ findings }) => findings.map(({ message }) => message));
    const english = messages();
    speak({
      "This file is empty. A design begins with `borewright: 1`; then come `family`, `key`, `mouth`, `bore` and so on.":
        "Leer.",
    });
    expect(messages()).toEqual(["Leer."]);
    speak(undefined);
    expect(messages()).toEqual(english);
  });

  it("is another reading in another syntax", () => {
    const [yaml, json] = [fileOf("name: a"), fileOf("name: a", "json")];
    expect([yaml, json].map(({ syntax }) => syntax)).toEqual(["yaml", "json"]);
    expect(yaml.documents[0]?.findings).not.toEqual(json.documents[0]?.findings);
  });

  it("is a reading of its own where parts of an earlier one are taken over", () => {
    const before = fileOf(named("before"));
    expect(readDesign(named("before"), "yaml", before)).not.toBe(before);
  });

  it("is not kept where it is large", () => {
    const large = `${THREE_HOLES}${"# a remark\n".repeat(6000)}`;
    expect(fileOf(large)).not.toBe(fileOf(large));
  });
});
