import { STOP_AT } from '../../domain/pain';
import type { SetRecord } from '../../domain/set';
import type { Json } from '../../merge/row';
import { Chip, ChipRow } from '../parts/Chip';
import { go } from '../routes';
import { PAIN_CAUTION } from '../setWords';
import type { Place } from './usePad';

type PainRowProps = { readonly place: Place; readonly set: SetRecord; readonly onPain: (pain: Json) => void };

/** Pain of 0 to 10 as the client tells it, and whether it was rising. The caution stands beside it from 4 on. */
export function PainRow({ place, set, onPain }: PainRowProps) {
  const { pain } = set;
  const stop = (pain?.value ?? 0) >= STOP_AT || set.ended === 'pain';
  return (
    <>
      <p class="hint">Pain, 0 to 10, as the client tells it</p>
      <ChipRow label="pain" of="many">
        {Array.from({ length: 11 }, (_, value) => (
          <Chip
            key={value}
            chosen={pain?.value === value}
            label={`pain ${value}`}
            onTap={() => onPain(pain?.value === value ? null : { ...(pain?.rising ? { rising: true } : {}), value })}
          >
            {value}
          </Chip>
        ))}
      </ChipRow>
      <ChipRow label="more about pain" of="many">
        {pain && pain.value > 0 ? (
          <Chip
            chosen={pain.rising === true}
            onTap={() => onPain(pain.rising ? { value: pain.value } : { value: pain.value, rising: true })}
          >
            rising in the set
          </Chip>
        ) : null}
        <Chip onTap={() => go({ page: 'session', ...place, sheet: { name: 'signs' } })}>stop signs</Chip>
      </ChipRow>
      {stop ? (
        <p class="fault" role="alert">
          {PAIN_CAUTION}
        </p>
      ) : null}
    </>
  );
}
