/** What an edit may have changed, by another reading of the text before and after. */
import type { Fault } from "../kind.js";
import { type Change, changes, comments, reread } from "../reread.js";

/** Which values an action may change, by the words of its title. The first that fits counts. */
const MEANT: readonly (readonly [title: RegExp, most: number, paths: RegExp])[] = [
  [/^(Move the stopper)/, 1, /^\d+\.(pipes\.\d+\.length|parameters\.)/],
  [/^(Move|Open|Narrow) /, 1, /^\d+\.(holes\.\d+\.(at|diameter)|parameters\.)/],
  [/^(Shorten|Lengthen) the bore/, 1, /^\d+\.(bore\.\d+\.at|parameters\.)/],
  [/^Make the (volume|chamber)/, 1, /^\d+\.(vessel\.|bore\.|parameters\.)/],
  [
    /^Print it at|by print scale/,
    Number.POSITIVE_INFINITY,
    /^\d+\.(key$|print\.scale$|(fingerings|pipes)\.\d+\.note$)/,
  ],
  [/^Keep its size and call its key/, Number.POSITIVE_INFINITY, /^\d+\.(key$|(fingerings|pipes)\.\d+\.note$)/],
  [/^Switch off/, 1, /^\d+\.rules\./],
  [/^Finger .* in register \d/, 2, /^\d+\.fingerings\.\d+\.(holes|register)$/],
  [/^Finger /, 1, /^\d+\.fingerings\.\d+\.holes$/],
  // Those behind it move on by one.
  [/^Add a fingering/, Number.POSITIVE_INFINITY, /^\d+\.fingerings\./],
  [/^Bench: write/, 0, /^$/],
  [/^Bench: the first step/, Number.POSITIVE_INFINITY, /^\d+\.(holes|bore|parameters|measured|pipes|vessel|mouth)\b/],
  [
    /^Bench: bring it into tune/,
    Number.POSITIVE_INFINITY,
    /^\d+\.(bench|holes|bore|parameters|measured|pipes|vessel|mouth)\b/,
  ],
  [/^(Write|Add|Remove) `/, 1, /./],
  // The old name goes and the new one comes.
  [/^Change `/, 2, /./],
  [/^Extract /, 2, /./],
  [/^Inline /, Number.POSITIVE_INFINITY, /./],
  [/^Calibrate/, Number.POSITIVE_INFINITY, /^\d+\.(mouth\.|mouth$)/],
];

/** What it is for. */
const WRITES_COMMENTS = /^Bench: write/;

/** Never changed by any refit, retuning or redrawing. */
const KEPT =
  /^\d+\.(borewright|name|remark|family|temperament|temperamentRoot|pitchStandard|tolerance|units|air|foot|hands|rules)(\.|$)|^\d+\.measured(?!\.\d+\.setAside$)(\.|$)|^\d+\.(fingerings\.\d+\.(degree|holes|register|name)|holes\.\d+\.(name|side|angle|fixed))$/;
/** By a title that says so bore, mouth and holes take a share of the length's growth. */
const GROWS = /^Refit .*\bshare\b/;
const GROWN = /^\d+\.mouth\./;
const KEPT_BY_REFIT =
  /^\d+\.(wall$|mouth\.(window\.(width|cutUp|chimney)|hole|cover|windway|chamber|block|correction|extra)|print\.)/;

/** Faults of the text `after`, which an action of this title made of `before`. */
export function editFaults(title: string, before: string, after: string, json: boolean): readonly Fault[] {
  const fault = (rule: string, detail: string): Fault => ({ rule, detail: `${kindOf(title)}: ${detail}\n${title}` });
  if (after === before) return [fault("changes nothing", "the text stays as it was")];
  const faults: Fault[] = [];
  if (isOnlyCrLf(before) && !isOnlyCrLf(after)) faults.push(fault("line ends", "LF in a file of CRLF"));
  if (before.startsWith("\uFEFF") !== after.startsWith("\uFEFF")) faults.push(fault("byte order mark", "lost or made"));
  const old = reread(before, json);
  if (old === undefined) return faults; // what no other reader reads, none can compare
  const now = reread(after, json);
  if (now === undefined) return [...faults, fault("broken file", "no other reader reads it any more")];
  if (!WRITES_COMMENTS.test(title) && comments(before, json).join("\n") !== comments(after, json).join("\n"))
    faults.push(fault("comments", "changed"));
  const found = changes(old, now);
  const astray = found.filter(({ path }) => !isMeant(title, path));
  if (astray.length > 0) faults.push(fault("moved silently", astray.map(inWords).join("; ")));
  const most = MEANT.find(([words]) => words.test(title))?.[1] ?? Number.POSITIVE_INFINITY;
  // A title that says what moves with it has said so.
  if (
    found.filter(({ path }) => !isRenamed(title, path)).length > most &&
    !/\b(too|also|with (it|them)|share)\b/.test(title)
  )
    faults.push(fault("moved silently", `more than one: ${found.map(inWords).join("; ")}`));
  return faults;
}

/** What lies under a word goes, and comes back, with the word that a title corrects. */
function isRenamed(title: string, path: string): boolean {
  const [, ...words] = /^Change `([^`]+)` to `([^`]+)`/.exec(title) ?? [];
  return path.split(".").some((part) => words.includes(part));
}

function isMeant(title: string, path: string): boolean {
  const meant = MEANT.find(([words]) => words.test(title));
  if (meant !== undefined) return meant[2].test(path);
  if (GROWS.test(title) && GROWN.test(path)) return true;
  return !KEPT.test(path) && !(/^(Refit|Bring)/.test(title) && KEPT_BY_REFIT.test(path));
}

const inWords = ({ path, before, after }: Change) =>
  `\`${path}\` ${JSON.stringify(before) ?? "none"} → ${JSON.stringify(after) ?? "none"}`;

/** The first words of a title, without names and numbers. */
const kindOf = (title: string) => /^(\w+( the \w+)?)/.exec(title)?.[1] ?? "";

const isOnlyCrLf = (text: string) => text.includes("\r\n") && !/(^|[^\r])\n/.test(text);
