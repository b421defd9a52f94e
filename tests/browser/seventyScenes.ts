import {
  addBlock,
  cardOn,
  cellOn,
  type Floor,
  hold,
  linesOf,
  logTo,
  more,
  nextSet,
  restLeft,
  toClient,
  touchUp,
} from './seventyHands';

/** A point of the story at which the app may be killed. */
export type Scene = {
  readonly what: string;
  readonly at: string;
  /** Whose session is on the screen then. */
  readonly short: string;
  /** Brings the floor there. Returns what the screen must say, before and after. */
  readonly play: (floor: Floor) => Promise<readonly string[]>;
  /** The caret stands in a field then: what is typed is kept, the caret is not. */
  readonly types?: true;
  /** It has an address of its own, which the home screen does not lead to. */
  readonly own?: true;
};

/** Brings three clients to the floor, each with a session. */
export async function openedFloor({ hands, at }: Floor): Promise<void> {
  await hands.addClient({ alias: 'Client K', dayName: 'opening', day: '2027-01-05' });
  await hands.addClient({ alias: 'Vale', dayName: 'first rehearsal', day: '2026-12-01' });
  await hands.addClient({ alias: 'Ondry' });
  await hands.tap('Start Ondry');
  for (const [time, alias] of [
    ['10:01', 'Vale'],
    ['10:02', 'Client K'],
  ] as const) {
    await at(time);
    await hands.tap('another client');
    await hands.tap(`Start ${alias}`, hands.sheet());
  }
}

export const SCENES: readonly Scene[] = [
  {
    what: 'half of a load typed in the pad',
    at: '10:03',
    short: 'K',
    types: true,
    async play({ hands }) {
      await hands.tap('Choose an exercise');
      await hands.tap('Front squat', hands.sheet());
      await hands.say({ load: '60', reps: '5' });
      const load = await hands.typing('load');
      await load.fill('57,5');
      return [];
    },
  },
  {
    what: 'in a rest that was made longer, the set touched up',
    at: '10:05',
    short: 'K',
    async play({ hands }) {
      await logTo(hands, 'Front squat');
      await hands.tap('15 seconds more rest');
      await hands.tap('2 left', touchUp(hands));
      await hands.tap('clean', touchUp(hands));
      await restLeft(hands.page).waitFor();
      return ['57.5 kg × 5', '2 left · clean', '2:45'];
    },
  },
  {
    what: 'a drop set with its second part changed',
    at: '10:09',
    short: 'K',
    async play({ hands }) {
      await hands.kind('drop');
      await hands.say({ 'load of part 2': '42,5', 'reps of part 2': '7' });
      return ['57.5 kg × 5', 'then 42.5 kg × 7', 'drop'];
    },
  },
  {
    what: 'one side done, the other due',
    at: '10:12',
    short: 'Vale',
    async play({ hands }) {
      await toClient(hands, 'Vale');
      await hands.tap('Choose an exercise');
      await hands.tap('Split squat', hands.sheet());
      await hands.say({ load: '12', reps: '8' });
      await logTo(hands, 'Split squat');
      return ['2 × 12 kg × 8 left', '2 × 12 kg × 8', 'right', 'Vale other side'];
    },
  },
  {
    what: 'landings with their direction, one judged and none logged',
    at: '10:14',
    short: 'Vale',
    async play({ hands }) {
      await hands.choose('Hop and hold');
      await hands.say({ landings: '3' });
      await hands.tap('landing 1: not noted', hands.pad());
      await hands.tap('direction?', nextSet(hands));
      await hands.tap('back-out', hands.pad());
      await hands.tapOn(nextSet(hands).getByRole('button', { name: 'landings: 3 landings' }));
      await hands.pad().getByRole('button', { name: 'landing 1: good' }).waitFor();
      return ['good 2 3', '3 landings back-out left'];
    },
  },
  {
    what: 'a block in hand with a cell changed',
    at: '10:17',
    short: 'Ondry',
    async play({ hands }) {
      await toClient(hands, 'Ondry');
      await addBlock(hands, {
        kind: 'rounds',
        fields: { Rounds: '4' },
        stations: [
          ['Goblet squat', { load: '20', reps: '8' }],
          ['One-arm row', { load: '16', reps: '10' }],
          ['Incline push-up', { reps: '12' }],
        ],
      });
      await hands.tapOn(cellOn(hands.page, 'A1', 1));
      await hold(cellOn(hands.page, 'A2', 1));
      await hands.say({ reps: '9' });
      return ['Working: round 1, station 2 of 3', '16 kg × 9 left', 'Ondry station 2', 'Log A2 left'];
    },
  },
  {
    what: 'a round done, its rest running',
    at: '10:19',
    short: 'Ondry',
    async play({ hands }) {
      await hands.tap('Log Ondry · round 1', hands.pad());
      await restLeft(hands.page).waitFor();
      return ['Round 1 done, rest', '1:00', 'Ondry rest 1:00', 'round 2'];
    },
  },
  {
    what: 'work and rest running by the clock',
    at: '10:21',
    short: 'Ondry',
    async play({ hands, at }) {
      await addBlock(hands, {
        kind: 'work and rest by the clock',
        fields: { Rounds: '2', 'Work, seconds': '40', 'Rest between, seconds': '20' },
        stations: [
          ['Side plank', {}],
          ['Calf raise', { reps: '15' }],
        ],
      });
      await hold(cellOn(hands.page, 'B1', 1));
      await hands.tap('Start the clock');
      await at('10:21:50');
      return ['0:10 rest · station 1 · round 1', 'Ondry rest 0:10'];
    },
  },
  {
    what: 'a session paused',
    at: '10:24',
    short: 'Vale',
    async play({ hands, at }) {
      await toClient(hands, 'Vale');
      await more(hands, 'Pause the session');
      await at('10:27');
      return ['23 min', 'Paused since 10:24.', 'Vale paused'];
    },
  },
  {
    what: 'a count spread over the session, half of it done',
    at: '10:28',
    short: 'K',
    async play({ hands }) {
      await toClient(hands, 'K');
      await hands.choose('Push-up');
      await more(hands, 'Spread over the session: Push-up');
      await hands.type('How many in all', '30');
      await hands.tap('Keep the count');
      await hands.tap('10 more of Push-up');
      await hands.tap('5 more of Push-up');
      return ['15 of 30, spread over the session', 'Push-up 15 of 30'];
    },
  },
  {
    what: 'after a swap for the easier step',
    at: '10:31',
    short: 'K',
    async play({ hands }) {
      await hands.choose('Bench press');
      await hands.tap('Change today');
      await hands.tap('machine taken', hands.sheet());
      await hands.tap('Easier step: Dumbbell bench press', hands.sheet());
      await hands.sheet().waitFor({ state: 'detached' });
      await hands.say({ load: '18' });
      return ['Swapped for Dumbbell bench press.', '2 × 18 kg × reps?'];
    },
  },
  {
    what: 'an exercise closed by pain',
    at: '10:34',
    short: 'K',
    async play({ hands }) {
      await hands.say({ reps: '8' });
      const line = await logTo(hands, 'Dumbbell bench press');
      await hands.tapOn(line.getByRole('button'));
      await hands.tap('pain 5', hands.sheet());
      await hands.tap('Close', hands.sheet());
      return ['pain 5', 'Dumbbell bench press. Closed for this session: pain 5 of 10.'];
    },
  },
  {
    what: 'the sheet of a set open',
    at: '10:36',
    short: 'K',
    own: true,
    async play({ hands }) {
      await hands.tapOn(linesOf(hands.page, 'Front squat').first().getByRole('button'));
      await hands.tap('other faults', hands.sheet());
      await hands.tap('shrug', hands.sheet());
      return ['Front squat: 57.5 kg × 5', 'move to Vale', 'shrug'];
    },
  },
  {
    what: 'the trend of an exercise open',
    at: '10:38',
    short: 'K',
    own: true,
    async play({ hands }) {
      await hands.tap('Close', hands.sheet());
      const name = cardOn(hands.page, 'Front squat').getByRole('button', { name: /^Front squat/ });
      // the first tap takes it in hand, the second opens its trend
      await hands.tapOn(name);
      await nextSet(hands).waitFor();
      await hands.tapOn(name);
      await hands.page.getByRole('dialog', { name: 'Front squat' }).waitFor();
      return ['Front squat', 'First session: nothing to compare with yet.'];
    },
  },
  {
    what: 'before we start half answered, in its sheet',
    at: '10:40',
    short: 'Ondry',
    own: true,
    async play({ hands }) {
      await hands.tap('Close', hands.sheet());
      await toClient(hands, 'Ondry');
      await more(hands, 'Before we start: how they came in');
      await hands.tap('Sleep 2', hands.sheet());
      await hands.tap('knee', hands.sheet());
      return ['Before we start', 'Sleep 1 hardly slept', 'Sore places'];
    },
  },
  {
    what: 'the client looking at their own numbers',
    at: '10:42',
    short: 'Ondry',
    own: true,
    async play({ hands }) {
      await hands.tap('Done', hands.sheet());
      await hands.tap('Show Ondry');
      return ['Ondry', 'Today', 'Goblet squat', '20 kg × 8'];
    },
  },
];
