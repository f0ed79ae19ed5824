/** The words with a capital first letter, as a sentence begins. */
export function capitalise(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
