/** What is said of a solid after it was built. */
import type { AboutRules } from "../instrument/aboutRule.js";

export const SOLID_RULES = {
  "solid/not-one-piece": { title: "The solid was built, and is not what it should be.", severity: "error" },
} as const satisfies AboutRules;
