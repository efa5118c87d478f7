/** What the tests use of the reference parser, which comes without types. */
declare module "markdown-it" {
  export default class MarkdownIt {
    constructor(options: { readonly html: boolean; readonly linkify: boolean });
    render(text: string): string;
  }
}
