import { useMemo, useRef } from "preact/hooks";

/** Calls once nothing more has come for `wait` ms. */
export function useSettled(done: () => void, wait: number) {
  const latest = useRef(done);
  latest.current = done;
  return useMemo(() => {
    let timer: number | undefined;
    return {
      soon: () => {
        window.clearTimeout(timer);
        timer = window.setTimeout(() => latest.current(), wait);
      },
      cancel: () => window.clearTimeout(timer),
    };
  }, []);
}
