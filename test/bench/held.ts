/** What the processor was busy with in the longest turn of the event loop, by V8's sampling profiler. */
import { type Profiler, Session } from "node:inspector";

/** Between two samples. */
const MICROSECONDS = 200;
const MOST_NAMED = 40;

export class Held {
  private readonly session = new Session();

  constructor() {
    this.session.connect();
    this.session.post("Profiler.enable");
    this.session.post("Profiler.setSamplingInterval", { interval: MICROSECONDS });
  }

  start(): void {
    this.session.post("Profiler.start");
  }

  /** Functions with the most time in them and in what they call, between two times of `process.hrtime.bigint()`. */
  stop({ from, to }: { readonly from: bigint; readonly to: bigint }): string[] {
    let profile: Profiler.Profile | undefined;
    this.session.post("Profiler.stop", (_, result) => {
      profile = result.profile;
    });
    if (profile === undefined) return [];
    const parents = new Map<number, number>();
    const nodes = new Map(profile.nodes.map((node) => [node.id, node]));
    for (const { id, children } of profile.nodes) for (const child of children ?? []) parents.set(child, id);
    const times = new Map<string, number>();
    let time = profile.startTime;
    profile.samples?.forEach((sample, i) => {
      const delta = profile?.timeDeltas?.[i] ?? 0;
      time += delta;
      if (time * 1000 < Number(from) || time * 1000 > Number(to)) return;
      const names = new Set<string>();
      for (let at: number | undefined = sample; at !== undefined; at = parents.get(at)) {
        const frame = nodes.get(at)?.callFrame;
        if (frame) names.add(`${frame.functionName || "-"}:${frame.lineNumber + 1}`);
      }
      for (const name of names) times.set(name, (times.get(name) ?? 0) + delta / 1000);
    });
    return [...times]
      .sort((a, b) => b[1] - a[1])
      .slice(0, MOST_NAMED)
      .map(([name, ms]) => `${ms.toFixed(1)} ms ${name}`);
  }
}
