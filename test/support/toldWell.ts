/** What holds of every finding, whatever it is about. */
import { expect } from "vitest";
import type { Finding } from "../../server/src/instrument/finding.js";
import { RULE_REGISTRY } from "../../server/src/make/ruleRegistry.js";

/** Where a word or a number that was to stand in a sentence is missing: before a stop, between two, after a space. */
const GAP = /undefined|NaN|Infinity|\[object|\s\s|[^*]\s[.,;:?!]|[.,;:]{2}|^[\s.,;:]|\s$/;
/** What the maker wrote, or may write. */
const QUOTED = /`[^`]*`/g;
/** What the parsers of YAML and JSON say in their own words. */
const OF_THE_PARSER = /^(yaml|json)\//;

/**
 * Each is told in whole sentences without gaps, as severely as the registry of rules says, and so are the places it relates to. Where a severity depends
 * on something, the registry says so in `otherwise`.
 */
export function expectToldWell(findings: readonly Pick<Finding, "code" | "severity" | "message" | "related">[]): void {
  for (const { code, severity, message, related = [] } of findings) {
    if (OF_THE_PARSER.test(code)) continue;
    expect(message, code).toMatch(/[.?!]$/);
    expect(message.replaceAll(QUOTED, "``"), code).not.toMatch(GAP);
    for (const place of related) {
      expect(place.message, code).toMatch(/\S/);
      expect(place.message.replaceAll(QUOTED, "``"), code).not.toMatch(GAP);
    }
    const about = RULE_REGISTRY[code];
    if (about !== undefined && about.otherwise === undefined) expect(severity, code).toBe(about.severity);
  }
}
