/** What is said of how an instrument sounds. */
import type { AboutRules } from "../instrument/aboutRule.js";

export const PREDICTION_RULES = {
  "pitch/out-of-tune": {
    title: "A note farther from its pitch than the tolerance.",
    severity: "warning",
    otherwise: "an error beyond 50 cents",
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
