/** Holds the arrows of DEVELOPERS.md: imports go one way, downward through the layers. */
const layers = [
  "words",
  "escape",
  "files",
  "music",
  "acoustics",
  "sound",
  "survey",
  "instrument",
  "document",
  "design",
  "listen",
  "make",
  "review",
  "protocol",
  "cli|language",
];

/** A layer may import itself and what lies below it; `acoustics` and `music` are the floor and know nothing of each other. */
const upward = layers.flatMap((layer, i) => {
  const above = layers.slice(i + 1);
  return above.length === 0
    ? []
    : [
        {
          name: `${layer}-imports-nothing-above`,
          severity: "error",
          from: { path: `^server/src/${layer}/` },
          to: { path: `^server/src/(${above.join("|")})/` },
        },
      ];
});

module.exports = {
  forbidden: [
    ...upward,
    {
      name: "acoustics-knows-no-music",
      severity: "error",
      from: { path: "^server/src/acoustics/" },
      to: { path: "^server/src/music/" },
    },
    {
      name: "shell-on-top",
      comment: "Nothing imports the program.",
      severity: "error",
      from: { path: "^server/src/" },
      to: { path: "^server/src/cli\\.ts$" },
    },
    {
      name: "protocol-only-in-language",
      comment: "Only the language features and the server know the protocol.",
      severity: "error",
      from: { path: "^server/src/", pathNot: "^server/src/language/" },
      to: { path: "vscode-(languageserver|jsonrpc)", pathNot: "vscode-languageserver-textdocument" },
    },
    {
      name: "text-libraries-only-in-document",
      severity: "error",
      from: { path: "^server/src/", pathNot: "^server/src/document/" },
      to: { path: "node_modules/(yaml|jsonc-parser)/" },
    },
    {
      name: "programs-only-from-the-command-line",
      comment: "Git is run where somebody typed the command; in an editor, a workspace may be anybody's.",
      severity: "error",
      from: { path: "^server/src/", pathNot: "^server/src/cli/" },
      to: { path: "^(node:)?child_process$" },
    },
    {
      name: "a-browser-has-no-node",
      comment:
        "What runs in a browser reaches nothing of Node: that is in language/node, language/workspace, files, cli and client/src/node.",
      severity: "error",
      from: { path: "^(server/src/language|client/src)/browser/" },
      to: {
        path: "^(node:)?(fs|path|os|url|crypto|events|module|timers|worker_threads|child_process|util|stream)(/|$)",
        reachable: true,
      },
    },
    {
      name: "client-is-apart",
      comment: "Client and server meet in the protocol and in the words, not in code.",
      severity: "error",
      from: { path: "^client/" },
      to: { path: "^server/", pathNot: "^server/src/(protocol|words)/" },
    },
    {
      name: "no-cycles",
      comment: "Not of types either: what two files share stands in a third.",
      severity: "error",
      from: {},
      to: { circular: true },
    },
    {
      name: "resolvable",
      comment: "`vscode` is the editor itself; `sarif` is a package of types.",
      severity: "error",
      from: {},
      to: { couldNotResolve: true, pathNot: "^(vscode|sarif)$" },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "node", "require", "default", "types"],
      mainFields: ["module", "main", "types"],
      extensions: [".ts", ".tsx", ".js", ".mjs", ".cjs", ".json", ".d.ts"],
    },
  },
};
