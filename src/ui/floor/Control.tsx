import { BODY_WAYS, type BodyWay, boundsOf, type Entry, type Field, type Fields, fieldsOf } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import { lessShare, offeredValues, type PadDraft, recentOf } from '../../domain/prefill';
import { SET_KINDS, type SetKind, type SetRecord, SIDES } from '../../domain/set';
import { LOAD_UNITS } from '../../domain/units';
import { number } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { HoldButton } from '../parts/HoldButton';
import { useNarrow } from '../parts/useNarrow';
import { BODY_WAY, fieldName, KINDS, SIDE } from '../words';
import type { Selection } from './Sentence';

type ControlProps = {
  readonly entry: Entry;
  readonly exercise: Exercise;
  readonly selection: Selection;
  readonly today: readonly SetRecord[];
  readonly lastTime: readonly SetRecord[];
  readonly onChange: (patch: Partial<PadDraft>) => void;
  readonly onSelect: (selection: Selection) => void;
};

/** The one control row: what the part in hand can become. */
export function Control(props: ControlProps) {
  const { entry, exercise, selection, onChange, onSelect } = props;
  const takeWay = (body: BodyWay) => {
    onChange({ body });
    // what the way asks for is the next thing to say
    onSelect({ type: 'field', field: fieldsOf(exercise.holds, body)[0] ?? 'reps', part: 0, typing: false });
  };
  if (selection.type === 'field') {
    return (
      <>
        {entry.kind === 'drop' || entry.kind === 'cluster' ? <PartsRow {...props} /> : null}
        <FieldRow {...props} field={selection.field} part={selection.part} typing={selection.typing} />
      </>
    );
  }
  switch (selection.choice) {
    case 'side':
      return (
        <ChipRow label="side">
          {SIDES.map((side) => (
            <Chip key={side} chosen={entry.side === side} onTap={() => onChange({ side })}>
              {SIDE[side]}
            </Chip>
          ))}
        </ChipRow>
      );
    case 'body':
      return (
        <ChipRow label="body mass">
          {BODY_WAYS.map((body) => (
            <Chip key={body} chosen={entry.body === body} onTap={() => takeWay(body)}>
              {BODY_WAY[body]}
            </Chip>
          ))}
        </ChipRow>
      );
    case 'kind':
      return <KindRows {...props} />;
  }
}

const BACK_OFFS = [0.1, 0.2, 0.3] as const;

/** Kinds of set; a back-off offers how much lighter, from the last set that was none. */
function KindRows({ entry, exercise, today, lastTime, onChange }: ControlProps) {
  const choose = (kind: SetKind) =>
    onChange({ kind, parts: kind === 'drop' || kind === 'cluster' ? [nextPart(entry, exercise, kind)] : [] });
  const from = [...lastTime, ...today].findLast(
    (set) => set.load && set.kind !== 'back-off' && set.kind !== 'warm-up',
  )?.load;
  const kinds = entry.kind === 'back-off' && from ? SET_KINDS.slice(0, 4) : SET_KINDS;
  return (
    <div class="control-rows">
      <ChipRow label="kind of set" of="kinds">
        {kinds.map((kind) => (
          <Chip key={kind} chosen={entry.kind === kind} onTap={() => choose(kind)}>
            {KINDS[kind]}
          </Chip>
        ))}
      </ChipRow>
      {entry.kind === 'back-off' && from ? (
        <ChipRow label="how much less">
          {BACK_OFFS.map((share) => {
            const load = String(lessShare(from.value, share, exercise.step));
            return (
              <Chip
                key={share}
                chosen={entry.load === load}
                onTap={() => onChange({ load, unit: from.unit })}
                label={`${number(share * 100)} % less`}
              >
                −{number(share * 100)} %
              </Chip>
            );
          })}
        </ChipRow>
      ) : null}
    </div>
  );
}

/** A drop goes on lighter, a cluster with the same; both are only where the next part's texts begin. */
function nextPart(entry: Entry, exercise: Exercise, kind: SetKind): Fields {
  const before = entry.parts.at(-1) ?? entry;
  const load = Number(before.load.replace(',', '.'));
  const lighter = kind === 'drop' && before.load.trim() !== '' && load > 0;
  const { reps, band, pin, seconds } = before;
  return { load: lighter ? String(lessShare(load, 0.2, exercise.step)) : before.load, reps, band, pin, seconds };
}

function PartsRow({ entry, exercise, onChange }: ControlProps) {
  return (
    <ChipRow label="parts">
      <Chip onTap={() => onChange({ parts: [...entry.parts, nextPart(entry, exercise, entry.kind)] })}>+ part</Chip>
      {entry.parts.length > 1 ? <Chip onTap={() => onChange({ parts: entry.parts.slice(0, -1) })}>− part</Chip> : null}
    </ChipRow>
  );
}

type FieldRowProps = ControlProps & { readonly field: Field; readonly part: number; readonly typing: boolean };

function FieldRow({ entry, exercise, today, lastTime, onChange, field, part, typing }: FieldRowProps) {
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
  if (field === 'band' || (field === 'pin' && text.trim() !== '' && Number.isNaN(Number(text)))) {
    const recent = [...new Set([...past].reverse().flatMap((set) => set[field] ?? []))];
    const offered = [...new Set([...recent, 'light', 'medium', 'heavy'])].slice(0, 4);
    return (
      <ChipRow label={fieldName(field)}>
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
  const step =
    field === 'reps' || field === 'pin' ? 1 : exercise.holds === 'time' && field === 'load' ? 2.5 : exercise.step;
  const { min, max } = field === 'pin' ? { min: 1, max: 99 } : boundsOf(field, entry.unit).bounds;
  const move = (by: number) =>
    put(String(Math.min(max, Math.max(min, Math.round(((current ?? recent[0] ?? START[field]) + by) * 1000) / 1000))));
  const centre = current ?? recent[0] ?? START[field];
  return (
    <ChipRow label={fieldName(field)} of="numbers">
      <HoldButton label={`less ${fieldName(field)}`} sign="−" onStep={() => move(-step)} />
      {offeredValues(current ?? centre, recent, step, min, narrow ? 3 : 4).map((value) => (
        <Chip key={value} chosen={current === value} onTap={() => put(String(value))}>
          {number(value)}
        </Chip>
      ))}
      <HoldButton label={`more ${fieldName(field)}`} sign="+" onStep={() => move(step)} />
    </ChipRow>
  );
}

/** Where a number begins that was never noted for this client: near where most first sets are. */
const START: Readonly<Record<Exclude<Field, 'band'>, number>> = { load: 20, reps: 5, pin: 5, seconds: 30 };
