/** Writes docs/accuracy.md. Run: npm run accuracy */
import { writeFileSync } from "node:fs";
import { accuracyPage } from "./page.js";

writeFileSync("docs/accuracy.md", accuracyPage());
console.log("docs/accuracy.md written");
