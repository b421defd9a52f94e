import { type DumbbellRow, type Kit, MOST_BANDS, MOST_PLACE, MOST_SORTS } from './kit';
import { fail, ok, type Result } from './result';
import { MOST_LABEL } from './set';
import { type LoadUnit, MOST_LOAD } from './units';

/** A place as it is typed. */
export type PlaceFields = {
  readonly name: string;
  readonly bands: string;
  readonly pins: string;
  readonly unit: LoadUnit;
  readonly bars: string;
  readonly plates: string;
  readonly dumbbells: string;
};

export const NO_PLACE: PlaceFields = {
  name: '',
  bands: '',
  pins: '',
  unit: 'kg',
  bars: '',
  plates: '',
  dumbbells: '',
};

/** Returns the texts that would enter a kit under a name. */
export const placeFields = (name: string, kit: Kit): PlaceFields => ({
  name,
  bands: kit.bands.join(', '),
  pins: kit.pins === undefined ? '' : String(kit.pins),
  unit: kit.unit,
  bars: kit.bars.join(' '),
  plates: kit.plates.join(' '),
  dumbbells: kit.dumbbells.map(rowText).join(', '),
});

const rowText = ({ from, to, step }: DumbbellRow): string => (from === to ? `${from}` : `${from}-${to} by ${step}`);

type Sorts = 'bars' | 'plates' | 'dumbbells';
export type PlaceFault =
  | { readonly type: 'empty'; readonly field: 'place' }
  | { readonly type: 'too-long'; readonly field: 'place' | 'bands'; readonly most: number; readonly has: number }
  | { readonly type: 'too-many'; readonly field: 'bands' | Sorts; readonly most: number }
  | { readonly type: 'not-weights'; readonly field: 'bars' | 'plates'; readonly text: string }
  | { readonly type: 'not-rows'; readonly field: 'dumbbells'; readonly text: string }
  | {
      readonly type: 'out-of-range';
      readonly field: 'pins';
      readonly min: number;
      readonly max: number;
      readonly unit: string;
    };

/** The registers of a place; empty lists and `null` are what is not noted. */
export type PlaceValues = Omit<Kit, 'pins'> & { readonly name: string; readonly pins: number | null };

/**
 * Returns the registers of a place as typed: bands parted by commas, from light to heavy; bars and plates by spaces; dumbbells as `2-20 by 2`,
 * parted by commas. Fails with the first fault.
 */
export function parsePlace(fields: PlaceFields): Result<PlaceValues, PlaceFault> {
  const name = fields.name.trim();
  if (name === '') return fail({ type: 'empty', field: 'place' });
  if (name.length > MOST_PLACE) return fail({ type: 'too-long', field: 'place', most: MOST_PLACE, has: name.length });
  const bands = partsOf(fields.bands, /,/);
  const long = bands.find((band) => band.length > MOST_LABEL);
  if (long !== undefined) return fail({ type: 'too-long', field: 'bands', most: MOST_LABEL, has: long.length });
  if (bands.length > MOST_BANDS) return fail({ type: 'too-many', field: 'bands', most: MOST_BANDS });
  const pins = fields.pins.trim();
  const highest = Number(pins);
  if (pins !== '' && !(/^\d+$/.test(pins) && highest >= 1 && highest <= 99))
    return fail({ type: 'out-of-range', field: 'pins', min: 1, max: 99, unit: '' });
  const bars = parseWeights('bars', fields);
  if (!bars.ok) return bars;
  const plates = parseWeights('plates', fields);
  if (!plates.ok) return plates;
  const dumbbells = parseRows(fields);
  if (!dumbbells.ok) return dumbbells;
  return ok({
    name,
    bands: [...new Set(bands)],
    pins: pins === '' ? null : highest,
    unit: fields.unit,
    bars: bars.value,
    plates: plates.value,
    dumbbells: dumbbells.value,
  });
}

const partsOf = (text: string, by: RegExp): readonly string[] =>
  text
    .split(by)
    .map((part) => part.trim())
    .filter((part) => part !== '');

// a comma within digits could part two plates or be a decimal: it is refused, never guessed at
const WEIGHT = /^\d+(\.\d+)?$/;
const ROW = /^(\d+(?:\.\d+)?)(?:\s*[-–]\s*(\d+(?:\.\d+)?)\s+by\s+(\d+(?:\.\d+)?))?$/;

function parseWeights(field: 'bars' | 'plates', fields: PlaceFields): Result<readonly number[], PlaceFault> {
  const parts = partsOf(fields[field], /\s+|,(?=\s|$)/);
  const odd = parts.find((part) => !WEIGHT.test(part) || !isWeight(Number(part), fields.unit));
  if (odd !== undefined) return fail({ type: 'not-weights', field, text: odd });
  if (parts.length > MOST_SORTS) return fail({ type: 'too-many', field, most: MOST_SORTS });
  return ok([...new Set(parts.map(Number))]);
}

function parseRows({ dumbbells, unit }: PlaceFields): Result<readonly DumbbellRow[], PlaceFault> {
  const parts = partsOf(dumbbells, /,/);
  if (parts.length > MOST_SORTS) return fail({ type: 'too-many', field: 'dumbbells', most: MOST_SORTS });
  const rows: DumbbellRow[] = [];
  for (const part of parts) {
    const [, first, last = first, by = '1'] = ROW.exec(part) ?? [];
    const [from, to, step] = [Number(first), Number(last), Number(by)];
    if (!isWeight(from, unit) || !isWeight(to, unit) || !isWeight(step, unit) || to < from)
      return fail({ type: 'not-rows', field: 'dumbbells', text: part });
    rows.push({ from, to, step });
  }
  return ok(rows);
}

const isWeight = (value: number, unit: LoadUnit): boolean => value > 0 && value <= MOST_LOAD[unit];
