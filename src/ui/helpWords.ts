/* The help in the app: what to do, in the order in which it comes up. */

export const HELP: readonly { readonly title: string; readonly lines: readonly string[] }[] = [
  {
    title: 'The first session',
    lines: [
      'On Today tap Start beside a client, then Choose an exercise. The sentence above the button is the next set.',
      'Tap a part of the sentence to change it: −, four recent values, +; hold − or + and it runs; tap the number once more to type it.',
      'Log logs it. While the client rests the same place asks what was seen: effort, form, what the cue did. Leave out what nobody saw: it stays “not noted”.',
    ],
  },
  {
    title: 'Mending',
    lines: [
      'Undo takes back the last act, also after a restart. A line of the record opens to be changed, moved to another client or removed.',
      'The kind word (“working”) offers warm-up, test, back-off, drop, cluster and assisted.',
    ],
  },
  {
    title: 'Rounds, changes and more',
    lines: [
      'More adds a block: rounds as a grid, lists of reps, every-minute, as many rounds as possible, work and rest by the clock. Tap a cell: done as planned. Hold it: change it first.',
      'Change today swaps, skips with a reason, reorders, cuts to the minutes that are left, and finds an easier step.',
      'The name of an exercise opens its trend; Back comes back to the same set. Show is the screen for the client’s eyes.',
      'Other work, more (on Today) notes a rehearsal, a class, travel, a rest day, and days that were missed.',
      'The week (on Today) has all clients on one page: who needs what, what was done, landings, dates; earlier weeks as they stood then. It prints on paper.',
    ],
  },
  {
    title: 'The usual session',
    lines: [
      'After two sessions alike, Today offers the usual one. A session kept as a template is offered on its days of the week.',
    ],
  },
  {
    title: 'Keeping the records',
    lines: [
      'Everything is on this phone. The line at the top of Today says what is saved and when the last backup was made; it opens the page that makes a backup file.',
      'NOT SAVED means just that: nothing is lost yet, and the card says what to do.',
    ],
  },
];
