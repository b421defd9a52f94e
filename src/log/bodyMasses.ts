import { type BodyMass, readBodyMass } from '../domain/bodyMass';
import type { Row } from '../merge/row';
import { shownOf } from './views';

/** Returns a client's body masses among the results in memory (`loadResults` reads them). */
export const bodyMasses = (
  log: { readonly ofKind: (kind: string) => readonly Row[] },
  stream: string,
): readonly BodyMass[] =>
  log.ofKind('result').flatMap((row) => (row.stream === stream ? (readBodyMass(shownOf(row)) ?? []) : []));
