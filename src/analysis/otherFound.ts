import type { Day } from '../domain/day';
import { cameInFindings } from './cameInFinding';
import { cueFindings } from './cueFindings';
import type { Known } from './known';
import { landingFindings } from './landingFindings';
import { learningFindings } from './learningFindings';
import { loadFindings } from './loadFinding';
import type { OtherFinding } from './otherFindings';
import { placeOfOther, urgencyOfOther } from './otherRank';
import type { Others } from './others';
import { painFindings } from './painReturning';
import { rangeFindings } from './rangeFindings';
import { setFindings } from './setFindings';
import { sideFindings } from './sideFindings';
import type { ClientRecord } from './studio';
import { sumFindings } from './sumFindings';
import { tonnageFindings } from './tonnageFindings';
import { inOrder } from './weeks';

/**
 * Returns what the methods beside the trend engine find of a client as was known by a day (`knownBy`), the most pressing first. Nothing is told of what
 * there is no record of.
 */
export function otherFindings(client: ClientRecord, others: Others, asOf: Day): readonly OtherFinding[] {
  const visits = inOrder(client.sessions).filter(({ day }) => day <= asOf);
  const known: Known = { client, others, asOf, visits };
  const found: readonly OtherFinding[] = [
    ...painFindings(known),
    ...cameInFindings(known),
    ...sideFindings(known),
    ...landingFindings(known),
    ...cueFindings(known),
    ...tonnageFindings(known),
    ...setFindings(known),
    ...sumFindings(known),
    ...loadFindings(known),
    ...rangeFindings(known),
    ...learningFindings(known),
  ];
  return found
    .map((one) => ({ one, urgency: urgencyOfOther(one, client.targets, asOf), place: placeOfOther(one) }))
    .sort((a, b) => b.urgency - a.urgency || (a.place < b.place ? -1 : a.place > b.place ? 1 : 0))
    .map(({ one }) => one);
}
