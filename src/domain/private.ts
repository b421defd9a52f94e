/*
 * What of a client's record is private: it is left out of what another trainer is handed, unless it is ticked. This is the one place that
 * says so; a register that is added to the domain is judged here.
 */

/** Free words about the client; pain, and what was done about it; how the client came in. */
export const PRIVATE_TOPICS = ['notes', 'pain', 'arrival'] as const;
export type PrivateTopic = (typeof PRIVATE_TOPICS)[number];

const LEFT_OUT: readonly {
  readonly topic: PrivateTopic;
  /** Of these kinds alone; of every kind, those of a newer app too, where it is missing. */
  readonly kind?: string;
  readonly path: RegExp;
  /** Private for this value alone. */
  readonly value?: unknown;
}[] = [
  // a note is one wherever it stands, and why something was left out is one too
  { topic: 'notes', path: /(^|\/)(notes?|why|skipped)(\/|$)/ },
  { topic: 'pain', path: /(^|\/)(pain|sore)(\/|$)/ },
  { topic: 'pain', kind: 'session', path: /^signs\// },
  { topic: 'pain', kind: 'session', path: /^sets\/[^/]+\/ended$/, value: 'pain' },
  // a clearance says that there was something to clear
  { topic: 'pain', kind: 'client', path: /^clearances\// },
  { topic: 'arrival', kind: 'session', path: /^arrival\// },
  { topic: 'arrival', kind: 'client', path: /^question$/ },
];

/**
 * Returns what makes a value of a client's row private, nothing where it is not. Several topics (pain asked for at arrival) need every one of
 * them ticked. Restrictions are never private: whoever trains the client has to know what must not be done.
 */
export function privateTopics(kind: string, path: string, value: unknown): readonly PrivateTopic[] {
  const found = LEFT_OUT.filter(
    (rule) =>
      (rule.kind === undefined || rule.kind === kind) &&
      rule.path.test(path) &&
      (rule.value === undefined || rule.value === value),
  );
  return PRIVATE_TOPICS.filter((topic) => found.some((rule) => rule.topic === topic));
}
