import type { ClientWeek } from '../../analysis/clientWeek';
import type { Client } from '../../domain/client';
import type { Pressing } from './pressing';

/** One client's line on the week's page. Without a week it could not be worked out; without the rest its series are still being read. */
export type WeekLineOf = {
  readonly client: Client;
  readonly week?: ClientWeek;
  readonly pressing?: Pressing;
};
