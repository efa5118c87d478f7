import { t } from "../../words/translation.js";
import { mouthHalfLength } from "../draft/mouth.js";
import type { Finding } from "../finding.js";
import { lengthText } from "../lengthWords.js";
import { own } from "../path.js";
import { LENGTH_SLACK, type Rule } from "./rule.js";

/** A tube has two ends. */
export const tooFewStations: Rule = {
  code: "bore/too-few-stations",
  check: ({ data, bore }) => {
    if (bore === undefined || bore.length >= 2 || !Array.isArray(own(data, "bore"))) return [];
    const message = t("A bore needs at least two stations: one at the mouth, `at: 0`, and one at the foot.");
    return [{ code: "bore/too-few-stations", severity: "error", message, path: ["bore"], on: "key" }];
  },
};

/** Stations are listed from the mouth to the foot. */
export const boreBackwards: Rule = {
  code: "bore/backwards",
  check: (draft) => {
    const findings: Finding[] = [];
    let before: { at: number; path: Finding["path"] } | undefined;
    for (const { at, path } of draft.bore ?? []) {
      if (at === undefined) continue;
      if (before !== undefined && at < before.at - LENGTH_SLACK) {
        const message = t`This station lies ${lengthText(before.at - at, draft)} nearer the mouth than the one before it. List stations from the mouth to the foot; two at one place make a step.`;
        const related = [{ path: [...before.path, "at"], message: t("The station before it") }];
        findings.push({ code: "bore/backwards", severity: "error", message, path: [...path, "at"], related });
      } else before = { at, path };
    }
    return findings;
  },
};

/** The bore reaches from under the mouth to beyond it. */
export const boreMissesMouth: Rule = {
  code: "bore/misses-mouth",
  check: (draft) => {
    const first = draft.bore?.[0];
    const last = draft.bore?.at(-1);
    if (first?.at === undefined || last?.at === undefined || first === last) return [];
    const finding = (message: string, path: Finding["path"]): readonly Finding[] => [
      { code: "bore/misses-mouth", severity: "error", message, path: [...path, "at"] },
    ];
    if (first.at > LENGTH_SLACK) {
      const message = t`The bore begins ${lengthText(first.at, draft)} below the mouth opening's centre. Begin it with a station \`at: 0\`.`;
      return finding(message, first.path);
    }
    const half = mouthHalfLength(draft.mouth);
    if (last.at > half + LENGTH_SLACK) return [];
    return finding(
      t`The bore ends at ${lengthText(last.at, draft)}, before the mouth opening does. Put the foot further down.`,
      last.path,
    );
  },
};
