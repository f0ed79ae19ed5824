import { messageOf } from "../../lib/base/messageOf.ts";
import { evaluateSetup } from "../../lib/evaluateSetup.ts";
import { rationaleOf } from "../../lib/rationaleOf.ts";
import { answerHelp } from "./answerHelp.ts";
import { answerStudy } from "./answerStudy.ts";
import type { HelpRequest, RationaleRequest, StudyRequest } from "./studyMessages.ts";

type Request = StudyRequest | HelpRequest | RationaleRequest;

/** In a worker: answers questions about a setup one after the other, so that the page never waits for them. */
export function answerQuestions(): void {
  addEventListener("message", ({ data }: MessageEvent<Request>) => {
    const now = () => performance.now();
    try {
      if (isHelp(data)) answerHelp(data, (answer) => postMessage(answer), now);
      else if (isRationale(data)) {
        const { id, document, work } = data;
        postMessage({ id, kind: "rationale", rationale: rationaleOf(document, evaluateSetup(document), work.unit) });
      } else answerStudy(data, (answer) => postMessage(answer), now);
    } catch (error) {
      postMessage({ id: data.id, kind: "failed", why: messageOf(error) });
    }
  });
}

function isHelp(request: Request): request is HelpRequest {
  return request.work.kind === "help";
}

function isRationale(request: Request): request is RationaleRequest {
  return request.work.kind === "rationale";
}
