/** The manual page of the program, made from the commands as they are, in the macros of man(7). */
import type { Argument, Command, Option } from "commander";
import { shownCommands } from "./completion.js";
import { ROOT_STATUS, said } from "./examples.js";

/** @param version as the foot of the page has it */
export function manPage(root: Command, version: string): readonly string[] {
  return [
    // Without a date: the same sources make the same page.
    `.TH BOREWRIGHT 1 "" "borewright ${version}" "User Commands"`,
    ".SH NAME",
    `borewright \\- ${text(root.description())}`,
    ".SH SYNOPSIS",
    ".B borewright",
    ".I command",
    "[options]",
    ".SH COMMANDS",
    ...shownCommands(root).flatMap(section),
    ".SH EXIT STATUS",
    text(ROOT_STATUS),
    ".SH ENVIRONMENT",
    ...tagged(bold("BOREWRIGHT_DEBUG"), "If set, a fault of the program is shown with its place in the code."),
    ...tagged(bold("NO_COLOR"), "If set and not empty, there is no colour."),
    ...tagged(bold("FORCE_COLOR"), "If set and not 0, there is colour without a terminal, too."),
    ".SH FILES",
    ...tagged(bold(".borewrightignore"), "What to leave out of folders and patterns, written like git's .gitignore."),
  ];
}

function section(command: Command): readonly string[] {
  const { examples, status } = said(command);
  return [
    [".SS", bold(command.name()), ...command.registeredArguments.map(argumentName)].join(" "),
    sentence(command.description()),
    ...command.registeredArguments.flatMap((each) =>
      tagged(argumentName(each), withChoices(each.description, each.argChoices, each.defaultValue)),
    ),
    ...command
      .createHelp()
      .visibleOptions(command)
      .flatMap((option) =>
        tagged(flags(option), withChoices(option.description, option.argChoices, option.defaultValue)),
      ),
    ".PP",
    "Examples:",
    ".PP",
    ".EX",
    ...examples.map((example) => text(example)),
    ".EE",
    ".PP",
    text(status),
  ];
}

function tagged(term: string, description: string): readonly string[] {
  return [".TP", term, sentence(description)];
}

function argumentName(argument: Argument): string {
  const name = `${text(argument.name())}${argument.variadic ? "\\&..." : ""}`;
  return argument.required ? `\\fI${name}\\fR` : `[\\fI${name}\\fR]`;
}

/** `-o, --output <file>`: what is typed as it is in bold, what stands for something in italics. */
function flags({ flags: written }: Option): string {
  return written
    .split(/([<[].*[>\]])/)
    .map((part, i) => (i % 2 === 1 ? `\\fI${text(part.slice(1, -1))}\\fR` : part.trim() === "" ? part : bold(part)))
    .join("");
}

function withChoices(description: string, choices: readonly string[] | undefined, standard: unknown): string {
  const more = [
    ...(choices === undefined ? [] : [`one of ${choices.join(", ")}`]),
    ...(standard === undefined || standard === false ? [] : [`default ${standard}`]),
  ];
  return more.length === 0 ? description : `${description} (${more.join("; ")})`;
}

function sentence(words: string): string {
  return text(`${words.charAt(0).toUpperCase()}${words.slice(1)}${words.endsWith(".") ? "" : "."}`);
}

function bold(words: string): string {
  return `\\fB${text(words)}\\fR`;
}

/** Nothing in it is read as a request or an escape; a hyphen stays one that can be copied. */
function text(words: string): string {
  return words
    .replaceAll("\\", "\\e")
    .replaceAll("-", "\\-")
    .replace(/^(?=[.'])/, "\\&");
}
