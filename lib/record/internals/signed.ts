/** A written number with its sign, whichever it is. */
export function signed(text: string): string {
  return text.startsWith("-") ? text : `+${text}`;
}
