import { spawnSync } from 'node:child_process';
import { join } from 'node:path';

/** Whether python3 with scipy is on this machine: nothing else needs it, so checks against it are left out where it is not. */
export const hasScipy = spawnSync('python3', ['-c', 'import scipy']).status === 0;

/** What the checks are called, with the reason where they are left out. */
export const AGAINST_SCIPY = hasScipy
  ? 'against scipy'
  : 'against scipy (left out: no python3 with scipy on this machine)';

if (!hasScipy) console.warn(AGAINST_SCIPY);

/** Returns scipy's answers to cases of a kind that scipyAnswers.py knows, in their order. */
export function askScipy<Answer>(kind: string, cases: readonly unknown[]): readonly Answer[] {
  const { status, stdout, stderr } = spawnSync('python3', [join(import.meta.dirname, 'scipyAnswers.py')], {
    input: JSON.stringify({ [kind]: cases }),
    encoding: 'utf8',
    maxBuffer: 2 ** 26,
  });
  if (status !== 0) throw new Error(`scipy gave no answers:\n${stderr}`);
  return (JSON.parse(stdout) as Readonly<Record<string, readonly Answer[]>>)[kind] ?? [];
}
