/** What is said of the solid that is to be printed. */
import type { AboutRules } from "../instrument/aboutRule.js";

export const SOLID_RULES = {
  "solid/no-mouth": { title: "The design has no mouth that could be made.", severity: "error" },
  "solid/no-room": { title: "Something of the solid has no place.", severity: "error" },
  "solid/not-described": { title: "The design does not say enough of its body to be made.", severity: "error" },
  "solid/not-one-piece": { title: "The solid was built, and is not what it should be.", severity: "error" },
  "solid/wall-too-thin": {
    title: "A wall of the solid would be thinner than the printer closes airtight.",
    severity: "error",
  },
} as const satisfies AboutRules;
