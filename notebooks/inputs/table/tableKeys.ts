/** What a key does in a table. */
export interface TableAct {
  readonly name: ActName;
  /** Draws the range out instead of going there. */
  readonly extend: boolean;
}

type ActName =
  | "move up"
  | "move down"
  | "insert below"
  | "insert above"
  | "remove"
  | "clear"
  | "collapse"
  | "fill"
  | "fill down"
  | "select all"
  | "select rows"
  | "select columns"
  | "up"
  | "down"
  | "left"
  | "right"
  | "row start"
  | "row end"
  | "start"
  | "end"
  | "page up"
  | "page down";

/** What a person is doing when the key comes. */
interface KeyState {
  readonly isEdited: boolean;
  readonly isWide: boolean;
}

/** What a key does to the table; undefined for what the cell itself, the page or the browser does with it. */
export function actOf(event: KeyboardEvent, { isEdited, isWide }: KeyState): TableAct | undefined {
  const shortcut = shortcutOf(event);
  const extend = event.shiftKey;
  const always = rowActs[shortcut] ?? (shortcut === "Control+Enter" ? "fill" : undefined);
  if (always !== undefined) return { name: always, extend };
  if (isEdited) return undefined;
  const wide = isWide ? wideActs[shortcut] : undefined;
  const name = wide ?? standingActs[shortcut];
  return name === undefined ? undefined : { name, extend };
}

/** `Control+Shift+a`: modifiers in this order, letters small; the command key of some keyboards counts as Control. */
function shortcutOf({ key, ctrlKey, metaKey, altKey, shiftKey }: KeyboardEvent): string {
  const named = key === " " ? "Space" : key.length === 1 ? key.toLowerCase() : key;
  return `${ctrlKey || metaKey ? "Control+" : ""}${altKey ? "Alt+" : ""}${shiftKey ? "Shift+" : ""}${named}`;
}

type Acts = Readonly<Partial<Record<string, ActName>>>;

const rowActs: Acts = {
  "Alt+ArrowUp": "move up",
  "Alt+ArrowDown": "move down",
  "Alt+Enter": "insert below",
  "Alt+Shift+Enter": "insert above",
  "Alt+Backspace": "remove",
  "Alt+Delete": "remove",
};

/** While more than one cell is selected. */
const wideActs: Acts = { Backspace: "clear", Escape: "collapse" };

/** While nobody types in a cell. */
const standingActs: Acts = {
  Delete: "clear",
  "Control+d": "fill down",
  "Control+a": "select all",
  "Shift+Space": "select rows",
  "Control+Space": "select columns",
  "Shift+ArrowUp": "up",
  "Shift+ArrowDown": "down",
  "Shift+ArrowLeft": "left",
  "Shift+ArrowRight": "right",
  "Shift+Home": "row start",
  "Shift+End": "row end",
  "Control+Home": "start",
  "Control+End": "end",
  "Control+Shift+Home": "start",
  "Control+Shift+End": "end",
  PageUp: "page up",
  PageDown: "page down",
  "Shift+PageUp": "page up",
  "Shift+PageDown": "page down",
};
