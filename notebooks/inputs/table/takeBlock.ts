import { describeProblem } from "../../../lib/base/outcome.ts";
import { focusedNear } from "../focusedNear.ts";
import { previewPaste } from "./pastePreview.ts";
import { type BlockTarget, type ReadBlock, readBlock } from "./readBlock.ts";

export interface BlockTaking<Row extends object> {
  readonly onTake: (block: ReadBlock<Row>) => void;
  readonly say: (words: string) => void;
  /** What the block was pasted into. */
  readonly near: Element;
}

/** Takes a pasted block at once where nothing in it is in doubt; otherwise a person sees first how it was understood. */
export function takeBlock<Row extends object>(text: string, target: BlockTarget<Row>, { onTake, say, near }: BlockTaking<Row>): void {
  const read = readBlock(text, target);
  if (!read.ok) {
    say(`Nothing was pasted: ${read.problems.map((problem) => describeProblem(problem)).join(" ")}`);
    return;
  }
  if (!read.value.isDoubtful) {
    onTake(read.value);
    return;
  }
  const from = focusedNear(near);
  const goBack = () => from?.focus({ preventScroll: true });
  previewPaste<Row>({
    near,
    read: (choices) => {
      const again = readBlock(text, target, choices);
      // The same text with other choices may have another shape, never none.
      return again.ok ? again.value : read.value;
    },
    onTake: (block) => {
      goBack();
      onTake(block);
    },
    onRefuse: () => {
      goBack();
      say("Nothing was pasted.");
    },
  });
}
