import type { SetUpTexts } from '../../domain/setUp';
import { HEIGHT_UNITS } from '../../domain/units';
import { type AnyFault, faultSentence } from '../faultWords';
import { Chip, ChipRow } from '../parts/Chip';
import { TextField } from '../parts/TextField';

type SetUpFieldsProps = {
  readonly texts: SetUpTexts;
  readonly onTexts: (texts: SetUpTexts) => void;
  readonly label: string;
  readonly fault: AnyFault | undefined;
  readonly hint?: string;
};

/** The fields of a set-up: words, tempo, height and pause. */
export function SetUpFields({ texts, onTexts, label, fault, hint }: SetUpFieldsProps) {
  const at = (field: string) => (fault?.field === field ? faultSentence(fault) : undefined);
  const put = (field: keyof SetUpTexts) => (text: string) => onTexts({ ...texts, [field]: text });
  return (
    <>
      <TextField
        label={label}
        value={texts.setUp}
        onText={put('setUp')}
        fault={at('setUp')}
        {...(hint === undefined ? {} : { hint })}
      />
      <TextField
        label="Tempo: down, below, up, above"
        value={texts.tempo}
        onText={put('tempo')}
        fault={at('tempo')}
        hint="Seconds, such as 3-1-1-0; x is as fast as can be."
      />
      <TextField label="Height" value={texts.height} onText={put('height')} mode="decimal" fault={at('height')} />
      <ChipRow label="unit of the height">
        {HEIGHT_UNITS.map((unit) => (
          <Chip key={unit} chosen={texts.heightUnit === unit} onTap={() => onTexts({ ...texts, heightUnit: unit })}>
            {unit}
          </Chip>
        ))}
      </ChipRow>
      <TextField
        label="Pause in each rep, seconds"
        value={texts.pause}
        onText={put('pause')}
        mode="decimal"
        fault={at('pause')}
      />
    </>
  );
}
