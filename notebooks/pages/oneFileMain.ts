import "../figures/figures.css";
import "./sheet.css";
import { answerQuestions } from "../worker/answerQuestions.ts";
import { openPage } from "./openPage.ts";

// One program for the page and for its workers, which have no document.
if (globalThis.document === undefined) answerQuestions();
else void openPage(document.body);
