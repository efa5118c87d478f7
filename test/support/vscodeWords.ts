/** VS Code's `l10n` for tests of the client: English, its arguments put in. */
export const l10n = {
  t: (message: string, ...args: readonly unknown[]) => message.replace(/\{(\d+)\}/g, (_, i) => String(args[Number(i)])),
};
