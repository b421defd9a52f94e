/** Everything outside the program that a decision may depend on, handed in by main so that tests can hand in their own. */
export type World = {
  /** Milliseconds since 1970, as the device believes them. May be wrong by years (law M4): nothing may refuse to work for it. */
  readonly now: () => number;
  /** The IANA name of the zone the device is in now, such as `Europe/Vienna`. */
  readonly zone: () => string;
  /** `count` bytes that nobody can foresee. */
  readonly random: (count: number) => Uint8Array;
};
