import type { Law } from './law';
import { doorLaws } from './laws-door';
import { keepingLaws } from './laws-keeping';
import { mergeLaws } from './laws-merge';
import { readingLaws } from './laws-reading';
import { removalLaws } from './laws-removal';
import { writeLaws } from './laws-write';

/** Every law of rows and registers that a room can be tried on. M7, M10 and M12 are the log's and sync's. */
export const LAWS: readonly Law[] = [
  ...doorLaws,
  ...mergeLaws,
  ...writeLaws,
  ...removalLaws,
  ...keepingLaws,
  ...readingLaws,
];
