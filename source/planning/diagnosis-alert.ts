import type {Diagnosis} from './diagnosis.ts';

/** A sound guitar must be less likely than this. Judgement: on the way through a set-up every reading is such a test, hundreds in all. */
const soundAtMost = 0.005;
/** Smaller than this it can wait for the final check, cents. */
const leastCents = 3;

/**
 * True when readings on the way through a set-up are too odd to go on without
 * a look; at the end, where all strings are read again and again, `verdict`
 * alone counts.
 */
export function isAlarming({suspicions}: Pick<Diagnosis, 'suspicions'>): boolean {
	const [best] = suspicions;
	const sound = suspicions.find(({cause}) => cause === 'sound');
	if (!best || best.cause === 'sound') return false;
	return (sound?.probability ?? 0) < soundAtMost && Math.abs(best.sizeCents.mean) >= leastCents;
}
