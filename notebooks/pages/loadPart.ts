import { messageOf } from "../../lib/base/messageOf.ts";

/**
 * A part of the page that is loaded when somebody asks for it. A browser asks for each once: what did not come does not come until the page is loaded anew.
 *
 * @param tell why it did not come, in words: the server that the page came from may be gone by then
 */
export async function loadPart<T>(load: () => Promise<T>, tell: (words: string) => void): Promise<T | undefined> {
  try {
    return await load();
  } catch (error) {
    tell(
      `This part of the page could not be loaded (${messageOf(error)}). What is open stays as it is; the part is to be had once the page is loaded anew.`,
    );
    return undefined;
  }
}
