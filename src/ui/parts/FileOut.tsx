import { useState } from 'preact/hooks';
import { say } from './say';

type FileOutProps = {
  readonly blob: Blob;
  /** Such as `cuewright-2026-03-01.age`. It names no client: files lie where others see them. */
  readonly fileName: string;
  /** Notes that it was handed over; that is said once it is noted. */
  readonly done: () => Promise<void>;
  readonly said: string;
};

/**
 * The second of two taps: a prepared file to the share sheet, or into a folder. A share that comes too long after its tap is dropped by some browsers, so it is
 * never prepared in the same tap.
 */
export function FileOut({ blob, fileName, done, said }: FileOutProps) {
  // some browsers share no file whose ending they do not know; what opens it looks into it, and not at its name
  const shared = new File([blob], `${fileName}.txt`, { type: 'text/plain' });
  const canShare = typeof navigator.canShare === 'function' && navigator.canShare({ files: [shared] });
  const [isOut, setOut] = useState(false);
  const finish = (): void =>
    void done().then(() => {
      setOut(true);
      say(said);
    });
  const download = (): void => {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(blob);
    link.download = fileName;
    link.click();
    // freed later: the download reads it after the click
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    finish();
  };
  const share = () => navigator.share({ files: [shared] }).then(finish, () => say('Not shared.'));
  return (
    <>
      <div class="chips">
        {canShare ? (
          <button type="button" class="button button-act" onClick={share}>
            Share the file
          </button>
        ) : null}
        <button type="button" class={`button${canShare ? '' : ' button-act'}`} onClick={download}>
          Save the file
        </button>
      </div>
      {isOut ? <p class="hint">Handed over. Look whether it is where you want it.</p> : null}
    </>
  );
}
