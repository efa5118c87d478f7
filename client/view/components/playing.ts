/** Notes of the rows played one after the other, by the voice that is chosen. */
import type { Sound } from "../sound.js";
import type { Event, shownRows } from "../state.js";

/** @param voice `predicted`, `target`, or both together */
export function playing(rows: ReturnType<typeof shownRows>, voice: string, sound: Sound, send: (event: Event) => void) {
  const chordOf = (i: number) => {
    const { predictedHz, targetHz } = rows[i] ?? {};
    const wanted = voice === "predicted" ? [predictedHz] : voice === "target" ? [targetHz] : [predictedHz, targetHz];
    return wanted.filter((hz) => hz !== undefined);
  };
  const play = (list: readonly number[]) => {
    const known = list.filter((i) => chordOf(i).length > 0);
    if (known.length > 0)
      sound.play(known.map(chordOf), (at) => send({ type: "sounding", row: at === undefined ? undefined : known[at] }));
  };
  const stop = () => {
    sound.stop();
    send({ type: "sounding", row: undefined });
  };
  return { play, stop };
}
