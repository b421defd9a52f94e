import type { Locator } from 'playwright-core';
import { expect } from 'vitest';

/** Waits until a place on the screen says all of these, in this order (spaces and line ends are one). */
export async function says(place: Locator, ...sentences: readonly string[]): Promise<void> {
  await expect.poll(() => textOf(place), { timeout: 5000 }).toMatch(inOrder(sentences));
}

/** Waits until a place on the screen says none of this any more. */
export async function saysNot(place: Locator, sentence: string): Promise<void> {
  await expect.poll(() => textOf(place), { timeout: 5000 }).not.toContain(sentence);
}

/** Returns the text of a place with single spaces; empty where there is no such place. */
export async function textOf(place: Locator): Promise<string> {
  const texts = await place.allInnerTexts();
  return texts.join(' ').replace(/\s+/g, ' ').trim();
}

function inOrder(sentences: readonly string[]): RegExp {
  return new RegExp(sentences.map((sentence) => sentence.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('.*'));
}
