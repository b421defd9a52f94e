import { useState } from 'preact/hooks';
import { LANDING_SIGNS, type Mark } from '../../domain/set';
import { Chip, ChipRow } from '../parts/Chip';
import { LANDING_SIGN } from '../setWords';

type DotsProps = {
  readonly count: number;
  readonly marks: readonly (Mark | null)[];
  readonly onMark: (n: number, mark: Mark | null) => void;
};

/** A dot a landing: one tap is good, the next is not good, the next not noted. Of one that is not good, what was missing. */
export function Dots({ count, marks, onMark }: DotsProps) {
  const [at, setAt] = useState<number>();
  const last = at === undefined ? undefined : marks[at - 1];
  return (
    <>
      <ChipRow label="good landings" of="dots">
        {Array.from({ length: count }, (_, index) => {
          const mark = marks[index] ?? null;
          return (
            <button
              key={index}
              type="button"
              class={`chip dot${mark ? (mark.good ? ' dot-good' : ' dot-not') : ''}`}
              aria-label={`landing ${index + 1}: ${mark ? (mark.good ? 'good' : 'not good') : 'not noted'}`}
              onClick={() => {
                setAt(index + 1);
                onMark(index + 1, mark === null ? { good: true } : mark.good ? { good: false } : null);
              }}
            >
              {mark ? (mark.good ? 'good' : 'not') : index + 1}
            </button>
          );
        })}
      </ChipRow>
      {at !== undefined && last && !last.good ? (
        <ChipRow label={`what landing ${at} was not`}>
          {LANDING_SIGNS.map((sign) => (
            <Chip
              key={sign}
              chosen={last[sign] === false}
              onTap={() => {
                const { [sign]: was, ...others } = last;
                onMark(at, was === false ? others : { ...others, [sign]: false });
              }}
            >
              not {LANDING_SIGN[sign]}
            </Chip>
          ))}
        </ChipRow>
      ) : null}
    </>
  );
}
