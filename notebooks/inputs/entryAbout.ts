/** What an entry is, for those who ask. */
export interface EntryAbout {
  /** Of what kind it is, without the name of its row: `touches.readings`, `machine.lostMotion.x`. */
  readonly place: string;
  readonly label: string;
  /** What it means, in a sentence; empty where nothing is said. */
  readonly hint: string;
}

const describers = new WeakMap<Element, (control: Element) => EntryAbout | undefined>();

/** Tells what the entries within an element are. */
export function describeEntries(within: Element, describe: (control: Element) => EntryAbout | undefined): void {
  describers.set(within, describe);
}

/** What was told of the entry that this control is. */
export function aboutEntry(control: Element): EntryAbout | undefined {
  for (let within: Element | null = control; within !== null; within = within.parentElement) {
    const describe = describers.get(within);
    if (describe !== undefined) return describe(control);
  }
  return undefined;
}
