import { countOf } from './format';

/*
 * The fixed words around what the analysis says: on the sheet, the client's page and a chart's page.
 */

export const ANSWERS = {
  sure: 'How sure',
  range:
    'The range in brackets holds four times in five. It is what could be done on an ordinary day, not what the next set will be.',
  estimate: 'All of it is reckoned from logged sets, not tested. It is no medical advice.',
  straight: 'What a day needs lies on the straight line from the start of a target to its goal.',
  none: 'Nothing to judge yet: it takes working sets without help, with their reps; of loads at most 15, those left counted.',
  needsMass: 'Loads added to the body are judged once a body mass is noted, on the client’s page.',
  could: 'What could be done',
  held: 'What was held',
  dots: 'Dots: what each session says by itself. Line and band: what all up to then say, four times in five.',
  needs: 'Long dashes: what each day needs; the cross is the goal.',
  fan: 'Short dashes, from the last session on: the forecast.',
  columns:
    'That day: what its sets say could be done with nothing left. So far: what all sessions up to then say, four times in five.',
  onTime: 'Are we on time?',
  trends: 'How each exercise goes',
  others: (count: number, isMore: boolean): string => countOf(count, isMore ? 'more exercise' : 'exercise'),
  plain: (count: number): string => `${countOf(count, 'exercise')} of seconds, bands, pins, landings and the like`,
  noTarget: 'No target yet: open an exercise’s chart to set one.',
  setTarget: 'Set a target',
  targetFor: 'Target',
  noTrends: 'Nothing logged that can be judged yet.',
  open: 'Chart',
} as const;

export const AHEAD = {
  caption: 'What lies ahead',
  day: 'Day',
  side: 'Side',
  forecast: 'Forecast',
  needs: 'Needed',
} as const;
