/** The kinds of semantic tokens there are, by their numbers. */
import type { SemanticTokensLegend } from "vscode-languageserver";

export const TYPES = ["property", "enumMember", "parameter", "function", "number", "fingeringSign"] as const;
export const MODIFIERS = ["closed", "open", "half", "declaration"] as const;
export type TokenType = (typeof TYPES)[number];
export type Modifier = (typeof MODIFIERS)[number];

export const TOKENS_LEGEND: SemanticTokensLegend = { tokenTypes: [...TYPES], tokenModifiers: [...MODIFIERS] };
