import type {Estimate} from '../numeric/estimate.ts';
import {type Candidate, candidatesOf} from './diagnosis-candidates.ts';
import {type DiagnosisCase, momentsOf} from './diagnosis-case.ts';
import {soundGround, weighed} from './diagnosis-weigh.ts';

export type {DiagnosisCase, DiagnosisEvent, DiagnosisString} from './diagnosis-case.ts';

/**
 * Ways in which readings can come to disagree with what is believed.
 *
 * - `sound`: nothing but noise and what a sound bridge always leaves.
 * - `plate`: the plate does not come home; it rests now here, now there.
 * - `claw`: spring or claw moved: like the plate, but it stays and adds up.
 * - `all-alike`: the tuner's reference changed.
 * - `string-slips`: one string gives way at a hard pull.
 * - `saddle-creeps`: one string falls from pluck to pluck, less each time.
 * - `stretching`: new strings still give, at every pluck and more at every pull.
 */
export const diagnosisCauses = [
	'sound',
	'plate',
	'claw',
	'all-alike',
	'string-slips',
	'saddle-creeps',
	'stretching',
] as const;
export type DiagnosisCause = (typeof diagnosisCauses)[number];

export interface Suspicion {
	readonly cause: DiagnosisCause;
	/** Which string, where the cause is one string's; counts from 0 = thinnest. */
	readonly index?: number;
	/** Share of belief among all causes looked at, 0 to 1. */
	readonly probability: number;
	/**
	 * What it has done by now, cents: of its own string, else of the string that reacts
	 * most; for a plate that comes to rest anywhere, how far apart (positive).
	 */
	readonly sizeCents: Estimate;
	/** What the cause leaves unexplained, root mean square in spreads: about 1 when it explains all, much more when it does not. */
	readonly misfit: number;
}

export interface Diagnosis {
	/** `unclear`: something is off, and these readings do not tell what. */
	readonly verdict: DiagnosisCause | 'unclear';
	readonly index?: number;
	/** Likeliest first, all causes, one entry a cause (its likeliest string). */
	readonly suspicions: readonly Suspicion[];
}

/** Least belief that a named cause needs. Judgement, by development runs of the benchmark. */
const leastProbability = 0.7;
/** From this on not even the best cause explains the readings. */
const mostMisfit = 1.7;

/**
 * Weighs the ways in which these readings may have come about against each
 * other: each is a pattern over strings and time with a size that is not
 * known, the sizes are averaged over, and the shares follow by Bayes' rule.
 * Two causes at once are not looked for.
 *
 * @returns Undefined when nothing was read.
 * @throws {RangeError} If an event names a string that is not there.
 */
export function diagnose(given: DiagnosisCase): Diagnosis | undefined {
	const moments = momentsOf(given);
	if (moments.length === 0) return undefined;
	const ground = soundGround(given, moments);
	const found = candidatesOf(given).map(candidate => ({candidate, ...weighed(candidate, ground)}));
	const most = Math.max(...found.map(({logEvidence, candidate}) => logEvidence + Math.log(candidate.prior)));
	const shares = found.map(({logEvidence, candidate}) => candidate.prior * Math.exp(logEvidence - most));
	const total = shares.reduce((sum, share) => sum + share, 0);
	const suspicions = gathered(
		found.map(({candidate, sizeCents, misfit}, at) => ({
			candidate,
			sizeCents,
			misfit,
			probability: shares[at]! / total,
		})),
	);
	const [best] = suspicions;
	const isClear = best!.probability >= leastProbability && best!.misfit <= mostMisfit;
	const isSound = best!.cause === 'sound' && best!.misfit <= mostMisfit;
	return isClear || isSound
		? {verdict: best!.cause, ...(best!.index === undefined ? {} : {index: best!.index}), suspicions}
		: {verdict: 'unclear', suspicions};
}

interface Weighed {
	readonly candidate: Candidate;
	readonly sizeCents: Estimate;
	readonly misfit: number;
	readonly probability: number;
}

/** One entry a cause and string: the variants of one are alternatives of each other. */
function gathered(all: readonly Weighed[]): readonly Suspicion[] {
	const byName = new Map<string, Suspicion & {readonly top: number}>();
	for (const {candidate, probability, sizeCents, misfit} of all) {
		const {cause, index} = candidate;
		const name = `${cause} ${index ?? ''}`;
		const known = byName.get(name);
		const isBetter = !known || probability > known.top;
		byName.set(name, {
			cause,
			...(index === undefined ? {} : {index}),
			probability: probability + (known?.probability ?? 0),
			sizeCents: isBetter ? sizeCents : known.sizeCents,
			misfit: isBetter ? misfit : known.misfit,
			top: isBetter ? probability : known.top,
		});
	}

	const ranked = [...byName.values()].sort((a, b) => b.probability - a.probability);
	return ranked
		.filter((one, at) => ranked.findIndex(({cause}) => cause === one.cause) === at)
		.map(({top: _, ...suspicion}) => suspicion);
}
