import type { Fault } from '../domain/result';

/*
 * Streams pass failures on by throwing. An expected one goes through them as an error that stands for its fault, and comes out as a value.
 */

const faults = new WeakMap<Error, Fault>();

/** Ends the stream it is called in; `faultOf` finds the fault again at its end. */
export function stopWith<F extends Fault>(fault: F): never {
  const error = new Error(`stopped: ${fault.type}`);
  faults.set(error, fault);
  throw error;
}

/** Returns the fault that a stream was stopped with, or undefined for any other error. */
export const faultOf = (error: unknown): Fault | undefined => (error instanceof Error ? faults.get(error) : undefined);
