/** Turns of the event loop, and timers, alike in Node and in a browser's worker. */

/** Resolves after the messages that have come in by now were read. */
export function nextTurn(): Promise<void> {
  return new Promise(afterMessages);
}

const afterMessages: (go: () => void) => void = typeof setImmediate === "function" ? setImmediate : byOwnMessage();

interface Port {
  onmessage: (() => void) | null;
  postMessage(message: unknown): void;
}

/** A browser's timers wait for milliseconds; a message to oneself comes right after those that are queued. */
function byOwnMessage(): (go: () => void) => void {
  const { port1, port2 } = new MessageChannel() as unknown as Record<"port1" | "port2", Port>;
  const waiting: (() => void)[] = [];
  port1.onmessage = () => waiting.shift()?.();
  return (go) => {
    waiting.push(go);
    port2.postMessage(undefined);
  };
}

/** A timer that keeps no process alive; in a browser, whose timers are numbers, none does. */
export function later(work: () => void, ms: number): void {
  const timer: { unref?(): void } | number = setTimeout(work, ms);
  if (typeof timer === "object") timer.unref?.();
}
