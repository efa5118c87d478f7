/** Put there by the bundler (.ci/bundle/webPage.mjs): names and texts of the folder examples/. */
declare const EXAMPLE_TEXTS: Readonly<Record<string, string>>;

export const EXAMPLES = EXAMPLE_TEXTS;
