import type { Exercise } from './exercise';

/**
 * Returns what may take an exercise's place today: the easier step first, then others of its pattern, as they stand in the library; nothing that
 * `isOpen` refuses. Common practice, no more: the trainer chooses.
 */
export function suggestionsFor(
  exercise: Exercise,
  all: readonly Exercise[],
  isOpen: (id: string) => boolean,
  most: number,
): readonly Exercise[] {
  const alike = all.filter((one) => exercise.pattern !== undefined && one.pattern === exercise.pattern);
  const easier = all.filter((one) => one.id === exercise.easier);
  return [...new Set([...easier, ...alike])].filter((one) => one.id !== exercise.id && isOpen(one.id)).slice(0, most);
}
