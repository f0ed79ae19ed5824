import type { Page } from "playwright-core";

/** What has the focus, as a screen reader would name it. */
const focused = (page: Page) =>
  page.evaluate(() => {
    const element = document.activeElement as HTMLElement;
    const labelled = element.id === "" ? null : document.querySelector(`label[for="${CSS.escape(element.id)}"]`);
    return element.getAttribute("aria-label") ?? labelled?.textContent ?? element.textContent?.trim() ?? "";
  });

/** Presses a key until what has the focus is called so. */
export async function goBy(page: Page, key: string, name: string): Promise<void> {
  for (let presses = 0; presses < 200; presses++) {
    if ((await focused(page)) === name) return;
    await page.keyboard.press(key);
  }
  throw new Error(`${key} never came to "${name}", last to "${await focused(page)}"`);
}

/** Goes right in the row to the entry with this name, and types. */
export async function enter(page: Page, name: string, text: string): Promise<void> {
  const isEdited = await page.evaluate(() => (document.activeElement as HTMLElement).dataset["editing"] !== undefined);
  if (isEdited) await page.keyboard.press("Tab");
  await goBy(page, "ArrowRight", name);
  await page.keyboard.type(text);
}

/** Presses a button that lies further on, then fills the row that comes. */
export async function addRow(page: Page, button: string, entries: readonly (readonly [name: string, text: string])[]): Promise<void> {
  await goBy(page, "Tab", button);
  await page.keyboard.press("Enter");
  for (const [name, text] of entries) await enter(page, name, text);
}
