import { TextField } from '../parts/TextField';

export type TypedTwice = { readonly once: string; readonly twice: string };

/** Four common words or a sentence; shorter ones are guessed too soon where a file with the keys gets into the wrong hands. */
const LEAST = 12;

/** Returns why what was typed twice is no new passphrase; undefined where it is one. */
export function typedTwice({ once, twice }: TypedTwice): string | undefined {
  if (once.length < LEAST)
    return `At least ${LEAST} characters: four or five words that do not belong together are good.`;
  return once === twice ? undefined : 'The two are not the same.';
}

type Props = {
  readonly typed: TypedTwice;
  readonly type: (typed: TypedTwice) => void;
  readonly fault: string | undefined;
};

/** A new passphrase, typed twice. */
export function PassphraseFields({ typed, type, fault }: Props) {
  return (
    <>
      <TextField
        label="New passphrase"
        type="password"
        value={typed.once}
        onText={(once) => type({ ...typed, once })}
        fault={fault}
        hint="Four or five words that do not belong together are good."
      />
      <TextField
        label="The same once more"
        type="password"
        value={typed.twice}
        onText={(twice) => type({ ...typed, twice })}
      />
    </>
  );
}
