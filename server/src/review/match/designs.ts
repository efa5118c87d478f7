/** Which design of two folders is which: by path, by file name, then by the instrument's name; a renamed file is still the same design. */
import { completed, type Pair, pairByKeys } from "./pairs.js";

export interface DesignKeys {
  /** From the folder that was named. */
  readonly path: string;
  readonly name: string | undefined;
  /** Which instrument of its file. */
  readonly index: number;
}

export function pairDesigns(old: readonly DesignKeys[], next: readonly DesignKeys[]): readonly Pair[] {
  const keys = ({ path, name, index }: DesignKeys) => {
    const plain = path.replace(/\.bore\.\w+$/i, "");
    const file = plain.slice(plain.lastIndexOf("/") + 1);
    return [
      name === undefined ? undefined : `${path} ${name}`,
      `${path} ${index}`,
      name === undefined ? undefined : `${plain} ${name}`,
      `${plain} ${index}`,
      name === undefined ? undefined : `${file} ${name}`,
      name,
      `${file} ${index}`,
    ];
  };
  return completed(pairByKeys(old.map(keys), next.map(keys)), old.length, next.length);
}
