/** The npm package alone: what is in it, and a repository of designs reviewed and gated by it. */
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, normalize } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parse } from "yaml";
import packageJson from "../../package.json";
import { WHISTLE } from "../support/designs.js";
import { installPacked, type Packed, ran } from "../support/packed.js";
import { runProgram } from "../support/program.js";

const MENDED = WHISTLE.replace("at: 210.3", "at: 205.3");
const JSON_DESIGN = JSON.stringify({ ...(parse(MENDED) as object), name: "Whistle in JSON" }, null, 2);
const scratch = mkdtempSync(join(tmpdir(), "borewright-packed-"));
const repository = join(scratch, "designs");
let packed: Packed;

const shell = (script: string, env: NodeJS.ProcessEnv = {}) =>
  ran("bash", ["-c", script], { cwd: repository, env: { ...packed.env, ...env } });
const git = (...args: string[]) =>
  ran("git", ["-c", "user.name=Workshop", "-c", "user.email=workshop@example.com", ...args], {
    cwd: repository,
    env: packed.env,
  });
const recipe = (name: string) => readFileSync(join(packed.folder, "recipes", name), "utf8");

beforeAll(() => {
  packed = installPacked(scratch);
  mkdirSync(repository);
  git("init", "-q", "-b", "main");
  writeFileSync(join(repository, "whistle.bore.yaml"), MENDED);
  writeFileSync(join(repository, "other.bore.json"), JSON_DESIGN);
  writeFileSync(join(repository, ".gitattributes"), recipe("git/gitattributes"));
  git("add", ".");
  git("commit", "-q", "-m", "Two whistles");
}, 120_000);
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

describe("the package", () => {
  it("runs from an empty folder, and needs no other", () => {
    const { status, stdout } = ran("npx", ["--no-install", "borewright", "--version"], {
      cwd: packed.home,
      env: process.env,
    });
    expect({ status, stdout }).toEqual({ status: 0, stdout: `${packageJson.version}\n` });
    expect(readdirSync(join(packed.home, "node_modules")).filter((name) => !name.startsWith("."))).toEqual([
      "borewright",
    ]);
  });

  it("has neither tests nor sources in it, and all that the program asks for", () => {
    expect(packed.files.filter((file) => /^(test|server|client|node_modules|\.)/.test(file))).toEqual([]);
    expect(packed.files).toEqual(
      expect.arrayContaining(["dist/cli.cjs", "dist/client.cjs", "LICENSE", "docs/rules/hole-overlap.md"]),
    );
  });

  it("has the notices of the libraries in it", () => {
    expect(packed.files).toContain("dist/THIRD-PARTY-NOTICES.txt");
  });

  it("has no dead link on its pages", () => {
    const pages = packed.files.filter((file) => file.endsWith(".md"));
    const dead = pages.flatMap((page) =>
      [...readFileSync(join(packed.folder, page), "utf8").matchAll(/\]\(([^)\s#]+)[^)]*\)/g)]
        .map(([, target]) => target ?? "")
        .filter((target) => !/^[a-z]+:/.test(target))
        .filter((target) => !existsSync(join(packed.folder, normalize(join(dirname(page), target)))))
        .map((target) => `${page}: ${target}`),
    );
    expect(dead).toEqual([]);
  });

  it("is an extension whose manifest names only what is in it", () => {
    const { icon, main, browser, bin, contributes } = JSON.parse(
      readFileSync(join(packed.folder, "package.json"), "utf8"),
    );
    const steps = contributes.walkthroughs[0].steps as { description: string; media: { markdown: string } }[];
    const language = [
      ...contributes.languages.map((each: { configuration: string }) => each.configuration),
      ...contributes.grammars.map((each: { path: string }) => each.path),
    ];
    for (const file of [icon, main, browser, bin.borewright, ...language, ...steps.map(({ media }) => media.markdown)])
      expect(packed.files).toContain(normalize(file));
    const commands = contributes.commands.map(({ command }: { command: string }) => command);
    expect(steps).toHaveLength(4);
    const words = JSON.parse(readFileSync(join(packed.folder, "package.nls.json"), "utf8"));
    const descriptions = steps.map(({ description }) => words[description.replaceAll("%", "")] as string);
    for (const description of descriptions)
      expect(commands).toContain(/\]\(command:([\w.]+)\)$/.exec(description)?.[1]);
  });

  it("carries its pictures in few colours: they are as large packed as they are", () => {
    const pictures = packed.files.filter((file) => /\.(png|webp)$/.test(file));
    const bytes = pictures.reduce((sum, file) => sum + readFileSync(join(packed.folder, file)).length, 0);
    expect(bytes).toBeLessThan(150_000);
  });

  it("has a picture of at least 128 pixels that is square", () => {
    // PNG, RFC 2083 §11.2.1: width and height stand in the header chunk.
    const png = readFileSync(join(packed.folder, packageJson.icon));
    expect(png.subarray(1, 4).toString("latin1")).toBe("PNG");
    expect(png.readUInt32BE(16)).toBeGreaterThanOrEqual(128);
    expect(png.readUInt32BE(20)).toBe(png.readUInt32BE(16));
  });
});

describe("a repository of designs", () => {
  it("shows a change as one of pitch in git's own diff, YAML and JSON, and a broken design as its text", () => {
    const [, textconv = ""] =
      /diff\.bore\.textconv '(.*)'\n/.exec(readFileSync(join(packed.folder, "docs/review.md"), "utf8")) ?? [];
    git("config", "diff.bore.textconv", textconv);
    writeFileSync(join(repository, "whistle.bore.yaml"), WHISTLE);
    writeFileSync(join(repository, "other.bore.json"), JSON_DESIGN.replace("205.3", "210.3"));
    const diff = git("diff").stdout;
    expect(diff.match(/^-E5 +●○○○○○ .*\d$/gm)).toHaveLength(2);
    expect(diff.match(/^\+E5 +●○○○○○ .* flat$/gm)).toHaveLength(2);
    expect(diff).toMatch(/^-.*at: 205\.3/m);
    writeFileSync(join(repository, "whistle.bore.yaml"), "holes: [");
    expect(git("diff", "--exit-code", "whistle.bore.yaml")).toMatchObject({
      status: 1,
      stdout: expect.stringContaining("+holes: ["),
    });
    git("checkout", "-q", ".");
  });

  it("refuses a commit by which a note leaves its tolerance, by what is staged", () => {
    const hook = join(repository, ".git/hooks/pre-commit");
    writeFileSync(hook, recipe("git/pre-commit"), { mode: 0o755 });
    writeFileSync(join(repository, "whistle.bore.yaml"), WHISTLE);
    git("add", ".");
    writeFileSync(join(repository, "whistle.bore.yaml"), MENDED); // not staged: it does not count
    const refused = git("commit", "-q", "-m", "Move a hole");
    expect(refused.status).toBe(1);
    expect(refused.stderr).toContain("left the tolerance of ±10 cents");
    git("add", ".");
    writeFileSync(
      join(repository, "whistle.bore.yaml"),
      MENDED.replace("name: Test whistle ", "name: Better whistle "),
    );
    git("add", ".");
    expect(git("commit", "-q", "-m", "Another name")).toMatchObject({ status: 0 });
    rmSync(hook);
  });

  it("has its pull requests commented and gated by the workflow", () => {
    const { jobs } = parse(recipe("ci/compare.yml")) as {
      jobs: { compare: { steps: { name?: string; run?: string }[] } };
    };
    const step = (wanted: string) => jobs.compare.steps.find(({ name }) => name === wanted)?.run ?? "";
    const base = git("rev-parse", "HEAD").stdout.trim();
    git("checkout", "-q", "-b", "change");
    writeFileSync(join(repository, "whistle.bore.yaml"), WHISTLE);
    git("commit", "-q", "-a", "-m", "Move a hole");
    expect(shell(step("Compare"), { BASE: base }).status).toBe(1);
    // In place of the service's own program, one that keeps what it is given.
    const stub = join(packed.home, "node_modules/.bin/gh");
    writeFileSync(stub, `#!/bin/sh\nprintf '%s\\n' "$@" > asked; cp comparison.md commented\n`, { mode: 0o755 });
    expect(shell(step("Comment"), { NUMBER: "7", GITHUB_STEP_SUMMARY: join(repository, "summary") }).status).toBe(0);
    expect(readFileSync(join(repository, "asked"), "utf8")).toMatch(/^pr\ncomment\n7\n/);
    const comment = readFileSync(join(repository, "commented"), "utf8");
    expect(comment).toMatch(/^\*\*`Test whistle`\*\* ⚠ .*left the tolerance/);
    expect(comment).toContain("1 design does not change.");
    for (const made of ["asked", "commented", "comparison.md", "summary"]) rmSync(join(repository, made));
    git("checkout", "-q", "main");
  });

  it("is gated by what is new since a baseline, on several threads, with the fix beside the finding", () => {
    const check = (...args: string[]) => shell(`borewright check . --baseline known.json ${args.join(" ")}`);
    expect(check("--update-baseline").status).toBe(0);
    writeFileSync(join(repository, "whistle.bore.yaml"), WHISTLE);
    const { status, stdout } = check("--max-warnings 0", "--threads 2", "--format sarif");
    expect(status).toBe(1);
    const [{ results }] = JSON.parse(stdout).runs;
    expect(results).toHaveLength(1);
    expect(results[0]).toMatchObject({
      ruleId: "pitch/out-of-tune",
      fixes: expect.arrayContaining([expect.anything()]),
    });
    git("checkout", "-q", ".");
    expect(check("--max-warnings 0").status).toBe(0);
    rmSync(join(repository, "known.json"));
  });

  it("is checked by the hooks for the pre-commit framework", () => {
    const hooks = parse(readFileSync(join(import.meta.dirname, "../../.pre-commit-hooks.yaml"), "utf8")) as {
      id: string;
      entry: string;
      files: string;
      language: string;
    }[];
    for (const { entry, files, language } of hooks) {
      expect(language).toBe("node");
      expect("a/whistle.bore.yaml").toMatch(new RegExp(files));
      expect("whistle.yaml").not.toMatch(new RegExp(files));
      expect(shell(entry.includes("compare") ? entry : `${entry} whistle.bore.yaml`).status).toBe(0);
    }
  });
});

describe("the shell", () => {
  const complete = (line: string) =>
    shell(
      `source <(borewright completion bash); COMP_WORDS=(${line} ''); COMP_CWORD=$(( \${#COMP_WORDS[@]} - 1 )); _borewright; echo "\${COMPREPLY[@]}"`,
    )
      .stdout.trim()
      .split(" ");

  it("completes commands, options and their values", () => {
    expect(complete("borewright")).toEqual(expect.arrayContaining(["pitch", "check", "compare", "--help"]));
    expect(complete("borewright compare")).toEqual(expect.arrayContaining(["--format", "--tolerance"]));
    expect(complete("borewright compare --format")).toEqual(expect.arrayContaining(["text", "markdown", "json"]));
    expect(complete("borewright completion")).toEqual(expect.arrayContaining(["bash", "fish"]));
  });

  it("has examples for every command, whose options exist", async () => {
    const program = join(packed.folder, packageJson.bin.borewright);
    const commands = complete("borewright").filter((word) => !word.startsWith("-"));
    for (const command of commands) {
      const help = (await runProgram([command, "--help"], repository, { program })).stdout;
      const examples = [...help.matchAll(/^ {2}(?:source <\()?borewright (.*)$/gm)].map(([, rest]) => rest ?? "");
      expect(examples.length, `${command} has none in server/src/cli/examples.ts`).toBeGreaterThan(0);
      expect(help).toMatch(/^Exit status: 0 .*, 2 /m);
      for (const example of examples) {
        expect(example.split(/[ )]/)[0]).toBe(command);
        for (const [flag] of example.matchAll(/(?<= )--[a-z-]+/g)) expect(help).toContain(`${flag} `);
      }
    }
  });
});

describe("the manual page", () => {
  const page = () => readFileSync(join(packed.folder, packageJson.man[0] ?? ""), "utf8");

  it("is where the manifest says, and has every command with its options and examples", () => {
    // man(7): a minus that stands for itself is written \\-.
    const plain = page()
      .replaceAll("\\-", "-")
      .replaceAll(/\\f[BIR]/g, "");
    const commands = [...plain.matchAll(/^\.SS (\S+)/gm)].map(([, name]) => name ?? "");
    expect(commands).toEqual(expect.arrayContaining(["new", "pitch", "check", "compare", "serve"]));
    expect(commands).not.toContain("man-page");
    const help = shell("borewright check --help").stdout;
    for (const [flag] of help.matchAll(/(?<=^ {2}.*)--[a-z-]+/gm)) expect(plain).toContain(flag);
    expect(plain).toContain("\nborewright check designs --watch\n");
  });

  it("is put where man looks for it by a global installation", () => {
    const prefix = join(scratch, "global");
    const args = ["install", "--global", "--offline", "--no-audit", "--no-fund", "--prefix", prefix, packed.tarball];
    ran("npm", args, { cwd: scratch, env: process.env });
    expect(readFileSync(join(prefix, "share/man/man1/borewright.1"), "utf8")).toBe(page());
  });

  const groff = ran("groff", ["--version"], { cwd: tmpdir(), env: process.env }).status === 0;
  it.skipIf(!groff)("is set without a warning", () => {
    const file = join(packed.folder, packageJson.man[0] ?? "");
    const { stdout, stderr } = ran("groff", ["-man", "-Tutf8", "-Kutf8", "-ww", file], {
      cwd: tmpdir(),
      env: process.env,
    });
    expect(stderr).toBe("");
    // Lines are justified: any number of spaces.
    expect(stdout.replaceAll(/\s+/g, " ")).toContain("to leave out of folders and patterns");
  });
});

describe("other editors", () => {
  it.each(readdirSync(join(import.meta.dirname, "../../recipes/editors")))(
    "%s starts the server by its command",
    (file) => {
      expect(recipe(`editors/${file}`)).toMatch(/"borewright"[\s\S]{0,20}"serve",? "--stdio"/);
    },
  );

  const nvim = ran("nvim", ["--version"], { cwd: tmpdir(), env: process.env }).status === 0;
  it.skipIf(!nvim)("Neovim shows the findings of a design", () => {
    const look = `
vim.cmd("source ${join(packed.folder, "recipes/editors/neovim.lua")}")
vim.cmd("edit whistle.bore.yaml")
vim.wait(20000, function() return #vim.diagnostic.get(0) > 0 end, 50)
for _, each in ipairs(vim.diagnostic.get(0)) do io.stdout:write(tostring(each.code) .. ": " .. each.message .. "\\n") end
vim.cmd("qa!")`;
    writeFileSync(join(scratch, "look.lua"), look);
    writeFileSync(join(repository, "whistle.bore.yaml"), WHISTLE);
    const { stdout, stderr } = ran(
      "nvim",
      ["--headless", "--clean", "-n", "-c", `luafile ${join(scratch, "look.lua")}`],
      {
        cwd: repository,
        env: { ...packed.env, HOME: scratch, XDG_STATE_HOME: scratch },
      },
    );
    expect(`${stdout}${stderr}`).toContain("pitch/out-of-tune");
  });

  const emacsLook = `
(require 'package) (package-activate-all) ; which --batch leaves out
(unless (locate-library "eglot") (kill-emacs 9))
(load "RECIPE" nil t)
(find-file "whistle.bore.yaml")
(run-hooks 'post-command-hook) ; as after a command: --batch has none
(let ((until (+ (float-time) 20)))
  (while (and (< (float-time) until) (null (flymake-diagnostics)))
    (accept-process-output nil 0.1)
    (when (eglot-current-server) (flymake-start))))
(dolist (each (flymake-diagnostics)) (princ (format "%s\\n" (flymake-diagnostic-text each))))`;
  const emacs = ran("emacs", ["--version"], { cwd: tmpdir(), env: process.env }).status === 0;
  it.skipIf(!emacs)("Emacs shows the findings of a design", (test) => {
    writeFileSync(
      join(scratch, "look.el"),
      emacsLook.replace("RECIPE", join(packed.folder, "recipes/editors/emacs.el")),
    );
    writeFileSync(join(repository, "whistle.bore.yaml"), WHISTLE);
    const { status, stdout, stderr } = ran("emacs", ["--batch", "-l", join(scratch, "look.el")], {
      cwd: repository,
      env: { ...packed.env, HOME: scratch },
    });
    if (status === 9) return test.skip("an Emacs without Eglot");
    expect(`${stdout}${stderr}`).toContain("[pitch/out-of-tune]: E5 sounds");
  });
});
