import { readFileSync } from 'node:fs';
import { argv, stderr, stdout } from 'node:process';
import { type Judgement, judgeTrend } from '../analysis/trend';
import { parseHistories } from '../domain/histories';

/*
 * `judge HISTORIES.json`: judges histories of exposures by the trend engine, and writes the answers as JSON to the standard output. The formats
 * are "capacity-histories/1" (with or without the truth) and its answers: one an exposure, each by the exposures up to itself.
 */

function main(): number {
  const [file, ...more] = argv.slice(2);
  if (file === undefined || more.length > 0) return refuse('one file is needed: judge HISTORIES.json');
  let json: unknown;
  try {
    json = JSON.parse(readFileSync(file, 'utf8'));
  } catch (error) {
    return refuse(`${file} cannot be read: ${error instanceof Error ? error.message : String(error)}`);
  }
  const read = parseHistories(json);
  if (!read.ok)
    return refuse(`${file} is not a file of histories: ${read.error.what} at ${read.error.path || 'its top'}`);
  const answers = read.value.map(({ id, kind, exposures, target }) => ({
    id,
    exposures: judgeTrend({ kind, exposures, ...(target ? { target } : {}) }).map(answerOf),
  }));
  stdout.write(`${JSON.stringify({ answers })}\n`);
  return 0;
}

/** The names of the format; what is not said is absent. */
function answerOf({ status, pStall, slopePerWeek, slopeSd, pHit, ...bands }: Judgement): Record<string, unknown> {
  return {
    status: status === 'watch' ? 'ok' : status,
    p_stall: pStall,
    slope: slopePerWeek,
    slope_sd: slopeSd,
    ...bands,
    ...(pHit === undefined ? {} : { p_hit: pHit }),
  };
}

function refuse(said: string): number {
  stderr.write(`judge: ${said}\n`);
  return 1;
}

process.exitCode = main();
