import { boundsOf, type Field } from '../../domain/entry';
import { offeredValues, recentOf } from '../../domain/prefill';
import { DISTANCE_UNITS, fromKg, LOAD_UNITS } from '../../domain/units';
import { fieldName } from '../faultWords';
import { number } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { HoldButton } from '../parts/HoldButton';
import { useNarrow } from '../parts/useNarrow';
import type { ControlProps } from './controlProps';

type FieldRowProps = ControlProps & { readonly field: Field; readonly part: number; readonly typing: boolean };

/** The control of one number of the sentence: less, values used lately, more; of a band, the bands there are; while typing, the units. */
export function FieldRow(props: FieldRowProps) {
  const { entry, exercise, today, lastTime, onChange, field, part, typing, heaviest, kit } = props;
  const narrow = useNarrow();
  const fields = part === 0 ? entry : (entry.parts[part - 1] ?? entry);
  const text = fields[field];
  const put = (value: string) =>
    onChange(
      part === 0
        ? { [field]: value }
        : { parts: entry.parts.map((one, index) => (index === part - 1 ? { ...one, [field]: value } : one)) },
    );
  // a warm-up's load says nothing about the next working set, nor the other way round
  const past = [...lastTime, ...today].filter((set) => (set.kind === 'warm-up') === (entry.kind === 'warm-up'));
  if (typing && field === 'load') {
    return (
      <ChipRow label="unit">
        {LOAD_UNITS.map((unit) => (
          <Chip key={unit} chosen={entry.unit === unit} onTap={() => onChange({ unit })}>
            {unit}
          </Chip>
        ))}
      </ChipRow>
    );
  }
  if (typing && field === 'distance') {
    return (
      <ChipRow label="unit">
        {DISTANCE_UNITS.map((unit) => (
          <Chip key={unit} chosen={entry.distanceUnit === unit} onTap={() => onChange({ distanceUnit: unit })}>
            {unit}
          </Chip>
        ))}
      </ChipRow>
    );
  }
  if (field === 'band' || (field === 'pin' && text.trim() !== '' && Number.isNaN(Number(text)))) {
    const recent = [...new Set([...past].reverse().flatMap((set) => set[field] ?? []))];
    const there = field === 'band' && kit && kit.bands.length > 0 ? kit.bands : [...recent, 'light', 'medium', 'heavy'];
    // the bands of a place stay in its order, from light to heavy
    const offered = [...new Set(there)].slice(0, kit && kit.bands.length > 4 ? kit.bands.length : 4);
    return (
      <ChipRow label={fieldName(field)} of={offered.length > 4 ? 'many' : 'words'}>
        {offered.map((label) => (
          <Chip key={label} chosen={text === label} onTap={() => put(label)}>
            {label}
          </Chip>
        ))}
      </ChipRow>
    );
  }
  const typed = Number(text.trim().replace(',', '.'));
  const current = text.trim() === '' || Number.isNaN(typed) ? null : typed;
  const recent = recentOf(field, past);
  const step = stepOf(field, exercise);
  const bounds = field === 'pin' ? { min: 1, max: kit?.pins ?? 99 } : boundsOf(field, entry).bounds;
  const { min } = bounds;
  const max = field === 'load' && heaviest !== undefined ? fromKg(heaviest, entry.unit) : mostOf(field, entry, bounds);
  const move = (by: number) =>
    put(String(Math.min(max, Math.max(min, Math.round(((current ?? recent[0] ?? START[field]) + by) * 1000) / 1000))));
  const centre = current ?? recent[0] ?? START[field];
  return (
    <ChipRow label={fieldName(field)} of="numbers">
      <HoldButton label={`less ${fieldName(field)}`} sign="−" onStep={() => move(-step)} />
      {offeredValues(Math.min(centre, max), recent, step, min, narrow ? 3 : 4, max).map((value) => (
        <Chip key={value} chosen={current === value} onTap={() => put(String(value))}>
          {number(value)}
        </Chip>
      ))}
      <HoldButton label={`more ${fieldName(field)}`} sign="+" onStep={() => move(step)} />
    </ChipRow>
  );
}

/** How much one tap on − or + changes. */
function stepOf(field: Field, { holds, step }: ControlProps['exercise']): number {
  switch (field) {
    case 'load':
      return holds === 'time' ? 2.5 : step;
    case 'seconds':
      return holds === 'time' ? step : 5;
    case 'degrees':
      return step;
    case 'distance':
      return 5;
    default:
      return 1;
  }
}

/** No more can be good than were done. */
function mostOf(field: Field, entry: ControlProps['entry'], { max }: { readonly max: number }): number {
  const done = Number(entry.tries);
  return field === 'good' && entry.tries.trim() !== '' && Number.isInteger(done) ? done : max;
}

/** Where a number begins that was never noted for this client: near where most first sets are. */
const START: Readonly<Record<Exclude<Field, 'band'>, number>> = {
  load: 20,
  reps: 5,
  pin: 5,
  seconds: 30,
  distance: 20,
  landings: 4,
  tries: 5,
  good: 5,
  degrees: 40,
};
