import { fail, ok, type Result } from '../domain/result';
import { registerOf } from './merge';
import type { Held, Json, Register, Row, Seen } from './row';
import { HIGHEST_L } from './stamp';

/** Bounds of a row from outside. Far above what the app writes; a row beyond them is refused whole, and nothing of it is kept. */
export const ROW_BOUNDS = {
  registers: 200_000,
  pathLength: 200,
  valueDepth: 12,
  siblings: 256,
  writers: 100_000,
} as const;

export type DoorFault =
  | { readonly type: 'not-a-row'; readonly why: 'shape' | 'name' | 'unknown-field' }
  | { readonly type: 'bad-path'; readonly path: string }
  | { readonly type: 'bad-stamp'; readonly path: string }
  | { readonly type: 'bad-value'; readonly path: string }
  | { readonly type: 'too-large'; readonly what: keyof typeof ROW_BOUNDS };

/** A segment begins with a letter or digit, so no path can be `__proto__`. */
const PATH = /^[A-Za-z0-9][\w.-]*(\/[A-Za-z0-9][\w.-]*)*$/;
const NAME = /^[A-Za-z0-9][\w.-]{0,63}$/;
const FIELDS = ['body', 'id', 'kind', 'seen', 'stream'];

/**
 * Returns the row in something that came from outside (a store, a bundle, a hub), or why it is refused. Judges the shape alone, never what a
 * path or a value means: unknown ones pass and survive [M8]. A stamp above 2^52 is malformed. Registers are put in their one order.
 */
export function admitRow(raw: unknown): Result<Row, DoorFault> {
  if (!isRecord(raw) || !isRecord(raw['seen']) || !isRecord(raw['body']))
    return fail({ type: 'not-a-row', why: 'shape' });
  if (Object.keys(raw).sort().join() !== FIELDS.join()) return fail({ type: 'not-a-row', why: 'unknown-field' });
  const { id, kind, stream } = raw;
  if (!isName(id) || !isName(kind) || !isName(stream)) return fail({ type: 'not-a-row', why: 'name' });
  const seen = Object.entries(raw['seen']);
  const registers = Object.entries(raw['body']);
  if (seen.length > ROW_BOUNDS.writers) return fail({ type: 'too-large', what: 'writers' });
  if (registers.length > ROW_BOUNDS.registers) return fail({ type: 'too-large', what: 'registers' });
  if (!seen.every(([writer, l]) => isName(writer) && isL(l))) return fail({ type: 'bad-stamp', path: 'seen' });
  const body: Record<string, Register> = {};
  for (const [path, held] of registers) {
    const register = admitRegister(path, held);
    if (!register.ok) return register;
    body[path] = register.value;
  }
  return ok({ id, kind, stream, seen: Object.fromEntries(seen) as Seen, body });
}

function admitRegister(path: string, raw: unknown): Result<Register, DoorFault> {
  if (path.length > ROW_BOUNDS.pathLength) return fail({ type: 'too-large', what: 'pathLength' });
  if (!PATH.test(path)) return fail({ type: 'bad-path', path });
  if (!Array.isArray(raw)) return fail({ type: 'bad-value', path });
  if (raw.length > ROW_BOUNDS.siblings) return fail({ type: 'too-large', what: 'siblings' });
  const held: Held[] = [];
  for (const one of raw as unknown[]) {
    if (!isRecord(one) || !isRecord(one['stamp'])) return fail({ type: 'bad-value', path });
    const { l, writer } = one['stamp'];
    if (!isL(l) || !isName(writer)) return fail({ type: 'bad-stamp', path });
    if (!isJson(one['value'], ROW_BOUNDS.valueDepth)) return fail({ type: 'bad-value', path });
    held.push({ value: one['value'], stamp: { l, writer } });
  }
  const register = registerOf(held);
  return register ? ok(register) : fail({ type: 'bad-value', path });
}

const isName = (value: unknown): value is string => typeof value === 'string' && NAME.test(value);
const isL = (value: unknown): value is number =>
  Number.isInteger(value) && (value as number) > 0 && (value as number) <= HIGHEST_L;

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isJson(value: unknown, depth: number): value is Json {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return true;
  if (typeof value === 'number') return Number.isFinite(value);
  if (depth === 0 || typeof value !== 'object') return false;
  return Object.values(value).every((inner) => isJson(inner, depth - 1));
}
