import { useMemo, useRef } from "preact/hooks";

/** Calls once nothing more has come for `wait` ms, or at once where that is asked. */
export function useSettled(done: () => void, wait: number) {
  const latest = useRef(done);
  latest.current = done;
  return useMemo(() => {
    let timer: number | undefined;
    return {
      soon: () => {
        window.clearTimeout(timer);
        timer = window.setTimeout(() => {
          timer = undefined;
          latest.current();
        }, wait);
      },
      now: () => {
        if (timer === undefined) return;
        window.clearTimeout(timer);
        timer = undefined;
        latest.current();
      },
      cancel: () => {
        window.clearTimeout(timer);
        timer = undefined;
      },
    };
  }, []);
}
