// Makes sure of pdftotext (Debian's poppler-utils), by which tests read what was printed: on a Debian machine without it, and only as root,
// it is installed. Where it cannot be, the tests that need it are skipped and say so, which is no failure of the run.
import { installDebian, mayInstall, programNamed } from "./debian.mjs";

if (programNamed(["pdftotext"]) === undefined && mayInstall()) installDebian("poppler-utils");
