import { useState } from 'preact/hooks';
import {
  HOLDS as HOLD_NAMES,
  type Holds,
  PATTERNS as PATTERN_NAMES,
  type Pattern,
  SIDE_RULES,
  type SideRule,
} from '../../domain/exercise';
import { useApp } from '../app';
import { faultSentence } from '../faultWords';
import { HOLDS, PATTERNS, SIDES } from '../setWords';
import { Chip, ChipRow } from './Chip';

type NewExerciseProps = { readonly name: string; readonly act: string; readonly onAdded: (id: string) => void };

/** An exercise that is not in the library yet: what a set of it holds, its sides, its kind of work. */
export function NewExercise({ name, act, onAdded }: NewExerciseProps) {
  const { log, acts, world } = useApp();
  const [holds, setHolds] = useState<Holds>('load');
  const [sides, setSides] = useState<SideRule>('both');
  const [pattern, setPattern] = useState<Pattern>();
  const [perHand, setPerHand] = useState(false);
  const [fault, setFault] = useState<string>();
  const add = () => {
    const fields = { name, holds, sides, ...(perHand ? { perHand } : {}), ...(pattern ? { pattern } : {}) };
    const added = acts.addExercise(log, fields, world);
    if (added.ok) onAdded(added.value.id);
    else setFault(faultSentence(added.error));
  };
  return (
    <div class="card">
      <p class="hint">What a set of it holds</p>
      <ChipRow label="what a set holds" of="many">
        {HOLD_NAMES.map((one) => (
          <Chip key={one} chosen={holds === one} onTap={() => setHolds(one)}>
            {HOLDS[one]}
          </Chip>
        ))}
      </ChipRow>
      <ChipRow label="sides" of="many">
        {SIDE_RULES.map((one) => (
          <Chip key={one} chosen={sides === one} onTap={() => setSides(one)}>
            {SIDES[one]}
          </Chip>
        ))}
        {holds === 'load' || holds === 'carry' ? (
          <Chip chosen={perHand} onTap={() => setPerHand(!perHand)}>
            one load in each hand
          </Chip>
        ) : null}
      </ChipRow>
      <p class="hint">What kind of work it is; what can take its place is of the same kind</p>
      <ChipRow label="kind of work" of="many">
        {PATTERN_NAMES.map((one) => (
          <Chip key={one} chosen={pattern === one} onTap={() => setPattern(pattern === one ? undefined : one)}>
            {PATTERNS[one]}
          </Chip>
        ))}
      </ChipRow>
      {fault ? (
        <p class="fault" role="alert">
          {fault}
        </p>
      ) : null}
      <button type="button" class="button button-act" onClick={add}>
        {act}
      </button>
    </div>
  );
}
