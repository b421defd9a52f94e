/** What an expected failure always carries: a `type` to switch on, and the facts a sentence needs (the wording is ui's). */
export type Fault = { readonly type: string };

export type Ok<T> = { readonly ok: true; readonly value: T };
export type Fail<E extends Fault> = { readonly ok: false; readonly error: E };

/** The outcome of anything that may fail as a matter of course. A bug throws instead. */
export type Result<T, E extends Fault> = Ok<T> | Fail<E>;

/** Returns a success holding `value`. */
export const ok = <T>(value: T): Ok<T> => ({ ok: true, value });

/** Returns an expected failure holding `error`. */
export const fail = <E extends Fault>(error: E): Fail<E> => ({ ok: false, error });

/** Marks a switch as complete: reaching it is a bug, and a missing case is a type error before that. */
export function never(value: never): never {
  throw new Error(`case not handled: ${JSON.stringify(value)}`);
}
