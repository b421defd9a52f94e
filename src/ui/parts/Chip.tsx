import type { ComponentChildren } from 'preact';

type ChipProps = {
  readonly chosen?: boolean;
  readonly onTap: () => void;
  readonly label?: string;
  readonly children: ComponentChildren;
  readonly wide?: boolean;
};

/** A choice of one tap; chosen is outlined in ink and bold, never coloured. */
export function Chip({ chosen, onTap, label, children, wide }: ChipProps) {
  return (
    <button
      type="button"
      class={`chip${wide ? ' chip-wide' : ''}`}
      {...(chosen === undefined ? {} : { 'aria-pressed': chosen })}
      {...(label === undefined ? {} : { 'aria-label': label })}
      onClick={onTap}
    >
      {children}
    </button>
  );
}

type ChipRowProps = {
  readonly label: string;
  readonly of?: keyof typeof CLASS;
  readonly children: ComponentChildren;
};

const CLASS = {
  words: 'chips-words',
  even: 'chips-even',
  numbers: 'chips-numbers',
  kinds: 'chips-kinds',
  many: 'chips-wrap',
  dots: 'chips-dots',
} as const;

/** A row of choices that belong together, named for those who do not see it. Many go over several lines. */
export function ChipRow({ label, of = 'words', children }: ChipRowProps) {
  return (
    <fieldset class={`chips ${CLASS[of]}`} aria-label={label}>
      {children}
    </fieldset>
  );
}
