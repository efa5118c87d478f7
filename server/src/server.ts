/** The program VS Code starts as the language server: a connection as its arguments say, and the server on it. */
import { createServerConnection } from "./language/connection.js";
import { worksAsThread } from "./language/longWork/thread.js";
import { WorkThread } from "./language/longWork/workThread.js";
import { startServer } from "./language/startServer.js";

if (!worksAsThread()) startServer(createServerConnection(), { longWork: new WorkThread(__filename) });
