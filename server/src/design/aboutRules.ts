/** What is said of how an instrument sounds, and of whether it can be made. */
import type { AboutRules } from "../instrument/aboutRule.js";

export const PREDICTION_RULES = {
  "pitch/out-of-tune": {
    title: "A note farther from its pitch than the tolerance.",
    severity: "warning",
    otherwise: "error beyond 50 cents",
    canBeSwitched: true,
  },
  "pitch/no-resonance": {
    title: "A fingering whose register the air column does not have.",
    severity: "warning",
    canBeSwitched: true,
  },
  "pitch/two-resonances": {
    title: "A note for which two resonances of nearly the same strength compete.",
    severity: "warning",
    canBeSwitched: true,
  },
  "model/not-predicted": {
    title: "Fingerings left without a prediction, since it would take too long.",
    severity: "warning",
    canBeSwitched: true,
  },
  "response/weak-note": {
    title: "A note that is weak or does not hold its pitch.",
    severity: "information",
    canBeSwitched: true,
  },
} as const satisfies AboutRules;

/** Where a solid is asked for, they are errors, and no file is written. */
const WHILE_WRITING = { otherwise: "error where a solid is asked for", canBeSwitched: true } as const;

export const MAKING_RULES = {
  "solid/no-mouth": { title: "The design has no mouth that could be made.", severity: "error" },
  "solid/no-room": { title: "A part of the solid has no room.", severity: "warning", ...WHILE_WRITING },
  "solid/not-described": { title: "The design does not say enough about its body to be made.", severity: "error" },
  "solid/wall-too-thin": {
    title: "A wall of the solid would be thinner than the printer can make airtight.",
    severity: "warning",
    ...WHILE_WRITING,
  },
} as const satisfies AboutRules;
