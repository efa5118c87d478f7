/** Collects what cannot be made, in the maker's unit. */
import { MILLIMETRES_PER_INCH } from "../../instrument/defaults.js";
import { roundedUp } from "../../instrument/digits.js";
import type { Draft } from "../../instrument/draft/draft.js";
import type { Correction, Finding, Path, RelatedPlace } from "../../instrument/finding.js";
import { DRAWN, lengthsBeside, length as shown } from "../../instrument/lengthWords.js";
import { valueAt } from "../../instrument/path.js";
import { printingOf } from "../../instrument/printed/printing.js";
import { t } from "../../words/translation.js";

type Code = "solid/not-described" | "solid/no-mouth" | "solid/no-room" | "solid/wall-too-thin";

export class Refusals {
  readonly list: Finding[] = [];

  constructor(
    private readonly draft: Draft,
    /** mm */
    readonly leastWall: number,
  ) {}

  say(code: Code, path: Path, message: string, related: readonly RelatedPlace[] = []): void {
    this.list.push({ code, severity: "error", message, path, related });
  }

  noRoom(path: Path, message: string, related: readonly RelatedPlace[] = [], correction?: Correction): void {
    const fix = correction === undefined ? {} : { correction };
    this.list.push({ code: "solid/no-room", severity: "error", message, path, related, ...fix });
  }

  /** As a number of the file: what is drawn so is no less on the bed. */
  drawnAtLeast(mm: number): string {
    const { unitMillimetres, printScale } = printingOf(this.draft);
    return String(roundedUp(mm / (unitMillimetres * printScale), this.draft.unit === "in" ? 3 : 2));
  }

  tooThin(path: Path, what: string, mm: number, advice = t("Make it thicker")): void {
    const [is, wanted] = this.words(mm, this.leastWall);
    this.say(
      "solid/wall-too-thin",
      path,
      t`${what} would be ${is} thick on the bed, and the printer can close ${wanted}. ${advice}, or state what your printer can close: \`print.leastWall\`.`,
    );
  }

  /** Two openings with too little between them. */
  noWallBetween(path: Path, one: string, other: string, mm: number, related: readonly RelatedPlace[]): void {
    const [is, wanted] = this.words(Math.max(0, mm), this.leastWall);
    const message = t`Between ${one} and ${other} ${is} of wall would be left on the bed, and the printer can close ${wanted}. Move them apart or narrow one, or state what your printer can close: \`print.leastWall\`.`;
    this.noRoom(path, message, related);
  }

  /** Lengths of the solid in the file's unit, told apart. */
  words<const T extends readonly number[]>(...mm: T): { readonly [K in keyof T]: string } {
    const unit = this.draft.unit === "in" ? MILLIMETRES_PER_INCH : 1;
    const sizes = mm.map((value) => shown(value / unit, DRAWN, this.draft));
    return lengthsBeside(sizes, this.draft) as { readonly [K in keyof T]: string };
  }

  /** The first of the paths where something is written, else the last. */
  written(...paths: readonly [Path, ...Path[]]): Path {
    return paths.find((path) => valueAt(this.draft.data, path) !== undefined) ?? paths.at(-1) ?? [];
  }
}
