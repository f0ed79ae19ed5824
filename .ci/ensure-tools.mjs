// Makes sure of two programs that tests use: pdftotext (Debian's poppler-utils), by which they read what was printed, and GNU parallel, under
// which they run the shards of a study. On a Debian machine without them, and only as root, they are installed. Where they cannot be, the tests
// skip what needs the one, say so, and take xargs in the place of the other, which is no failure of the run.
import { installDebian, mayInstall, programNamed } from "./debian.mjs";

const packages = { pdftotext: "poppler-utils", parallel: "parallel" };
for (const [program, name] of Object.entries(packages)) if (programNamed([program]) === undefined && mayInstall()) installDebian(name);
