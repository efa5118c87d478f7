import { t } from "../../words/translation.js";
import type { Finding } from "../finding.js";
import { lengthText } from "../lengthWords.js";
import { own, valueAt } from "../path.js";
import { printingOf } from "../printed/printing.js";
import type { Rule } from "./rule.js";

/** Below this percentage a plain number is more likely a factor: no instrument is printed at a twentieth of its size. */
const LIKELY_FACTOR = 5;

/** `scale: 0.92` was meant as 92 %. */
export const scaleLooksLikeFactor: Rule = {
  code: "print/scale-looks-like-factor",
  check: ({ data, numbers }) => {
    const scale = numbers.at(["print", "scale"]);
    if (scale === undefined || scale <= 0 || scale >= LIKELY_FACTOR) return [];
    const written = own(valueAt(data, ["print"]), "scale");
    if (typeof written === "string" && written.includes("%")) return [];
    const percent = Number((scale * 100).toPrecision(6));
    const message = t`The print scale is a percentage: this is read as ${scale} %. If you mean the factor ${scale}, write ${percent} %.`;
    const correction = { do: "set", raw: String(percent) } as const;
    return [
      { code: "print/scale-looks-like-factor", severity: "warning", message, path: ["print", "scale"], correction },
    ];
  },
};

/** A hole that comes out smaller than drawn is still there. */
export const holeClosedByPrint: Rule = {
  code: "print/hole-closed",
  check: (draft) => {
    const { printedUnit, holeUndersize, known, unitMillimetres } = printingOf(draft);
    if (!known || holeUndersize === 0) return [];
    const undersize = lengthText((holeUndersize * 1000) / unitMillimetres, draft);
    const { mouth } = draft;
    const openings = draft.holes.map(({ diameter, label, path }) => ({
      diameter,
      label,
      path: [...path, "diameter"] as Finding["path"],
    }));
    if (mouth?.kind === "embouchure") {
      openings.push({
        diameter: Math.min(mouth.length, mouth.width),
        label: t("The embouchure hole"),
        path: ["mouth", "hole"],
      });
    }
    return openings.flatMap(({ diameter, label, path }): readonly Finding[] => {
      if (diameter === undefined || diameter <= 0 || diameter * printedUnit > holeUndersize) return [];
      const message = t`${label} would print closed: printed holes come out ${undersize} smaller than drawn. Make it larger.`;
      return [{ code: "print/hole-closed", severity: "error", message, path }];
    });
  },
};
