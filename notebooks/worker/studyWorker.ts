import { answerStudy } from "./answerStudy.ts";
import type { StudyRequest } from "./studyMessages.ts";

/** A worker that answers questions about a setup one after the other, so that the page never waits for them. */
addEventListener("message", ({ data }: MessageEvent<StudyRequest>) => {
  try {
    answerStudy(
      data,
      (answer) => postMessage(answer),
      () => performance.now(),
    );
  } catch (error) {
    postMessage({ id: data.id, kind: "failed", why: error instanceof Error ? error.message : String(error) });
  }
});
