/** What the server's script is told first, when it runs as a worker of a browser. */
export interface WorkerRole {
  /** The server itself, or its thread for long work. */
  readonly role: "server" | "thread";
  /** Address of the worker's own script: the others stand beside it, and the server starts it once more for long work. */
  readonly program: string;
}
