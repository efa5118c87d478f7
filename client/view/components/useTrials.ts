import { useMemo } from "preact/hooks";
import type { Handle, TrialAnswer } from "../../../server/src/protocol/boreView.js";
import { host } from "../host.js";
import type { Event } from "../state.js";

export interface Trials {
  /** @param value mm, `unit` millimetres of the file's unit */
  readonly ask: (path: Handle["path"], value: number, unit: number) => void;
  readonly answered: (id: number, answer: TrialAnswer) => void;
  readonly end: () => void;
}

/** Asks the server for the effect of a number. While one request is open only the latest of the others waits. */
export function useTrials(send: (event: Event) => void): Trials {
  return useMemo(() => {
    let last = 0;
    let asked: { readonly id: number; readonly value: number } | undefined;
    let waiting: (() => void) | undefined;
    return {
      ask: (path, value, unit) => {
        const go = () => {
          asked = { id: ++last, value };
          host.post({ type: "try", id: last, path, value: value / unit });
        };
        if (asked === undefined) go();
        else waiting = go;
      },
      answered: (id, answer) => {
        if (asked?.id !== id) return;
        send({ type: "trial", value: asked.value, answer });
        asked = undefined;
        const go = waiting;
        waiting = undefined;
        go?.();
      },
      end: () => {
        asked = undefined;
        waiting = undefined;
      },
    };
  }, []);
}
