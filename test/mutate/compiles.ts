/** Whether the types allow a mutant: one that does not compile is held by `npm run check`, and no test can be asked about it. */
import path from "node:path";
import ts from "typescript";

/** A judge of new texts of the project's sources: the first error of the types in that file, if any. */
export function typeChecker(root: string, folder: string): (file: string, text: string) => string | undefined {
  const config = ts.getParsedCommandLineOfConfigFile(
    path.join(root, "tsconfig.json"),
    {},
    {
      ...ts.sys,
      onUnRecoverableConfigFileDiagnostic: (diagnostic) => {
        throw new Error(ts.flattenDiagnosticMessageText(diagnostic.messageText, "\n"));
      },
    },
  );
  if (config === undefined) throw new Error("tsconfig.json cannot be read");
  const changed = new Map<string, { text: string; version: number }>();
  let version = 0;
  const service = ts.createLanguageService({
    getCompilationSettings: () => config.options,
    getScriptFileNames: () => config.fileNames.filter((name) => name.includes(`/${folder}/`)),
    getScriptVersion: (name) => String(changed.get(name)?.version ?? 0),
    getScriptSnapshot: (name) => {
      const text = changed.get(name)?.text ?? ts.sys.readFile(name);
      return text === undefined ? undefined : ts.ScriptSnapshot.fromString(text);
    },
    getCurrentDirectory: () => root,
    getDefaultLibFileName: ts.getDefaultLibFilePath,
    fileExists: ts.sys.fileExists,
    readFile: ts.sys.readFile,
  });
  return (file, text) => {
    const name = path.join(root, file);
    changed.clear();
    version++;
    changed.set(name, { text, version });
    const [first] = [...service.getSyntacticDiagnostics(name), ...service.getSemanticDiagnostics(name)];
    return first && ts.flattenDiagnosticMessageText(first.messageText, " ");
  };
}
