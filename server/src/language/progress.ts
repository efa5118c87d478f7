/** Long work whose progress was not requested: shown by the client anyway, with a way to stop it. */
import type { WorkDoneProgressServerReporter } from "vscode-languageserver";
import type { Session } from "./session.js";

/** Shorter work is over before anybody could read the message, ms. */
const WORTH_SHOWING = 300;

/** Does `work`, which is to ask `cancelled` often: true once the maker has stopped it in the client. */
export async function shown<T>(
  { client, connection }: Session,
  title: string,
  work: (cancelled: () => boolean) => Promise<T>,
): Promise<T> {
  if (!client.progress) return work(() => false);
  let reporter: WorkDoneProgressServerReporter | undefined;
  let over = false;
  const show = async () => {
    reporter = await connection.window.createWorkDoneProgress();
    reporter.begin(title, undefined, undefined, true);
    if (over) reporter.done();
  };
  // A client that will not show it still gets the work done.
  const timer = setTimeout(() => void show().catch(() => undefined), WORTH_SHOWING);
  try {
    return await work(() => reporter?.token.isCancellationRequested === true);
  } finally {
    over = true;
    clearTimeout(timer);
    reporter?.done();
  }
}
