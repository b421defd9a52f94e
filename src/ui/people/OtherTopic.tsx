import { useState } from 'preact/hooks';
import type { OtherFinding } from '../../analysis/otherFindings';
import type { Day } from '../../domain/day';
import { PictureFigure } from '../charts/PictureFigure';
import { PictureTable } from '../charts/PictureTable';
import { isDrawn, type Picture, since } from '../charts/picture';
import { LIMIT, OTHERS, otherNextText, otherSureText, otherTone, type Telling, TOPIC } from '../otherWords';
import { Chip, ChipRow } from '../parts/Chip';
import { quietWords } from '../pastWeekWords';
import { foundWords, type TopicAnswers } from './topics';

type OtherTopicProps = {
  readonly one: TopicAnswers;
  readonly telling: Telling;
  /** The first day that is drawn; undefined for all. */
  readonly from: Day | undefined;
  readonly isPrinting: boolean;
};

/** As many lines stand without being folded. */
const FEW = 2;

/** One topic: its number and sentence, and behind "how sure" the charts, their tables, what it rests on and what it cannot tell. */
export function OtherTopic({
  one: { topic, found, beside, reckoned, pictures },
  telling,
  from,
  isPrinting,
}: OtherTopicProps) {
  const [isOpen, setOpen] = useState(false);
  const [first, ...others] = found;
  const more = others.filter((one) => !beside.includes(one));
  const pressing = more.filter((one) => otherTone(one) !== 'plain');
  const plain = more.filter((one) => otherTone(one) === 'plain');
  const tone = first ? otherTone(first) : 'plain';
  const { number, sentence } = first ? foundWords(first, telling) : quietWords(pictures, telling.today);
  const shown = isOpen || isPrinting;
  return (
    <li class={`answer answer-${tone} other`}>
      <h3>
        {TOPIC[topic]}
        {tone === 'plain' ? null : <span class="hint"> · {tone === 'look' ? OTHERS.headsUp : OTHERS.goingWell}</span>}
      </h3>
      <p>
        <strong class="other-number">{number}</strong> {sentence}{' '}
        {first ? otherNextText(first.next, telling.today, topic) : null}
      </p>
      {beside.map((one) => (
        <Also key={foundWords(one, telling).sentence} one={one} telling={telling} />
      ))}
      <details class="answers-sure" open={shown}>
        {/* biome-ignore lint/a11y/noStaticElementInteractions: a summary is the button of its details */}
        <summary
          aria-label={`${OTHERS.sure}, ${TOPIC[topic]}`}
          onClick={(event) => {
            // what is behind it is drawn as it opens, and opened by a print too: the state is here
            event.preventDefault();
            setOpen(!isOpen);
          }}
        >
          {OTHERS.sure}
        </summary>
        {shown ? (
          <div class="other-behind">
            <Lines found={[...(first ? [first] : []), ...beside]} telling={telling} />
            <p class="hint">{LIMIT[topic]}</p>
            {reckoned === '' ? null : <p class="hint">{reckoned}</p>}
            <Pictures topic={TOPIC[topic]} pictures={pictures} from={from} isPrinting={isPrinting} />
            <Lines found={pressing} telling={telling} isMore />
            {plain.length > FEW && !isPrinting ? (
              <details class="answers-sure">
                <summary>{OTHERS.more(plain.length)}</summary>
                <Lines found={plain} telling={telling} isMore />
              </details>
            ) : (
              <Lines found={plain} telling={telling} isMore />
            )}
          </div>
        ) : null}
      </details>
    </li>
  );
}

/** What stands beside the first: what it is, its number and its sentence. */
function Also({ one, telling }: { one: OtherFinding; telling: Telling }) {
  const { number, sentence } = foundWords(one, telling);
  const tone = otherTone(one);
  return (
    <p class={`answer answer-${tone}`}>
      {tone === 'plain' ? null : <span class="hint">{tone === 'look' ? OTHERS.headsUp : OTHERS.goingWell}: </span>}
      <strong>{number}</strong> {sentence} {otherNextText(one.next, telling.today, one.topic)}
    </p>
  );
}

type LinesProps = { readonly found: readonly OtherFinding[]; readonly telling: Telling; readonly isMore?: boolean };

/** How sure each finding is; of those that do not stand above, what is found too. */
function Lines({ found, telling, isMore = false }: LinesProps) {
  if (found.length === 0) return null;
  return (
    <ul class="other-more">
      {found.map((one) => {
        const { number, sentence } = foundWords(one, telling);
        const sure = otherSureText(one);
        return (
          <li key={`${number} ${sentence}`} class={isMore ? `answer answer-${otherTone(one)}` : ''}>
            {isMore ? (
              <>
                <strong>{number}</strong> {sentence} {otherNextText(one.next, telling.today, one.topic)}{' '}
              </>
            ) : null}
            <span class="hint">
              {/* of two that stand above: which one */}
              {isMore || found.length === 1 ? '' : `${number}: `}
              {sure}
            </span>
          </li>
        );
      })}
    </ul>
  );
}

type PicturesProps = {
  readonly topic: string;
  readonly pictures: readonly Picture[];
  readonly from: Day | undefined;
  readonly isPrinting: boolean;
};

/** One of the pictures at a time, as a chart or as its table; printed, all of them, both ways. */
function Pictures({ topic, pictures, from, isPrinting }: PicturesProps) {
  const [asked, ask] = useState<string>();
  const [way, setWay] = useState<'chart' | 'table'>('chart');
  const chosen = pictures.find(({ id }) => id === asked) ?? pictures[0];
  if (!chosen) return null;
  if (isPrinting)
    return (
      <>
        {pictures.map((one) => (
          <div key={one.id} class="other-printed">
            <h4>{one.title}</h4>
            <Figure topic={topic} picture={since(one, from)} />
            <PictureTable topic={topic} picture={since(one, from)} />
          </div>
        ))}
      </>
    );
  const picture = since(chosen, from);
  return (
    <>
      {pictures.length > 1 ? (
        <ChipRow label={`${OTHERS.which}, ${topic}`} of="many">
          {pictures.map(({ id, title }) => (
            <Chip key={id} chosen={id === chosen.id} onTap={() => ask(id)}>
              {title}
            </Chip>
          ))}
        </ChipRow>
      ) : (
        <h4>{chosen.title}</h4>
      )}
      {way === 'table' ? <PictureTable topic={topic} picture={picture} /> : <Figure topic={topic} picture={picture} />}
      <button type="button" class="button" onClick={() => setWay(way === 'table' ? 'chart' : 'table')}>
        {way === 'table' ? OTHERS.asChart : OTHERS.asTable}
      </button>
    </>
  );
}

function Figure({ topic, picture }: { topic: string; picture: Picture }) {
  if (!picture.points.some(isDrawn))
    return <p class="hint">{picture.points.length > 0 ? OTHERS.notCharted : OTHERS.nothingIn}</p>;
  return <PictureFigure key={picture.id} picture={picture} label={`${topic}, ${picture.title}: ${picture.caption}`} />;
}
