import StudyWorker from "./studyWorker.ts?worker&inline";

/** The same worker from a text within the program: where there is one file there is no other to load it from. */
export function openStudyWorker(): Worker {
  return new StudyWorker();
}
