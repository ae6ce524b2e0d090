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
	const harmonic = scatterOf(groupsOf(stretches, 'harmonic'));
	const fretted = scatterOf(groupsOf(stretches, 'fretted'));
	const tunerVariance = pooled(usual.tunerCents ** 2, harmonic);
	const frettedVariance = pooled(usual.tunerCents ** 2 + usual.pressCents ** 2, fretted);
	// What the fretted notes scatter more than the harmonics is the finger's.
	const pressVariance = Math.max(usual.pressCents ** 2 / 4, frettedVariance - tunerVariance);
	return {...usual, tunerCents: Math.sqrt(tunerVariance), pressCents: Math.sqrt(pressVariance)};
}

const weight = 8;

function pooled(
	usualVariance: number,
	{squares, freedom}: {readonly squares: number; readonly freedom: number},
): number {
	return (weight * usualVariance + squares) / (weight + freedom);
}

/** One list of cents per stretch, empty ones left out. */
function groupsOf(stretches: readonly Stretch[], kind: Kind): readonly (readonly number[])[] {
	return stretches
		.map(stretch =>
			stretch.flatMap(sight => {
				if (sight.kind !== 'read' || (sight.how === 'fretted') !== (kind === 'fretted')) return [];
				return [sight.cents];
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
