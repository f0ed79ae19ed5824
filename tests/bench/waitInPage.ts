// What a benchmark that waits has inside a page, so that it never waits for ever.

/** What has not come after so long does not come any more, ms. */
const longest = 30_000;

/** @throws Error that tells what has not come, and what the page says of itself */
async function waitFor<T>(what: string, coming: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`waited ${longest / 1000} s in vain for ${what}; ${stateOfPage()}`)), longest);
  });
  try {
    return await Promise.race([coming, late]);
  } finally {
    clearTimeout(timer);
  }
}

/** What the page itself works out beside its results; a worker studies certainty for as long as it takes, and holds nothing up. */
const busy = "[aria-busy]:not(#certainty [aria-busy])";

/** Until nothing out of sight is being worked out any more. */
export async function nothingBusy(): Promise<void> {
  const end = performance.now() + longest;
  while (document.querySelector(busy) !== null) {
    if (performance.now() > end) throw new Error(`waited ${longest / 1000} s in vain until nothing is busy; ${stateOfPage()}`);
    await new Promise((resolve) => setTimeout(resolve));
  }
}

/** When the sheet has worked out what is done next. */
export function settledNext(what: string): Promise<number> {
  const sheet = document.querySelector(".sheet") as HTMLElement;
  const settled = new Promise<number>((resolve) => sheet.addEventListener("settled", () => resolve(performance.now()), { once: true }));
  return waitFor(`the results of ${what}`, settled).then((at) => {
    if (sheet.dataset["state"] !== "settled") throw new Error(`${what} could not be worked out`);
    return at;
  });
}

/** After the next frame: what follows its painting is a task of its own. */
export function painted(): Promise<void> {
  const channel = new MessageChannel();
  const coming = new Promise<void>((resolve) => {
    requestAnimationFrame(() => {
      channel.port1.onmessage = () => resolve();
      channel.port2.postMessage("");
    });
  });
  return waitFor("the next frame", coming);
}

function stateOfPage(): string {
  const busy = [...document.querySelectorAll("[aria-busy]")].map((element) => {
    const { id, className } = element.closest("section[id], figure") ?? element;
    return `${element.tagName.toLowerCase()}.${element.className} in ${id || className || "the page"}`;
  });
  const state = document.querySelector<HTMLElement>(".sheet")?.dataset["state"] ?? "without a sheet";
  const focused = document.activeElement?.getAttribute("aria-label") ?? "nothing";
  return `the page is ${state}, busy are ${busy.length === 0 ? "no parts" : busy.join(", ")}, the focus is on ${focused}`;
}
