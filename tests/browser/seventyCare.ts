import type { Floor } from './seventyHands';
export function careAndEnd(_: () => Floor): void {}
