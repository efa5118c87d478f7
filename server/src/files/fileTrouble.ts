/** What can go wrong with a file, in words: one line that names it. */
import { t } from "../words/translation.js";

export class FileTrouble extends Error {
  constructor(
    /** As the user named it. */
    readonly file: string,
    /** What is wrong and what to do, without the name of the file. */
    readonly reason: string,
    /** Whether there is no such file. */
    readonly isMissing = false,
  ) {
    super(`${file}: ${reason}`);
  }
}

/** Does `work` on the file; any error of the system is thrown as FileTrouble. */
export function withFile<T>(file: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (isSystemError(error)) throw new FileTrouble(file, reasonOf(error.code, error.message), error.code === "ENOENT");
    throw error;
  }
}

function isSystemError(error: unknown): error is Error & { readonly code: string } {
  const code = error instanceof Error ? (error as NodeJS.ErrnoException).code : undefined;
  return typeof code === "string" && (/^E[A-Z0-9]+$/.test(code) || code === "ERR_INVALID_ARG_VALUE");
}

/** Names of errors by POSIX.1-2017, <errno.h>. */
const REASONS: Readonly<Record<string, string>> = {
  EACCES: "permission denied",
  EPERM: "permission denied",
  EROFS: "the file system is read-only",
  ENOENT: "no such file or folder",
  EISDIR: "a folder, not a file",
  EEXIST: "a file of this name is in the way",
  ENOTDIR: "a part of the path is not a folder",
  ELOOP: "links that lead to one another",
  ENAMETOOLONG: "the name is too long",
  ENOSPC: "no space left on the device",
  EDQUOT: "the disk quota is used up",
  EFBIG: "the file would be too large",
  EIO: "the device reports an error",
  EMFILE: "too many files are open",
  ENFILE: "too many files are open",
  EBUSY: "the file is in use",
  ETXTBSY: "the file is in use",
  ENXIO: "not a regular file",
  ERR_INVALID_ARG_VALUE: "not a name that a file can have",
};

function reasonOf(code: string, message: string): string {
  return code in REASONS ? t(REASONS[code] ?? "") : t`the system says ${message.replaceAll(/\s+/g, " ")}`;
}
