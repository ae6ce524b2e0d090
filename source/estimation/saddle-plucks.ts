import {heardSdCents} from './hands.ts';
import type {Stretch} from './saddle-causes.ts';
import type {SaddleNoise} from './saddle-history.ts';

/** Plucks of one kind at one place of the saddle, for showing. */
export interface Plucks {
	readonly count: number;
	/** Mean of the last stretch's plucks, cents; undefined without any. */
	readonly meanCents?: number;
	/** Scatter within stretches, cents; undefined with fewer than two plucks together. */
	readonly sdCents?: number;
}

type Kind = 'harmonic' | 'fretted';

/** Harmonic (open readings counted with it) and fretted plucks. */
export function plucksOf(stretches: readonly Stretch[]): Readonly<Record<Kind, Plucks>> {
	return {harmonic: plucksOfKind(stretches, 'harmonic'), fretted: plucksOfKind(stretches, 'fretted')};
}

function plucksOfKind(stretches: readonly Stretch[], kind: Kind): Plucks {
	const groups = groupsOf(stretches, kind);
	const last = groups.at(-1);
	const {squares, freedom} = scatterOf(groups);
	return {
		count: groups.reduce((sum, group) => sum + group.length, 0),
		...(last ? {meanCents: last.reduce((sum, cents) => sum + cents, 0) / last.length} : {}),
		...(freedom > 0 ? {sdCents: Math.sqrt(squares / freedom)} : {}),
	};
}

/**
 * Noise as the plucks themselves show it, the usual noise counting as much as
 * `weight` plucks' worth: few plucks hardly move it, many do.
 */
export function pluckingNoise(stretches: readonly Stretch[], usual: SaddleNoise): SaddleNoise {
	const harmonic = asOnTuner(stretches, 'harmonic', usual);
	const fretted = asOnTuner(stretches, 'fretted', usual);
	const tunerVariance = pooled(usual.tunerCents ** 2, harmonic);
	const frettedVariance = pooled(usual.tunerCents ** 2 + usual.pressCents ** 2, fretted);
	// What the fretted notes scatter more than the harmonics is the finger's.
	const pressVariance = Math.max(usual.pressCents ** 2 / 4, frettedVariance - tunerVariance);
	return {...usual, tunerCents: Math.sqrt(tunerVariance), pressCents: Math.sqrt(pressVariance)};
}

const weight = 8;

/** Scatter that the plucks would have on the tuner: those that were heard lack its part, so that the finger's is told from it. */
function asOnTuner(stretches: readonly Stretch[], kind: Kind, {tunerCents}: SaddleNoise) {
	const {squares, freedom} = scatterOf(groupsOf(stretches, kind));
	const lacking = stretches.reduce((sum, stretch) => {
		const heard = stretch.flatMap(sight =>
			sight.kind === 'read' && isOfKind(sight, kind) && sight.heardSdCents !== undefined
				? [tunerCents ** 2 - heardSdCents(sight.heardSdCents) ** 2]
				: [],
		);
		const read = stretch.filter(sight => sight.kind === 'read' && isOfKind(sight, kind)).length;
		// Each group's mean takes one pluck's worth away.
		const part = read > 1 ? (read - 1) / read : 0;
		return sum + part * heard.reduce((total, each) => total + Math.max(0, each), 0);
	}, 0);
	return {squares: squares + lacking, freedom};
}

/** The noise of the next pluck: read like the newest one, heard or off the tuner. */
export function nextPluckNoise(stretches: readonly Stretch[], noise: SaddleNoise): SaddleNoise {
	const newest = stretches.flat().findLast(sight => sight.kind === 'read');
	if (newest?.kind !== 'read' || newest.heardSdCents === undefined) return noise;
	return {...noise, tunerCents: heardSdCents(newest.heardSdCents)};
}

function pooled(
	usualVariance: number,
	{squares, freedom}: {readonly squares: number; readonly freedom: number},
): number {
	return (weight * usualVariance + squares) / (weight + freedom);
}

function isOfKind({how}: {readonly how: 'open' | 'harmonic' | 'fretted'}, kind: Kind): boolean {
	return (how === 'fretted') === (kind === 'fretted');
}

/** One list of cents per stretch, empty ones left out. */
function groupsOf(stretches: readonly Stretch[], kind: Kind): readonly (readonly number[])[] {
	return stretches
		.map(stretch =>
			stretch.flatMap(sight => {
				return sight.kind === 'read' && isOfKind(sight, kind) ? [sight.cents] : [];
			}),
		)
		.filter(group => group.length > 0);
}

function scatterOf(groups: readonly (readonly number[])[]): {readonly squares: number; readonly freedom: number} {
	let squares = 0;
	let freedom = 0;
	for (const group of groups) {
		const mean = group.reduce((sum, cents) => sum + cents, 0) / group.length;
		squares += group.reduce((sum, cents) => sum + (cents - mean) ** 2, 0);
		freedom += group.length - 1;
	}
	return {squares, freedom};
}
