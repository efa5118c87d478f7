/** `borewright completion SHELL`: completion of commands, options and their values, made from the commands as they are. */
import type { Command, Option } from "commander";

export const SHELLS = ["bash", "fish"] as const;
export type Shell = (typeof SHELLS)[number];

/** The script to be sourced. Names come from our own commands alone. */
export function completionScript(root: Command, shell: Shell): readonly string[] {
  return shell === "bash" ? bash(root) : fish(root);
}

/** Those that the help lists, but for the help itself. */
export function shownCommands(root: Command): readonly Command[] {
  const { commands } = root;
  return root
    .createHelp()
    .visibleCommands(root)
    .filter((command) => commands.includes(command));
}

function visibleOptions(command: Command): readonly Option[] {
  return command.createHelp().visibleOptions(command);
}

/** What may follow a command: its flags, and the words that its arguments can be. */
function wordsOf(command: Command): string {
  const words = command.registeredArguments.flatMap(({ argChoices }) => argChoices ?? []);
  const flags = visibleOptions(command).flatMap(({ short, long }) => [short, long]);
  return [...words, ...flags.filter((flag) => flag !== undefined)].join(" ");
}

/** The word under the cursor, the one before it, and the command. */
const BASH_WORDS = [
  ["current", "COMP_CWORD"],
  ["before", "COMP_CWORD-1"],
  ["command", "1"],
]
  .map(([name, index]) => `${name}="\${COMP_WORDS[${index}]}"`)
  .join(" ");

function bash(root: Command): readonly string[] {
  const names = shownCommands(root).map((command) => command.name());
  const values = shownCommands(root).flatMap((command) =>
    visibleOptions(command).flatMap(({ long, argChoices }) =>
      argChoices === undefined ? [] : [`    ${command.name()}:${long}) words="${argChoices.join(" ")}";;`],
    ),
  );
  return [
    "_borewright() {",
    `  local ${BASH_WORDS} words=""`,
    '  if [ "$COMP_CWORD" -eq 1 ]; then',
    `    words="${names.join(" ")} --help --version"`,
    "  else",
    '  case "$command:$before" in',
    ...values,
    '    *) case "$command" in',
    ...shownCommands(root).map((command) => `      ${command.name()}) words="${wordsOf(command)}";;`),
    "    esac;;",
    "  esac",
    "  fi",
    '  COMPREPLY=($(compgen -W "$words" -- "$current"))',
    "}",
    "complete -o bashdefault -o default -F _borewright borewright",
  ];
}

function fish(root: Command): readonly string[] {
  const quoted = (text: string) => `'${text.replace(/[\\']/g, "\\$&")}'`;
  const inside = (name: string) => `complete -c borewright -n '__fish_seen_subcommand_from ${name}'`;
  const chosen = (choices: readonly string[]) => `-x -a ${quoted(choices.join(" "))}`;
  return shownCommands(root).flatMap((command) => {
    const name = command.name();
    const words = command.registeredArguments.flatMap(({ argChoices }) => argChoices ?? []);
    const options = visibleOptions(command).map(({ short, long, description, argChoices, required, optional }) =>
      [
        inside(name),
        ...(long === undefined ? [] : [`-l ${long.slice(2)}`]),
        ...(short === undefined ? [] : [`-s ${short.slice(1)}`]),
        ...(argChoices !== undefined ? [chosen(argChoices)] : required || optional ? ["-r"] : []),
        `-d ${quoted(description)}`,
      ].join(" "),
    );
    return [
      `complete -c borewright -n __fish_use_subcommand -a ${name} -d ${quoted(command.description())}`,
      ...(words.length === 0 ? [] : [`${inside(name)} ${chosen(words)}`]),
      ...options,
    ];
  });
}
