import type { OtherFinding } from '../../analysis/otherFindings';
import type { Picture, PicturePoint } from '../charts/picture';
import { rowOf } from '../measureWords';
import { otherTone } from '../otherWords';
import { isTotalOf, TOTAL } from '../tonnageWords';

/*
 * Which of a topic's findings stands above, which beside it, and which picture and point are shown first: those that it tells of.
 */

type Shown = { readonly picture: string; readonly isPoint?: (point: PicturePoint) => boolean };

/** Returns which picture shows a finding, and which of its points; undefined where none is its own. */
function shownBy(one: OtherFinding): Shown | undefined {
  const onDay = ({ day }: PicturePoint): boolean => day === one.day;
  switch (one.topic) {
    case 'pain':
      return undefined;
    case 'came-in':
      return { picture: 'sums', isPoint: onDay };
    case 'sides':
    case 'carries':
    case 'time':
    case 'volume':
      return { picture: one.exercise, isPoint: onDay };
    case 'tonnage':
      return one.type === 'stale-mass' ? undefined : { picture: one.exercise ?? TOTAL, isPoint: onDay };
    case 'landings':
      return isCount(one) ? { picture: 'counts', isPoint: onDay } : { picture: 'good' };
    case 'cues':
      return { picture: 'cues', isPoint: ({ key }) => 'cue' in one && key === one.cue.cue };
    case 'sets':
      return { picture: 'areas' };
    case 'load':
      return { picture: 'weeks', isPoint: onDay };
    case 'measures':
      return { picture: 'degrees', isPoint: ({ key }) => key === rowOf(one) };
    case 'learning':
      return { picture: one.exercise, isPoint: ({ key }) => key === String(one.judged) };
  }
}

const isCount = (one: OtherFinding): boolean => one.topic === 'landings' && 'landings' in one;

/**
 * Returns the findings of one topic with the one that stands above first: of tonnage the total, always; else what presses or goes well as it was ranked,
 * then the landings' count, then what a picture shows. The rest stays in its order.
 */
export function aboveFirst(found: readonly OtherFinding[], pictures: readonly Picture[]): readonly OtherFinding[] {
  const isDrawn = (one: OtherFinding): boolean => pictures.some(({ id }) => id === shownBy(one)?.picture);
  const place = (one: OtherFinding): number => {
    if (one.topic === 'tonnage') return isTotalOf(one) ? 0 : 1;
    if (otherTone(one) !== 'plain') return 0;
    return isCount(one) ? 1 : isDrawn(one) ? 2 : 3;
  };
  return found.toSorted((a, b) => place(a) - place(b));
}

const HELPS: readonly OtherFinding['type'][] = ['best', 'often'];
const HELPS_NOT: readonly OtherFinding['type'][] = ['no-help', 'seldom'];

/** Returns what stands in the first view too: beside the cue that does not help the one that does, and the other way round. */
export function besideIt([first, ...more]: readonly OtherFinding[]): readonly OtherFinding[] {
  if (first?.topic !== 'cues') return [];
  const other = HELPS.includes(first.type) ? HELPS_NOT : HELPS_NOT.includes(first.type) ? HELPS : [];
  return more.filter(({ type }) => other.includes(type)).slice(0, 1);
}

/** Returns the pictures with that of the first finding first (without one, that of all exercises), each opening at the point that is told of. */
export function openingOn(found: readonly OtherFinding[], pictures: readonly Picture[]): readonly Picture[] {
  const [first] = found;
  const told = first ? shownBy(first)?.picture : TOTAL;
  const shown = found.flatMap((one) => shownBy(one) ?? []);
  return pictures
    .map((one): Picture => {
      const isPoint = shown.find(({ picture }) => picture === one.id)?.isPoint;
      const opens = isPoint && one.points.findLast(isPoint)?.key;
      return opens === undefined ? one : { ...one, opens };
    })
    .toSorted((a, b) => Number(b.id === told) - Number(a.id === told));
}
