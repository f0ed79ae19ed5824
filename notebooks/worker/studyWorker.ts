import { answerQuestions } from "./answerQuestions.ts";

answerQuestions();
