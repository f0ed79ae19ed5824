import type { Page } from "playwright-core";

/** Bytes of JavaScript that a page holds, after its garbage is collected. */
export async function heapOf(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send("HeapProfiler.collectGarbage");
  const { usedSize } = (await session.send("Runtime.getHeapUsage")) as { usedSize: number };
  await session.detach();
  return usedSize;
}
