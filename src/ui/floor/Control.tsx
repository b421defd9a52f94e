import { type Entry, FIELDS, type Fields, fieldsOf } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import { lessShare } from '../../domain/prefill';
import { BODY_WAYS, type BodyWay, MOST_MARKS, SET_KINDS, type SetKind, SIDES } from '../../domain/set';
import { number } from '../format';
import { Chip, ChipRow } from '../parts/Chip';
import { BODY_WAY, KINDS, SIDE } from '../setWords';
import { Compass } from './Compass';
import type { ControlProps } from './controlProps';
import { Dots } from './Dots';
import { FieldRow } from './FieldRow';

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
        {selection.field === 'landings' && props.dots !== false ? <DotsRow {...props} /> : null}
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
    case 'direction':
      return <Compass side={entry.side} chosen={entry.direction} onChoose={(direction) => onChange({ direction })} />;
    case 'smooth':
      return (
        <ChipRow label="smoothness, 1 rough to 5 smooth">
          {([1, 2, 3, 4, 5] as const).map((smooth) => (
            <Chip
              key={smooth}
              chosen={entry.smooth === smooth}
              onTap={() => onChange({ smooth: entry.smooth === smooth ? null : smooth })}
            >
              {smooth}
            </Chip>
          ))}
        </ChipRow>
      );
    case 'kind':
      return <KindRows {...props} />;
  }
}

/** Landings judged as they come, where they are few enough for a dot each. */
function DotsRow({ entry, onChange }: ControlProps) {
  const count = Number(entry.landings);
  if (!Number.isInteger(count) || count < 1 || count > MOST_MARKS) return null;
  return (
    <Dots
      count={count}
      marks={entry.marks}
      onMark={(n, mark) =>
        onChange({ marks: Array.from({ length: count }, (_, at) => (at === n - 1 ? mark : (entry.marks[at] ?? null))) })
      }
    />
  );
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
  const texts = Object.fromEntries(FIELDS.map((field) => [field, field === 'good' ? '' : before[field]])) as Fields;
  return { ...texts, load: lighter ? String(lessShare(load, 0.2, exercise.step)) : before.load };
}

function PartsRow({ entry, exercise, onChange }: ControlProps) {
  return (
    <ChipRow label="parts">
      <Chip onTap={() => onChange({ parts: [...entry.parts, nextPart(entry, exercise, entry.kind)] })}>+ part</Chip>
      {entry.parts.length > 1 ? <Chip onTap={() => onChange({ parts: entry.parts.slice(0, -1) })}>− part</Chip> : null}
    </ChipRow>
  );
}
