import type { Kit } from './kit';
import type { LoadUnit } from './units';

/** Kinds of place to begin with. What is usual in them, from common practice: to be changed to what is there. */
export const PLACE_KINDS = ['commercial-gym', 'small-studio', 'hotel-room'] as const;
export type PlaceKind = (typeof PLACE_KINDS)[number];

type Irons = Pick<Kit, 'bars' | 'plates' | 'dumbbells'>;
const NONE: Irons = { bars: [], plates: [], dumbbells: [] };

const IRONS: Readonly<Record<PlaceKind, Readonly<Record<LoadUnit, Irons>>>> = {
  'commercial-gym': {
    kg: {
      bars: [20, 15],
      plates: [25, 20, 15, 10, 5, 2.5, 1.25],
      dumbbells: [
        { from: 1, to: 10, step: 1 },
        { from: 12, to: 40, step: 2 },
      ],
    },
    lb: { bars: [45, 35], plates: [45, 35, 25, 10, 5, 2.5], dumbbells: [{ from: 5, to: 100, step: 5 }] },
  },
  'small-studio': {
    kg: { bars: [20, 15], plates: [20, 15, 10, 5, 2.5, 1.25], dumbbells: [{ from: 2, to: 24, step: 2 }] },
    lb: { bars: [45, 35], plates: [45, 25, 10, 5, 2.5], dumbbells: [{ from: 5, to: 50, step: 5 }] },
  },
  'hotel-room': { kg: NONE, lb: NONE },
};

const REST: Readonly<Record<PlaceKind, Pick<Kit, 'bands' | 'pins'>>> = {
  'commercial-gym': { bands: ['light', 'medium', 'strong', 'extra strong'], pins: 20 },
  'small-studio': { bands: ['light', 'medium', 'strong', 'extra strong'], pins: 15 },
  'hotel-room': { bands: ['light', 'medium', 'strong'] },
};

/** Returns the kit that a kind of place usually has, its iron in the unit named. */
export const usualKit = (kind: PlaceKind, unit: LoadUnit): Kit => ({ ...REST[kind], unit, ...IRONS[kind][unit] });
