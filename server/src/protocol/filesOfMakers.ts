/** Files that are no designs, chosen in the editor: a printable model to survey, a recording to listen to. */
import type { NewInstrumentAnswer } from "./newInstrument.js";

/** Request: {@link SurveyQuestion} to {@link NewInstrumentAnswer}. */
export const SURVEY_MODEL = "borewright/surveyModel";
/** Request: {@link ListenQuestion} to {@link ListenAnswer}. */
export const LISTEN_TO = "borewright/listenTo";

export interface SurveyQuestion {
  /** Path in the file system. */
  readonly file: string;
}

export type SurveyAnswer = NewInstrumentAnswer;

export interface ListenQuestion {
  readonly uri: string;
  readonly documentIndex: number;
  /** Path in the file system. */
  readonly file: string;
  /** °C of the air in the instrument; undefined where it was the design's. */
  readonly temperature?: number;
}

export interface ListenAnswer {
  readonly applied: boolean;
  readonly message: string;
}
