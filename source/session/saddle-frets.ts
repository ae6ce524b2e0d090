import type {SaddleBelief} from '../estimation/saddle-belief.ts';
import {type FretReading, saddlePatternOf} from '../estimation/saddle-pattern.ts';
import type {StringNumber} from '../music/string-number.ts';
import type {Fact, Story} from './facts.ts';
import type {FretsRead} from './saddle-row.ts';

/**
 * Fretted notes of one string since anything was touched, each against the
 * harmonic read in the same time, and what lies behind them.
 *
 * @param touches True of a fact that may have moved this string's pitch.
 * @returns Undefined while no other fret than the 12th was read.
 */
export function fretsReadOf(
	story: Story,
	string: StringNumber,
	saddle: SaddleBelief,
	touches: (fact: Fact) => boolean,
): FretsRead | undefined {
	const reads = story
		.slice(story.findLastIndex(touches) + 1)
		.flatMap(fact => (fact.type === 'PitchRead' && fact.string === string ? [fact] : []));
	const fretted = reads.filter(({how}) => how === 'fretted');
	if (fretted.every(({fret = 12}) => fret === 12)) return undefined;
	const harmonics = reads.filter(({how}) => how === 'harmonic');
	if (harmonics.length === 0) return {readings: []};
	const harmonicCents = meanCents(harmonics);
	const frets = [...new Set(fretted.map(({fret = 12}) => fret))].sort((one, other) => one - other);
	const readings = frets.map((at): FretReading => {
		const plucks = fretted.filter(({fret = 12}) => fret === at);
		return {fret: at, cents: meanCents(plucks) - harmonicCents, plucks: plucks.length};
	});
	if (frets.length < 3) return {readings};
	const {model, positionMm, noise} = saddle;
	const pluckCents = Math.hypot(noise.tunerCents, noise.pressCents);
	return {readings, pattern: saddlePatternOf(model, readings, positionMm.mean, pluckCents)};
}

function meanCents(reads: readonly {readonly cents: number}[]): number {
	return reads.reduce((sum, {cents}) => sum + cents, 0) / reads.length;
}
