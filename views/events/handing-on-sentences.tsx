import { about, type Sentence } from "./about.tsx";

/** What is said of handouts and imports. */
export const handingOnSentences: Record<string, Sentence> = {
  "handout: handout made": about("made a handout of"),
  "handout: handout revoked": about("ended a handout of"),
  "import: import taken in": about("took in the import"),
  "import: import withdrawn": about("took back the import"),
};
