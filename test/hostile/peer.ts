/** A server in a process of its own, spoken to byte by byte: what a client by the protocol's library could never send. */
import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";

export interface Answer {
  readonly id: number | string | null;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

export class Peer {
  readonly answers: Answer[] = [];
  readonly logged: string[] = [];
  stderr = "";
  /** Set once the process has ended. */
  exit: { readonly code: number | null; readonly signal: string | null } | undefined;
  private readonly child: ChildProcessWithoutNullStreams;
  private unread = Buffer.alloc(0);
  private waiting: (() => void)[] = [];

  constructor(program: readonly string[] = ["dist/cli.cjs", "serve", "--stdio"]) {
    this.child = spawn(process.execPath, [...program]);
    this.child.stdout.on("data", (data: Buffer) => this.read(data));
    this.child.stderr.on("data", (data: Buffer) => {
      this.stderr += data.toString();
    });
    this.child.stdin.on("error", () => undefined); // it has ended: seen by `exit`
    this.child.on("exit", (code, signal) => {
      this.exit = { code, signal };
      this.wake();
    });
  }

  send(message: { readonly raw?: string; readonly [key: string]: unknown }): void {
    this.write(message.raw ?? JSON.stringify(message));
  }

  /** A body as it is, with a header that fits. */
  write(body: string): void {
    this.child.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }

  closeInput(): void {
    this.child.stdin.end();
  }

  kill(signal: NodeJS.Signals = "SIGKILL"): void {
    this.child.kill(signal);
  }

  /** Its exit status, once it has ended by itself. */
  get status(): number | null | undefined {
    return this.exit?.code;
  }

  /** True as soon as it holds; false after this many milliseconds. */
  async until(condition: () => boolean, milliseconds: number): Promise<boolean> {
    const end = performance.now() + milliseconds;
    while (!condition()) {
      const left = end - performance.now();
      if (left <= 0) return false;
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, Math.min(left, 250));
        this.waiting.push(() => {
          clearTimeout(timer);
          resolve();
        });
      });
    }
    return true;
  }

  private wake(): void {
    for (const waken of this.waiting.splice(0)) waken();
  }

  private read(data: Buffer): void {
    this.unread = Buffer.concat([this.unread, data]);
    for (;;) {
      const head = this.unread.indexOf("\r\n\r\n");
      if (head < 0) break;
      const length = Number(/Content-Length: (\d+)/i.exec(this.unread.subarray(0, head).toString())?.[1]);
      if (this.unread.length < head + 4 + length) break;
      const body = this.unread.subarray(head + 4, head + 4 + length).toString();
      this.unread = this.unread.subarray(head + 4 + length);
      this.take(JSON.parse(body) as Answer & { method?: string; params?: { message?: string; items?: unknown[] } });
    }
    this.wake();
  }

  private take(message: Answer & { method?: string; params?: { message?: string; items?: unknown[] } }): void {
    if (message.method === undefined) this.answers.push(message);
    else if (message.method === "window/logMessage") this.logged.push(message.params?.message ?? "");
    else if (message.id !== undefined) {
      const results: Record<string, unknown> = {
        "workspace/configuration": message.params?.items?.map(() => ({})),
        "workspace/applyEdit": { applied: true },
      };
      this.send({ jsonrpc: "2.0", id: message.id, result: results[message.method] ?? null });
    }
  }
}
