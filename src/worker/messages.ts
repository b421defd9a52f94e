import type { Handed, Question, Reply } from './analyst';

/* What a page and its worker say to each other. Questions are numbered, and each gets one answer. */

export type ToWorker = Handed | { readonly type: 'ask'; readonly n: number; readonly question: Question };

/** `failed`: it could not be worked out. */
export type FromWorker = { readonly n: number; readonly reply: Reply | { readonly type: 'failed' } };
