import { signal } from '@preact/signals';

/** What the one live region says; it is on the page from the start, so that readers hear a change. */
export const said = signal('');

/** Says a sentence in the live region. */
export function say(sentence: string): void {
  said.value = sentence;
}
