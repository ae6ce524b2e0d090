import {rngFrom} from '../../source/numeric/rng.ts';
import type {DiagnosisCase} from '../../source/planning/diagnosis-case.ts';
import type {DiagnosisCause} from '../../source/planning/diagnosis.ts';
import {checked, type FaultKind, faultKinds, faultOf, setUp} from './diagnosis-run.ts';

/** A check of one guitar, and what is truly the matter with it. */
export interface Known {
	readonly given: DiagnosisCase;
	readonly fault?: FaultKind;
	readonly sizeCents: number;
	readonly cause: DiagnosisCause;
	/** Where the cause is one string's; counts from 0. */
	readonly index?: number;
	readonly isNew: boolean;
}

export const causeOf = {
	'sticky-pivot': 'plate',
	'slipping-string': 'string-slips',
	'tuner-reference': 'all-alike',
	'loose-claw': 'claw',
	'loose-saddle': 'saddle-creeps',
	'unsettled-string': 'stretching',
} as const satisfies Record<FaultKind, DiagnosisCause>;

const smallestCents = 3;
const largestCents = 30;

/**
 * One guitar, set up by the tool: checked sound, and with faults of size 3 to
 * 30 cents, small ones as often as large ones by ratio. A string that was
 * never stretched in is a new one, so that fault comes with a new set only;
 * the others with old and new sets alike.
 */
export function casesOf(seed: number): readonly Known[] {
	const isNew = Math.floor(seed / 6) % 2 === 1;
	const {guitar, belief} = setUp(seed, isNew);
	const sound: Known = {given: checked(rngFrom(seed, 10), guitar, belief, 0), sizeCents: 0, cause: 'sound', isNew};
	const twice = isNew ? (['unsettled-string', ...faultKinds] as const) : faultKinds;
	const faults = twice.flatMap((fault, at): readonly Known[] => {
		if (fault === 'unsettled-string' && !isNew) return [];
		const rng = rngFrom(seed, 20, at);
		const size = smallestCents * (largestCents / smallestCents) ** rng.uniform();
		const string = Math.floor(rng.uniform() * guitar.strings.length);
		const sign = rng.uniform() < 0.5 ? -1 : 1;
		// A reference changes between two rounds; what is worn or loose was so before.
		const faultAt = fault === 'tuner-reference' ? Math.floor(rng.uniform() * 5) : 0;
		const given = checked(rng, guitar, belief, faultAt, faultOf(fault, size, {string, guitar, sign}));
		const isOne = fault === 'slipping-string' || fault === 'loose-saddle' || fault === 'unsettled-string';
		return [{given, fault, sizeCents: size, cause: causeOf[fault], ...(isOne && {index: string}), isNew}];
	});
	return [sound, ...faults];
}
