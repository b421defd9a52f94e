import type { Floor } from './seventyHands';
export function blocksAndChanges(_: () => Floor): void {}
