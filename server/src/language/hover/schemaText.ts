/** What the published schema says about the place: what it is, its unit, its default. */
import { t } from "../../words/translation.js";
import { schemaAt, unitOf } from "../schema.js";
import type { HoverTopic } from "./place.js";

export const schemaText: HoverTopic = ({ path, document }) => {
  const schema = schemaAt(path);
  if (schema?.description === undefined) return [];
  const unit = unitOf(schema, document);
  const facts = [
    ...(unit === undefined ? [] : [t`Unit: ${t(unit)}.`]),
    ...(schema.enum === undefined ? [] : [t`One of ${schema.enum.map((value) => `\`${String(value)}\``).join(", ")}.`]),
    ...(schema.default === undefined ? [] : [t`Default: \`${JSON.stringify(schema.default).replaceAll('"', "")}\`.`]),
  ];
  return [t(schema.description), ...(facts.length === 0 ? [] : [facts.join(" ")])];
};
