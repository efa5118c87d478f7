import { useState } from "preact/hooks";
import { host, type Kept } from "../host.js";

/** A state of the page that the editor keeps while the page is hidden. */
export function useKept<K extends keyof Kept>(
  name: K,
  first: NonNullable<Kept[K]>,
): [NonNullable<Kept[K]>, (value: NonNullable<Kept[K]>) => void] {
  const [value, set] = useState<NonNullable<Kept[K]>>((host.kept[name] as NonNullable<Kept[K]> | undefined) ?? first);
  return [
    value,
    (next) => {
      host.keep({ [name]: next });
      set(() => next);
    },
  ];
}
