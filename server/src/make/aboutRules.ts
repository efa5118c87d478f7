/** What is said of a solid after it was built. */
import type { AboutRules } from "../instrument/aboutRule.js";

export const SOLID_RULES = {
  "solid/not-one-piece": { title: "The solid was built but is not sound.", severity: "error" },
} as const satisfies AboutRules;
