import type { Answers } from '../../analysis/answers';
import { type OtherFinding, TOPICS, type Topic } from '../../analysis/otherFindings';
import { cameInPictures, cameInText, painPictures, painText } from '../cameInWords';
import { isDrawn, type Picture } from '../charts/picture';
import { cuePictures, cuesText } from '../cueEffectWords';
import { landingPictures, landingsText } from '../landingWords';
import { loadPictures, loadText } from '../loadWords';
import { learningPictures, learningText, measuresPictures, measuresText } from '../measureWords';
import { type FoundWords, otherTone, type Telling } from '../otherWords';
import { setsPictures, setsText } from '../setsWords';
import { sidesPictures, sidesText } from '../sidesWords';
import { carryPictures, sumPictures, sumText } from '../sumWords';
import { bodyText, tonnagePictures, tonnageText } from '../tonnageWords';
import { aboveFirst, besideIt, openingOn } from './shownFirst';

/** One topic of a client's: what is found, what stands above first (nothing, where there was none of late), and what is drawn of it. */
export type TopicAnswers = {
  readonly topic: Topic;
  readonly found: readonly OtherFinding[];
  /** Of these, what stands in the first view beside the first. */
  readonly beside: readonly OtherFinding[];
  /** What it is reckoned with, where that is to be known. */
  readonly reckoned: string;
  readonly pictures: readonly Picture[];
};

/** Returns the topics that there is anything of, the most pressing first, and those of which nothing is noted. */
export function topicsOf(
  answers: Answers,
  telling: Telling,
): { readonly told: readonly TopicAnswers[]; readonly notNoted: readonly Topic[] } {
  const topics = [...new Set(answers.found.map(({ topic }) => topic))];
  // what presses or goes well as it was ranked, then what is neither in an order that stays
  const isPlain = (topic: Topic): boolean =>
    answers.found.every((one) => one.topic !== topic || otherTone(one) === 'plain');
  const order = [...topics.filter((topic) => !isPlain(topic)), ...TOPICS.filter(isPlain)];
  const told = order.flatMap((topic): TopicAnswers[] => {
    const own = answers.found.filter((one) => one.topic === topic);
    const pictures = PICTURES[topic](answers, telling).filter(({ points }) => points.length > 0);
    if (own.length === 0 && !pictures.some(({ points }) => points.some(isDrawn))) return [];
    const found = aboveFirst(own, pictures);
    const reckoned = topic === 'tonnage' ? bodyText(answers, telling) : '';
    return [{ topic, found, beside: besideIt(found), reckoned, pictures: openingOn(found, pictures) }];
  });
  // pain that nobody tells of is no thing that is missing
  const notNoted = TOPICS.filter((topic) => topic !== 'pain' && !told.some((one) => one.topic === topic));
  return { told, notNoted };
}

const PICTURES: Readonly<Record<Topic, (answers: Answers, telling: Telling) => readonly Picture[]>> = {
  pain: painPictures,
  'came-in': cameInPictures,
  sides: sidesPictures,
  landings: landingPictures,
  cues: cuePictures,
  tonnage: tonnagePictures,
  sets: setsPictures,
  carries: carryPictures,
  time: (answers, telling) => sumPictures(answers, 'time', telling),
  volume: (answers, telling) => sumPictures(answers, 'volume', telling),
  load: loadPictures,
  measures: measuresPictures,
  learning: learningPictures,
};

/** Returns a finding in words. */
export function foundWords(one: OtherFinding, telling: Telling): FoundWords {
  switch (one.topic) {
    case 'pain':
      return painText(one, telling);
    case 'came-in':
      return cameInText(one, telling);
    case 'sides':
      return sidesText(one, telling);
    case 'landings':
      return landingsText(one, telling);
    case 'cues':
      return cuesText(one, telling);
    case 'tonnage':
      return tonnageText(one, telling);
    case 'sets':
      return setsText(one, telling);
    case 'carries':
    case 'time':
    case 'volume':
      return sumText(one, telling);
    case 'load':
      return loadText(one, telling);
    case 'measures':
      return measuresText(one, telling);
    case 'learning':
      return learningText(one, telling);
  }
}
