/** `borewright/make`: solid, drawing and chart as files, made on the thread for long work. Where they go is the client's matter. */
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { CancellationTokenSource, LSPErrorCodes } from "vscode-languageserver/node";
import { workThread } from "../../server/src/language/node/thread.js";
import { MAKE, MAKE_FORMATS, type MakeAnswer, type Makeable } from "../../server/src/protocol/making.js";
import { client, PULLING, URI } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";
import { read3mf, topology } from "../support/mesh.js";

/** Built before the tests are run. */
const longWork = workThread(join(import.meta.dirname, "../../dist/cli.cjs"));

async function answer(what: Makeable, format: string, text = WHISTLE, options = { longWork }): Promise<MakeAnswer> {
  const self = await client(PULLING, options);
  self.open(text);
  return self.connection.sendRequest<MakeAnswer>(MAKE, { uri: URI, documentIndex: 0, what, format });
}
const bytesOf = ({ files }: MakeAnswer, index = 0) => Buffer.from(files[index]?.base64 ?? "", "base64");

describe("making a design", () => {
  it("comes to the solid of each part, and to the sheet that goes with it", async () => {
    const made = await answer("solid", "3mf");
    expect(made.files.map(({ suffix }) => suffix)).toEqual([""]);
    const { objects } = read3mf(bytesOf(made));
    expect(objects.map(({ name }) => name)).toEqual(["body", "block"]);
    for (const { soup } of objects) expect(topology(soup)).toMatchObject({ pieces: 1, openEdges: 0 });
    expect(made.sheet).toContain("Print at 100 %");
    expect(made.sheet).toContain("keep loose ones from small children");
  });

  it("is one file per part in STL, and whatever else can be made has its beginning", async () => {
    const beginnings = { "3mf": "PK", stl: "", pdf: "%PDF-1.", svg: "<?xml" } as const;
    for (const what of Object.keys(MAKE_FORMATS) as Makeable[])
      for (const format of MAKE_FORMATS[what]) {
        const made = await answer(what, format);
        expect(made.refused).toBeUndefined();
        expect(bytesOf(made).toString("latin1").startsWith(beginnings[format])).toBe(true);
        if (format === "stl") expect(made.files.map(({ suffix }) => suffix)).toEqual(["-body", "-block"]);
      }
  });

  it("says why it cannot be made, and where", async () => {
    const text = WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, labium: 1 }\n  windway: { width: 17 }");
    const { files, refused } = await answer("solid", "3mf", text);
    expect(files).toEqual([]);
    expect(refused).toHaveLength(1);
    expect(refused?.[0]?.message).toMatch(/^The windway is 17 mm wide and the bore under it 16 mm/);
    expect(refused?.[0]?.start).toBe(text.indexOf("17 }"));
  });

  it("ends at once when it is cancelled", async () => {
    const self = await client(PULLING, { longWork });
    self.open(WHISTLE);
    const source = new CancellationTokenSource();
    const question = { uri: URI, documentIndex: 0, what: "solid", format: "3mf" };
    const asked = self.connection.sendRequest(MAKE, question, source.token);
    setTimeout(() => source.cancel(), 30);
    await expect(asked).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
  });

  it("understands no other question", async () => {
    const { refused } = await answer("soup" as Makeable, "3mf");
    expect(refused?.[0]?.message).toBe("The request is not understood.");
    expect((await answer("solid", "pdf")).refused).toHaveLength(1);
  });
});
