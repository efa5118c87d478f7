/** The bore view's page: one script, one more once the solid is looked at, one style sheet, nothing from elsewhere. */
import { env, l10n, Uri, type Webview } from "vscode";
import { toBase64 } from "../../../server/src/protocol/base64.js";
import type { ViewPlace } from "../../../server/src/protocol/boreView.js";

/** @param place is kept by the editor, so that the view comes back after a restart */
export function boreViewPage(webview: Webview, dist: Uri, place: ViewPlace): string {
  const nonce = toBase64(crypto.getRandomValues(new Uint8Array(16)));
  const script = webview.asWebviewUri(Uri.joinPath(dist, "view.js"));
  const solid = webview.asWebviewUri(Uri.joinPath(dist, "solid.js"));
  const style = webview.asWebviewUri(Uri.joinPath(dist, "view.css"));
  // Pictures from data are the sheet itself on its way to a PNG.
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src ${webview.cspSource}; img-src data:;`;
  const kept = JSON.stringify(place).replaceAll("&", "&amp;").replaceAll('"', "&quot;").replaceAll("<", "&lt;");
  const { bundle } = l10n;
  const words = bundle && `<script id="words" type="application/json">${scriptText(bundle)}</script>\n`;
  return `<!DOCTYPE html>
<html lang="${bundle === undefined ? "en" : env.language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${style}">
<title>${l10n.t("Bore view")}</title>
</head>
<body data-place="${kept}" data-solid="${solid}">
${words ?? ""}<script nonce="${nonce}" src="${script}"></script>
</body>
</html>`;
}

/** Data in a script, which no text in it ends. */
function scriptText(data: unknown): string {
  return JSON.stringify(data).replaceAll("<", "\\u003c");
}
