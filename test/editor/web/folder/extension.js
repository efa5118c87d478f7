/** A file system in front of ../server.mjs, which keeps the files on its disk. */
const vscode = require("vscode");

exports.activate = ({ extensionUri, subscriptions }) => {
  const changed = new vscode.EventEmitter();
  const ask = async (uri, method, { query = "", body = undefined } = {}) => {
    const address = extensionUri.with({ path: `/files${uri.path}`, query });
    const answer = await fetch(address.toString(true), { method, body });
    if (answer.status === 404) throw vscode.FileSystemError.FileNotFound(uri);
    if (!answer.ok) throw new Error(`${method} ${uri.path}: ${answer.status}`);
    return answer;
  };
  const tell = (type, ...uris) => changed.fire(uris.map((uri) => ({ type, uri })));
  const provider = {
    onDidChangeFile: changed.event,
    watch: () => new vscode.Disposable(() => undefined),
    stat: async (uri) => (await ask(uri, "GET", { query: "stat" })).json(),
    readDirectory: async (uri) => (await ask(uri, "GET", { query: "list" })).json(),
    readFile: async (uri) => new Uint8Array(await (await ask(uri, "GET")).arrayBuffer()),
    writeFile: async (uri, body) => {
      await ask(uri, "PUT", { body });
      tell(vscode.FileChangeType.Changed, uri);
    },
    rename: async (from, to) => {
      await ask(from, "POST", { body: to.path });
      tell(vscode.FileChangeType.Changed, to);
    },
    delete: async (uri) => {
      await ask(uri, "DELETE");
      tell(vscode.FileChangeType.Deleted, uri);
    },
    createDirectory: () => {
      throw vscode.FileSystemError.NoPermissions("no folders are made here");
    },
  };
  subscriptions.push(vscode.workspace.registerFileSystemProvider("memfs", provider, { isCaseSensitive: true }));
};
