/** What the keys do, a sentence each. */
export const keys = [
  "Arrow keys go from cell to cell and from table to table, Tab to the next cell.",
  "Typing replaces an entry; Enter or F2 edits within it.",
  "Enter keeps what was typed and goes on down its table, Escape leaves the entry as it was.",
  "F1 tells what the entry is, with usual values and the formula.",
  "F8 finds a row, an entry, a cell or a result by its name, its label or what it shows, and goes there.",
  "Control with Z and Y undo and redo.",
  "In a row, Alt with the arrows moves it, Alt with Enter adds one, Alt with Delete removes it; in the ledger Alt with Shift and Enter goes to what can be added.",
  "Shift with the arrows, or the mouse drawn over cells, selects a range; Shift with Space selects its rows, Control with A the table.",
  "Control with C, X and V copy, cut and paste, Delete empties, Control with D fills down, Control with Enter fills the range with what was typed.",
] as const;
