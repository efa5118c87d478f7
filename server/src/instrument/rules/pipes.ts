/** What can be wrong with the list of a pan pipe's tubes. */

import { t } from "../../words/translation.js";
import { isMap, own } from "../path.js";
import { pipeData } from "../printed/pipes.js";
import { stillNeeds } from "./incomplete.js";
import type { Rule } from "./rule.js";

export const pipesMissing: Rule = {
  code: "design/incomplete",
  check: ({ data }) =>
    own(data, "pipes") === undefined
      ? stillNeeds(["pipes"], ["`pipes: [{ note: C5, length: 158, diameter: 15 }]`"])
      : [],
};

/** A pipe is tuned to a note. */
export const pipeWithoutNote: Rule = {
  code: "pipe/no-note",
  check: ({ data }) =>
    pipeData(data).flatMap((pipe, i) => {
      if (!isMap(pipe) || own(pipe, "note") !== undefined) return [];
      const message = t(
        "Which note should this pipe sound? Give it one, for example `note: C5`, and it is checked against that.",
      );
      return [{ code: "pipe/no-note", severity: "warning", message, path: ["pipes", i] }];
    }),
};

/** A pan pipe plays what its pipes are. */
export const fingeringsOfPipes: Rule = {
  code: "pipe/fingerings",
  check: ({ data }) => {
    const list = own(data, "fingerings");
    if (!Array.isArray(list) || list.length === 0) return [];
    const message = t("A pan pipe plays one note per pipe, so these fingerings are ignored. Remove them.");
    return [{ code: "pipe/fingerings", severity: "warning", message, path: ["fingerings"], on: "key" }];
  },
};
