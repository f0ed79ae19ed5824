import { answerHelp } from "./answerHelp.ts";
import { answerStudy } from "./answerStudy.ts";
import type { HelpRequest, StudyRequest } from "./studyMessages.ts";

/** A worker that answers questions about a setup one after the other, so that the page never waits for them. */
addEventListener("message", ({ data }: MessageEvent<StudyRequest | HelpRequest>) => {
  const now = () => performance.now();
  try {
    if (isHelp(data)) answerHelp(data, (answer) => postMessage(answer), now);
    else answerStudy(data, (answer) => postMessage(answer), now);
  } catch (error) {
    postMessage({ id: data.id, kind: "failed", why: error instanceof Error ? error.message : String(error) });
  }
});

function isHelp(request: StudyRequest | HelpRequest): request is HelpRequest {
  return request.work.kind === "help";
}
