/**
 * Tasks: `check` over a folder, once or at every change. Its findings are problems already, from the server: the problem matchers of
 * package.json are for tasks of a folder's own, and would only tell them twice here.
 */
import {
  type Disposable,
  type ExtensionContext,
  l10n,
  ProcessExecution,
  Task,
  type TaskDefinition,
  TaskGroup,
  TaskScope,
  tasks,
  type WorkspaceFolder,
  workspace,
} from "vscode";

const TYPE = "borewright";

interface CheckTask extends TaskDefinition {
  readonly task?: unknown;
  readonly paths?: unknown;
}

/** One of each kind for every folder, and those that tasks.json describes. */
export function checkTasks(context: ExtensionContext): Disposable {
  const made = (definition: CheckTask, scope: Task["scope"]) => taskFor(context, definition, scope);
  return tasks.registerTaskProvider(TYPE, {
    provideTasks: () =>
      (workspace.workspaceFolders ?? []).flatMap((folder) =>
        ["check", "watch"].flatMap((task) => made({ type: TYPE, task }, folder) ?? []),
      ),
    resolveTask: ({ definition, scope }) => made(definition, scope ?? TaskScope.Workspace),
  });
}

function taskFor(context: ExtensionContext, definition: CheckTask, scope: Task["scope"]): Task | undefined {
  const { task, paths } = definition;
  if ((task !== "check" && task !== "watch") || scope === undefined) return undefined;
  const wanted = Array.isArray(paths) ? paths.filter((path) => typeof path === "string") : [];
  const args = ["check", ...(wanted.length === 0 ? ["."] : wanted), ...(task === "watch" ? ["--watch"] : [])];
  const folder = isFolder(scope) ? scope : workspace.workspaceFolders?.[0];
  // The same program as on the command line, by the Node that runs this extension.
  const execution = new ProcessExecution(process.execPath, [context.asAbsolutePath("dist/cli.cjs"), ...args], {
    env: { ELECTRON_RUN_AS_NODE: "1" },
    ...(folder === undefined ? {} : { cwd: folder.uri.fsPath }),
  });
  const name = task === "watch" ? l10n.t("check designs on every change") : l10n.t("check all designs");
  const result = new Task(definition, scope, name, TYPE, execution, []);
  result.isBackground = task === "watch";
  result.group = TaskGroup.Test;
  return result;
}

function isFolder(scope: NonNullable<Task["scope"]>): scope is WorkspaceFolder {
  return typeof scope === "object";
}
