/** Files that are no designs, chosen in the editor: a printable model to survey, a recording to listen to. */
import type { NewInstrumentAnswer } from "./newInstrument.js";

/** Request: {@link SurveyQuestion} to {@link NewInstrumentAnswer}. */
export const SURVEY_MODEL = "borewright/surveyModel";
/** Request: {@link ListenQuestion} to {@link ListenAnswer}. */
export const LISTEN_TO = "borewright/listenTo";

/** A file of the maker's. */
export interface FileQuestion {
  /** Path in the server's file system; the name alone where the file is elsewhere and `base64` holds it. */
  readonly file: string;
  readonly base64?: string;
}

export type SurveyQuestion = FileQuestion;

export type SurveyAnswer = NewInstrumentAnswer;

export interface ListenQuestion extends FileQuestion {
  readonly uri: string;
  readonly documentIndex: number;
  /** °C of the air in the instrument; undefined where it was the design's. */
  readonly temperature?: number;
}

export interface ListenAnswer {
  readonly applied: boolean;
  readonly message: string;
}
