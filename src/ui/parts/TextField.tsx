import type { JSX } from 'preact';
import { useId } from 'preact/hooks';

type TextFieldProps = {
  readonly label: string;
  readonly value: string;
  readonly onText: (text: string) => void;
  /** A sentence that says why the text was not taken; it stands at the field, and the text stays in it. */
  readonly fault?: string | undefined;
  readonly hint?: string;
  readonly mode?: 'text' | 'decimal' | 'numeric';
  readonly lines?: 'one' | 'many';
  readonly type?: 'text' | 'date' | 'time' | 'password';
  /** Taken as it is typed: no keyboard makes a capital of its own or mends a word. */
  readonly exact?: boolean;
};

/** A labelled text field. Names and notes may run in either direction. */
export function TextField({
  label,
  value,
  onText,
  fault,
  hint,
  mode = 'text',
  lines = 'one',
  type = 'text',
  exact = false,
}: TextFieldProps) {
  const own = useId();
  const id = `${own}-said`;
  const shared = {
    id: own,
    value,
    dir: 'auto' as const,
    'aria-invalid': fault !== undefined,
    ...(fault || hint ? { 'aria-describedby': id } : {}),
    autocomplete: 'off',
    ...(exact ? { autocapitalize: 'none' as const, autocorrect: 'off' as const, spellcheck: false } : {}),
    onInput: (event: { currentTarget: { value: string } }) => onText(event.currentTarget.value),
  };
  return (
    <div>
      <div class="field">
        <label for={own}>{label}</label>
        {lines === 'many' ? <textarea {...shared} rows={3} /> : <OneLine {...shared} type={type} mode={mode} />}
      </div>
      {fault ? (
        <p class="fault" id={id} role="alert">
          {fault}
        </p>
      ) : (
        hint && (
          <p class="hint" id={id}>
            {hint}
          </p>
        )
      )}
    </div>
  );
}

type OneLineProps = Omit<JSX.IntrinsicElements['input'], 'type' | 'list' | 'role'> & {
  readonly type: NonNullable<TextFieldProps['type']>;
  readonly mode: NonNullable<TextFieldProps['mode']>;
};

function OneLine({ type, mode, ...shared }: OneLineProps) {
  if (type === 'text') return <input {...shared} type="text" inputMode={mode} />;
  return <input {...shared} type={type} />;
}
