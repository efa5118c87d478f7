/** The program VS Code starts as the language server: a connection as its arguments say, and the server on it. */
import { createServerConnection } from "./language/connection.js";
import { startServer } from "./language/startServer.js";

startServer(createServerConnection());
