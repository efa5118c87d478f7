/** What VS Code shows, as plain text: Monaco draws spaces as no-break ones, and rows of a list spread over lines. */

export function plain(text) {
  return text.replace(/\s+/g, " ").trim();
}

/** The words an element (or several) shows to the eye. */
export async function words(locator) {
  return plain((await locator.allInnerTexts()).join(" "));
}
