/** Workflow commands, which GitHub shows beside the changed lines ("Workflow commands for GitHub Actions", docs.github.com). */
import { visible } from "./visible.js";

/** `::error file=a.bore.yaml,line=3::message` */
export function githubLine(command: string, properties: Readonly<Record<string, string | number>>, message: string) {
  const list = Object.entries(properties).map(([name, value]) => `${name}=${propertyText(String(value))}`);
  return `::${command} ${list.join(",")}::${dataText(message)}`;
}

/** Line breaks have an escape of their own; the other controls have none. */
function dataText(text: string): string {
  return text
    .split(/(\r|\n)/)
    .map((part) => (part === "\r" ? "%0D" : part === "\n" ? "%0A" : visible(part).replaceAll("%", "%25")))
    .join("");
}

function propertyText(text: string): string {
  return dataText(text).replaceAll(":", "%3A").replaceAll(",", "%2C");
}
