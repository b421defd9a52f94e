import * as z from 'zod/mini';
import type { Exercise, Holds } from './exercise';
import { WEEK_DAYS, type WeekDay } from './template';
import { type DistanceUnit, HEIGHT_UNITS, type HeightUnit, LOAD_UNITS, type LoadUnit } from './units';

/** How effort is asked for: as reps left, or as RPE (RPE = 10 − reps left; Zourdos 2016, METHODS §1.4). */
export const EFFORT_SCALES = ['left', 'rpe'] as const;
export type EffortScale = (typeof EFFORT_SCALES)[number];

/** Days a week may begin with. */
export const FIRST_DAYS = ['mon', 'sun', 'sat'] as const satisfies readonly WeekDay[];

/** Exercises that share a rest by default, by what their sets hold. */
export const REST_GROUPS = ['loads', 'body', 'time', 'landings', 'range'] as const;
export type RestGroup = (typeof REST_GROUPS)[number];

/** What the trainer chose once for everything. It fills in what is empty, and changes nothing that was logged. */
export type Settings = {
  readonly load: LoadUnit;
  /** Heights and lengths; distances follow: metres with centimetres, feet with inches. */
  readonly length: HeightUnit;
  readonly firstDay: (typeof FIRST_DAYS)[number];
  readonly effort: EffortScale;
  /** Seconds of rest, where they differ from what each exercise says. */
  readonly rest: Readonly<Partial<Record<RestGroup, number>>>;
};

const restSchema = z.int().check(z.gte(0), z.lte(1800));

/** The registers of the settings row, each checked by itself. */
const schemas = {
  load: z.enum(LOAD_UNITS),
  length: z.enum(HEIGHT_UNITS),
  firstDay: z.enum(FIRST_DAYS),
  effort: z.enum(EFFORT_SCALES),
} as const;

/** A setting by its path in the settings row, and the value it takes; `null` leaves it to the default. */
export type SettingPath = keyof typeof schemas | `rest/${RestGroup}`;

export const DEFAULT_SETTINGS: Settings = { load: 'kg', length: 'cm', firstDay: 'mon', effort: 'left', rest: {} };

/** Returns the settings that the row's shown values tell of; what is not set, or not readable by this version, is the default. */
export function readSettings(values: Readonly<Record<string, unknown>>): Settings {
  const read: { -readonly [K in keyof Settings]: Settings[K] } = { ...DEFAULT_SETTINGS };
  for (const path of Object.keys(schemas) as (keyof typeof schemas)[]) {
    const parsed = z.safeParse(schemas[path], values[path]);
    if (parsed.success) Object.assign(read, { [path]: parsed.data });
  }
  const rests = REST_GROUPS.flatMap((group) => {
    const parsed = z.safeParse(restSchema, values[`rest/${group}`]);
    return parsed.success ? [[group, parsed.data] as const] : [];
  });
  return { ...read, rest: Object.fromEntries(rests) };
}

/** Returns the unit of distances that goes with the unit of lengths. */
export const distanceUnitOf = ({ length }: Settings): DistanceUnit => (length === 'cm' ? 'm' : 'ft');

const GROUP: Readonly<Record<Holds, RestGroup>> = {
  load: 'loads',
  pin: 'loads',
  carry: 'loads',
  body: 'body',
  band: 'body',
  time: 'time',
  landings: 'landings',
  tries: 'landings',
  degrees: 'range',
  tick: 'range',
};

/** Returns the exercise with the rest that the settings give to its like, or as it is where they say nothing. */
export function withRest(exercise: Exercise, { rest }: Settings): Exercise {
  const seconds = rest[GROUP[exercise.holds]];
  return seconds === undefined || seconds === exercise.rest ? exercise : { ...exercise, rest: seconds };
}

/** Returns the days of a week in their order, from the day it begins with. */
export function weekFrom(first: WeekDay): readonly WeekDay[] {
  const at = WEEK_DAYS.indexOf(first);
  return [...WEEK_DAYS.slice(at), ...WEEK_DAYS.slice(0, at)];
}
