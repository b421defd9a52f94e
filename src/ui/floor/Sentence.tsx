import { useLayoutEffect, useRef } from 'preact/hooks';
import type { Entry, Field } from '../../domain/entry';
import type { Exercise } from '../../domain/exercise';
import { fieldName } from '../faultWords';
import { type Choice, type Piece, sentenceOf } from '../sentence';

/** What of the sentence is in hand. `typing` shows the number as a text to type in. */
export type Selection =
  | { readonly type: 'field'; readonly field: Field; readonly part: number; readonly typing: boolean }
  | { readonly type: 'choice'; readonly choice: Choice };

type SentenceProps = {
  readonly entry: Entry;
  readonly exercise: Exercise;
  readonly selection: Selection | null;
  readonly onSelect: (selection: Selection) => void;
  readonly onType: (field: Field, part: number, text: string) => void;
  readonly invalid: { readonly field: string; readonly part: number } | undefined;
  readonly slim: boolean;
};

/** The next set as a sentence. Tapping a part takes it in hand; tapping a number in hand types it. */
export function Sentence({ entry, exercise, selection, onSelect, onType, invalid, slim }: SentenceProps) {
  const draw = (piece: Piece, key: number) => {
    if (piece.type === 'joint') return <span key={key}>{piece.text}</span>;
    if (piece.type === 'choice') {
      const inHand = selection?.type === 'choice' && selection.choice === piece.choice;
      return (
        <button
          key={key}
          type="button"
          class={`piece piece-word${inHand ? ' piece-in-hand' : ''}`}
          aria-pressed={inHand}
          onClick={() => onSelect({ type: 'choice', choice: piece.choice })}
        >
          {piece.text}
        </button>
      );
    }
    const { field, part } = piece;
    const inHand = selection?.type === 'field' && selection.field === field && selection.part === part;
    const isInvalid = invalid?.field === field && invalid.part === part;
    if (inHand && selection.typing) {
      return (
        <TypedField
          key={key}
          field={field}
          part={part}
          text={(part === 0 ? entry : entry.parts[part - 1])?.[field] ?? ''}
          invalid={isInvalid}
          onText={(typed) => onType(field, part, typed)}
          onDone={() => onSelect({ ...selection, typing: false })}
        />
      );
    }
    return (
      <button
        key={key}
        type="button"
        class={`piece${inHand ? ' piece-in-hand' : ''}${isInvalid ? ' piece-invalid' : ''}`}
        aria-pressed={inHand}
        aria-label={`${fieldName(field)}${part > 0 ? ` of part ${part + 1}` : ''}: ${piece.text}`}
        onClick={() => onSelect({ type: 'field', field, part, typing: inHand })}
      >
        {piece.text}
      </button>
    );
  };
  return (
    <fieldset class={slim ? 'sentence sentence-slim' : 'sentence'} aria-label="next set">
      {withJoints(sentenceOf(entry, exercise)).map((pieces, index) => (
        <span key={index} class="piece-pair">
          {pieces.map(draw)}
        </span>
      ))}
    </fieldset>
  );
}

/** A word that only joins stays with what it joins, wherever the line ends. */
function withJoints(pieces: readonly Piece[]): readonly (readonly Piece[])[] {
  const pairs: Piece[][] = [];
  let joint: Piece[] = [];
  for (const piece of pieces) {
    if (piece.type === 'joint') joint = [piece];
    else {
      pairs.push([...joint, piece]);
      joint = [];
    }
  }
  return pairs;
}

type TypedFieldProps = {
  readonly field: Field;
  readonly part: number;
  readonly text: string;
  readonly invalid: boolean;
  readonly onText: (text: string) => void;
  readonly onDone: () => void;
};

function TypedField({ field, part, text, invalid, onText, onDone }: TypedFieldProps) {
  const input = useRef<HTMLInputElement>(null);
  // before it is painted: a key pressed at once belongs to it
  useLayoutEffect(() => {
    input.current?.focus();
    input.current?.select();
  }, []);
  const words = field === 'band' || field === 'pin';
  return (
    <input
      ref={input}
      class="piece piece-typed"
      value={text}
      size={Math.max(3, Math.min(text.length + 1, 12))}
      inputMode={words ? 'text' : 'decimal'}
      autocomplete="off"
      enterkeyhint="done"
      dir="auto"
      aria-label={`${fieldName(field)}${part > 0 ? ` of part ${part + 1}` : ''}`}
      aria-invalid={invalid}
      onInput={(event) => onText(event.currentTarget.value)}
      onKeyDown={(event) => {
        if (event.key === 'Enter' || event.key === 'Escape') onDone();
      }}
    />
  );
}
