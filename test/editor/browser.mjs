/** Debian's Chromium, headless, with every address but the loopback one cut off. */
import { chromium } from "playwright-core";

const ARGUMENTS = [
  "--no-sandbox", // CI runs as root, where Chromium's sandbox refuses to start
  "--disable-gpu",
  "--enable-unsafe-swiftshader", // three dimensions without a graphics card
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
];
const VIEWPORT = { width: 1400, height: 900 };

export async function launchBrowser(executablePath) {
  const browser = await chromium.launch({
    executablePath,
    headless: true,
    args: ARGUMENTS,
    handleSIGINT: false, // session.mjs closes everything in order
    handleSIGTERM: false,
  });
  return {
    /** A page that shares nothing with any other: no cookies, no restored tabs. */
    async freshPage() {
      const context = await browser.newContext({ viewport: VIEWPORT });
      return context.newPage();
    },
    close: () => browser.close(),
  };
}
