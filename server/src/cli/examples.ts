/** What `--help` says below the options: examples, and what the exit status means. */
import type { Command } from "commander";

interface More {
  readonly examples: readonly string[];
  /** Of 0 and 1, where they mean more than having gone well. */
  readonly status?: string;
}

const MORE: Readonly<Record<string, More>> = {
  new: {
    examples: [
      "borewright new whistle --key D5 --bore 14 --wall 1 -o mine.bore.yaml",
      "borewright new notch-flute --key G4 --hand child > mine.bore.yaml",
    ],
  },
  survey: {
    examples: [
      "borewright survey whistle.stl -o whistle.bore.yaml",
      "borewright survey head.stl body.stl --unit in --name 'Old flute' > flute.bore.yaml",
    ],
  },
  pitch: {
    examples: ["borewright pitch whistle.bore.yaml", "borewright pitch --bands --air-temperature 26 whistle.bore.yaml"],
  },
  check: {
    examples: [
      "borewright check designs",
      "borewright check designs --fail-on warning --rule print/wall-lines=off",
      "borewright check . --format sarif > findings.sarif",
      "borewright check . --baseline known.json --update-baseline",
      "borewright check designs --watch",
    ],
    status: "0 nothing at or above --fail-on, 1 something",
  },
  rekey: {
    examples: [
      "borewright rekey whistle.bore.yaml --to F4",
      "borewright rekey whistle.bore.yaml --to F4 --by refit -o whistle-in-f.bore.yaml",
      "borewright rekey whistle.bore.yaml --to D4 --by refit --growth    # a wider bore for a longer one",
      "borewright rekey whistle.bore.yaml --to D4,F4,A4 --by redraw -o family",
      "borewright rekey whistle.bore.yaml --table",
    ],
  },
  scale: {
    examples: [
      "borewright scale whistle.bore.yaml 125 110",
      "borewright scale whistle.bore.yaml --to F4,E4",
      "borewright scale --from A4 --to F4",
      "borewright scale A4 125 --body bell",
    ],
  },
  retune: {
    examples: [
      "borewright retune whistle.bore.yaml --keep-bore --write",
      "borewright retune whistle.bore.yaml -o tuned.bore.yaml",
    ],
  },
  response: {
    examples: ["borewright response whistle.bore.yaml", "borewright response whistle.bore.yaml --curve G4 > g4.csv"],
  },
  fingerings: {
    examples: [
      "borewright fingerings whistle.bore.yaml",
      "borewright fingerings whistle.bore.yaml --notes G#5,A5 --most 5",
    ],
  },
  calibrate: {
    examples: ["borewright calibrate whistle.bore.yaml", "borewright calibrate whistle.bore.yaml --write"],
  },
  bench: {
    examples: [
      "borewright bench whistle.bore.yaml --draw-flat --write",
      "borewright bench whistle.bore.yaml --temperature 19",
      "borewright bench whistle.bore.yaml --done 2 --write",
    ],
  },
  solid: {
    examples: ["borewright solid whistle.bore.yaml -o whistle.3mf", "borewright solid whistle.bore.yaml -o parts.stl"],
  },
  draw: {
    examples: [
      "borewright draw whistle.bore.yaml -o whistle.pdf",
      "borewright draw whistle.bore.yaml -o whistle.svg --paper A3",
    ],
  },
  chart: {
    examples: [
      "borewright chart whistle.bore.yaml -o chart.pdf",
      "borewright chart whistle.bore.yaml -o chart.svg --cents",
    ],
  },
  listen: {
    examples: ["borewright listen take.wav", "borewright listen take.wav --design whistle.bore.yaml --write"],
    status: "0 every note was matched, 1 some are in question and left out",
  },
  correct: {
    examples: [
      "borewright correct whistle.bore.yaml take.wav --temperature 22 -o whistle-2.bore.yaml",
      "borewright correct whistle-2.bore.yaml --earlier whistle.bore.yaml -o whistle-3.bore.yaml",
      "borewright correct whistle.bore.yaml --calibrate-only --write",
    ],
  },
  compare: {
    examples: [
      "borewright compare whistle.bore.yaml whistle-2.bore.yaml",
      "borewright compare HEAD whistle.bore.yaml",
      "borewright compare HEAD~3:designs/whistle.bore.yaml designs/whistle.bore.yaml",
      "borewright compare main designs --format markdown > comment.md",
    ],
    status: "0 no note left its tolerance, 1 one did or is no longer predicted",
  },
  serve: { examples: ["borewright serve --stdio"] },
  completion: { examples: ["source <(borewright completion bash)", "borewright completion fish | source"] },
};

export const ROOT_STATUS =
  "Exit status: 0 success, 1 as each command says, 2 unusable input or command line, or an internal error.";

/** The help of a command: examples, and its exit status in a line. */
export function said(command: Command): { readonly examples: readonly string[]; readonly status: string } {
  const { examples, status = "0 success" } = MORE[command.name()] ?? { examples: [] };
  return { examples, status: `Exit status: ${status}, 2 unusable input or command line.` };
}

/** Adds them to the help of every command. */
export function addExamples(root: Command): void {
  root.addHelpText("after", `\n${ROOT_STATUS}`);
  for (const command of root.commands) {
    const { examples, status } = said(command);
    const lines = examples.length === 0 ? [] : ["", "Examples:", ...examples.map((example) => `  ${example}`)];
    command.addHelpText("after", [...lines, "", status].join("\n"));
  }
}
