import type { Floor } from './seventyHands';
export function nextTime(_: () => Floor): void {}
