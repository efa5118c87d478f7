/** Why a mesh cannot be read or surveyed: one sentence of cause and one of cure. */
export class CannotSurvey extends Error {}
