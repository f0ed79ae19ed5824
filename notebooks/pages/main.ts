import "../figures/figures.css";
import "./sheet.css";
import { openPage } from "./openPage.ts";

await openPage(document.body);
