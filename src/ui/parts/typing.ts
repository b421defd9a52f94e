/*
 * Which fields hold text that was typed and is kept nowhere yet: a page that reloads by itself would lose it.
 */

type Field = HTMLInputElement | HTMLTextAreaElement;
const typed = new Set<Field>();

/** Begins to notice what is typed, anywhere on the page. */
export function watchTyping(): void {
  document.addEventListener('input', ({ target }) => {
    if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement) typed.add(target);
  });
}

/** Returns whether a field on the page holds typed text: one that was emptied or has gone from the page does not. */
export function hasUnkeptText(): boolean {
  for (const field of typed) if (!field.isConnected || field.value === '') typed.delete(field);
  return typed.size > 0;
}
