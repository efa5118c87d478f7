import { t } from "../../words/translation.js";
import type { Finding } from "../finding.js";
import type { Rule } from "./rule.js";

/** Each hole's name is its own: fingers and formulas go by it. */
export const duplicateHoleName: Rule = {
  code: "hole/duplicate-name",
  check: ({ holes }) => {
    const seen = new Map<string, Finding["path"]>();
    const names = new Set(holes.map(({ name }) => name));
    return holes.flatMap(({ name, path }): readonly Finding[] => {
      if (name === undefined) return [];
      const first = seen.get(name);
      if (first === undefined) {
        seen.set(name, path);
        return [];
      }
      const message = t`Another hole is called ${name} already; a formula with \`${name}\` means that one. Give this hole its own name.`;
      const related = [{ path: [...first, "name"], message: t`The first ${name}` }];
      let n = 2;
      while (names.has(`${name}${n}`)) n++;
      names.add(`${name}${n}`);
      const correction = { do: "write", text: `${name}${n}` } as const;
      return [
        { code: "hole/duplicate-name", severity: "warning", message, path: [...path, "name"], related, correction },
      ];
    });
  },
};

/** A hole has one direction. */
export const sideAndAngle: Rule = {
  code: "hole/side-and-angle",
  check: ({ data, holes }) =>
    holes.flatMap(({ path, label }, i): readonly Finding[] => {
      const hole = (data as { holes: readonly unknown[] }).holes[i];
      if (typeof hole !== "object" || hole === null || !Object.hasOwn(hole, "side") || !Object.hasOwn(hole, "angle"))
        return [];
      const message = t`${label} has both \`side\` and \`angle\`; the angle counts. Remove \`side\`.`;
      const correction = { do: "remove" } as const;
      return [
        { code: "hole/side-and-angle", severity: "warning", message, path: [...path, "side"], on: "key", correction },
      ];
    }),
};
