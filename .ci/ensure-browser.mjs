// Makes sure of the Chromium that the browser tests drive: on a Debian machine without one, and only as root,
// it is installed. Debian's chromium-headless-shell, the same engine without a window, comes first: the whole
// browser takes almost as much of the processor for its own window as for the page. Under continuous integration
// (CI is set) it is installed beside a whole browser too. `--print` writes the path of the program, the only line
// on standard output.
import { installDebian, isProgram, mayInstall, programNamed } from "./debian.mjs";

const names = ["chromium-headless-shell", "chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const variable = "DATUMBOOK_CHROMIUM";

const named = process.env[variable];
if (named && !isProgram(named)) stop(`${variable} is "${named}", which is not a program that can be run.`);

let browser = named || programNamed(names);
const lighter = Boolean(process.env.CI) && !named && !browser?.endsWith(names[0]);
if ((!browser || lighter) && mayInstall()) {
  installDebian(names[0]);
  browser = programNamed(names);
}
if (!browser) {
  stop(`No Chromium was found under the names ${names.join(", ")}. Install one, or set ${variable} to the path of its program.`);
}
if (process.argv.includes("--print")) console.log(browser);

function stop(message) {
  console.error(message);
  process.exit(1);
}
