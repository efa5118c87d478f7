/** What the program tells its caller. */
export const FINE = 0;
/** There were findings at or above the severity asked for. */
export const FINDINGS = 1;
/** The input or the command line could not be used, the output could not be written, or we have a fault. */
export const UNUSABLE = 2;

/** Something is wrong with what the user named; the message says what and where. */
export class UnusableInput extends Error {
  constructor(
    where: string,
    what: string,
    /** Further lines that say why. */
    readonly reasons: readonly string[] = [],
  ) {
    super(`${where}: ${what}`);
  }
}
