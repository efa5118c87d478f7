/** One function for each place that text is shown in. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plainText } from "../../client/src/plainText.js";
import { githubLine } from "../../server/src/escape/githubLine.js";
import { jsonText } from "../../server/src/escape/json.js";
import { label } from "../../server/src/escape/label.js";
import { escapeMarkdown, markdownCode, unescapeMarkdown } from "../../server/src/escape/markdown.js";
import { sarifMessage } from "../../server/src/escape/sarifMessage.js";
import { table } from "../../server/src/escape/table.js";
import { terminalLine, terminalText } from "../../server/src/escape/terminal.js";
import { hostileText, STEERING } from "../support/hostileText.js";

/** Letters and signs of the trade stay as they are, whatever the script. */
const PLAIN = "Möwe 笛 ناي שקט नी‍ल 🎵 ●○◐ ±5 ¢ − → F♯4 a%b c:d e,f";

describe("a terminal", () => {
  it("shows control characters by number, and everything else as it is", () => {
    expect(terminalLine("a\u001b[31mb\u0007\u009b\u007f\u202e\u2028\r\n\tc")).toBe(
      "a\\u{1b}[31mb\\u{7}\\u{9b}\\u{7f}\\u{202e}\\u{2028}\\u{d}\\u{a}\\u{9}c",
    );
    expect(terminalLine(PLAIN)).toBe(PLAIN);
    expect(terminalText("a: 1\r\n\tb\n\u001b")).toBe("a: 1\n\tb\n\\u{1b}");
  });

  it("counts what it shows, so that columns stay columns", () => {
    const rows = table(
      ["a", "b"],
      ["left", "left"],
      [
        ["\u001b", "1"],
        ["●", "2"],
      ],
    );
    expect(rows).toEqual(["a       b", "\\u{1b}  1", "●       2"]);
  });

  it("never passes a command to the runner of a workflow", () => {
    expect(terminalLine("::error::x")).toBe("\\u{3a}:error::x");
    expect(terminalLine("  ::error::x")).toBe("  \\u{3a}:error::x");
    expect(terminalLine("a ##[error]x")).toBe("a \\u{23}#[error]x");
    expect(terminalLine("a::b")).toBe("a::b");
  });
});

describe("a workflow line", () => {
  // "Workflow commands for GitHub Actions" (docs.github.com) and the toolkit's own escapes: % \r \n, in properties : and , too.
  it("escapes as the runner reads", () => {
    expect(githubLine("error", { file: "a,b:c%\r\n.yaml", line: 3 }, "50 %: a,\r\nb\u001b")).toBe(
      "::error file=a%2Cb%3Ac%25%0D%0A.yaml,line=3::50 %25: a,%0D%0Ab\\u{1b}",
    );
    expect(githubLine("error", { file: "a" }, PLAIN.replace("%", ""))).toContain(PLAIN.replace("%", ""));
  });
});

describe("data", () => {
  it("reads back as the same text, and has no raw control", () => {
    fc.assert(
      fc.property(hostileText, (text) => {
        const written = jsonText({ text, in: [1] });
        expect(JSON.parse(written)).toEqual({ text, in: [1] });
        expect(written.replaceAll("\n", "")).not.toMatch(STEERING);
        expect(written).not.toContain("##[");
      }),
    );
  });
});

describe("a SARIF message", () => {
  // OASIS SARIF 2.1.0, §3.11.5 (placeholders) and §3.11.6 (embedded links).
  it("has no placeholder and no link", () => {
    expect(sarifMessage("{0} of {wall}")).toBe("{{0}} of {{wall}}");
    expect(sarifMessage("see [here](1)")).toBe("see \\[here\\](1)");
    expect(sarifMessage("see [here\\](1)")).toBe("see \\[here\\\\\\](1)");
    expect(sarifMessage("holes[2].at is 3\n")).toBe("holes[2].at is 3\\u{{a}}");
  });
});

describe("Markdown", () => {
  it("has nothing but text of it, which a plain client gets back", () => {
    const text = "*a* [b](c) `d` <e> &amp; https://f www.g h@i | # $x$ ~~j~~";
    expect(unescapeMarkdown(escapeMarkdown(text))).toBe(text);
    expect(escapeMarkdown("- a")).toBe("\\- a");
    expect(escapeMarkdown("https://f www.g.h")).toBe("https\\://f www\\.g.h");
    expect(escapeMarkdown("a\n\n# b\u001b")).toBe("a \\# b\\\\u\\{1b\\}");
    expect(markdownCode("a`b\n\n[c](d)")).toBe("`a'b [c](d)`");
  });
});

describe("one line in an editor", () => {
  it.each([
    ["the server's", label],
    ["the client's", plainText],
  ])("has no link, no icon and no control: %s", (_, shown) => {
    expect(shown("[L2](command:x) $(trash)\n\nnext\u001b")).toBe("[L2] (command:x) $ (trash) next\\u{1b}");
    expect(shown(PLAIN)).toBe(PLAIN);
    fc.assert(
      fc.property(hostileText, (text) => {
        expect(shown(text)).not.toMatch(STEERING);
        expect(shown(text)).not.toMatch(/\]\(|\$\(/);
        expect(shown(shown(text))).toBe(shown(text));
      }),
    );
  });
});
