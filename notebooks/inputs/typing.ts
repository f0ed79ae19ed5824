/** Whether a key types a letter or takes one away. */
export function isTyping({ key }: KeyboardEvent): boolean {
  return key.length === 1 || key === "Backspace" || key === "Delete";
}

/** Whether whoever presses this key goes on typing where they are: a letter, or what is held down for one. A shortcut asks for something else. */
export function goesOnTyping(event: KeyboardEvent): boolean {
  if (event.ctrlKey || event.metaKey) return false;
  return isTyping(event) || event.key === "Shift" || event.key === "AltGraph" || event.key === "Dead" || event.isComposing;
}
