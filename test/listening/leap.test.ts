import {describe, expect, test} from 'vitest';
import {hear} from '../../source/listening/hear.ts';
import {startListening} from '../../source/listening/listening.ts';
import {viewOf} from '../../source/listening/listening-view.ts';
import {firstPartialHz, lawWithFirstPartial} from '../../source/listening/partial-law.ts';
import {centsBetween, frequencyHz} from '../../source/music/pitch.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {render} from './synthesis/scene.ts';
import {drawTone} from './synthesis/tone.ts';

const sampleRateHz = 48_000;
const notes = ['E4', 'B3', 'G3', 'D3', 'A2', 'E2'];
const laws = notes.map(note => lawWithFirstPartial(frequencyHz(note), 6e-5));
/** Every string open and an octave up, as the wizard gives them. */
const believedHz = laws.flatMap(law => [firstPartialHz(law), 2 * firstPartialHz(law)]);

interface Plan {
	readonly string: number;
	/** Of the plucked string's first partial, 1/s. */
	readonly decayPerS?: number;
	readonly turned?: {readonly fromS: number; readonly toS: number; readonly cents: number};
	/** A hand laid on it so long after the pluck, s. */
	readonly dampedS?: number;
	/** Strength of the other strings that ring along, share of the plucked one's. */
	readonly along?: number;
}

/** What is told as turned while one pluck rings for four seconds, and what is shown at the end. */
function heardOf({string, decayPerS = 0.6, turned, dampedS = 99, along = 0.1}: Plan) {
	const rng = rngFrom(string, 5);
	const own = drawTone(rng, laws[string - 1]!, 0.08, {decayPerS, ...(turned && {turned})});
	const others = laws.flatMap((law, at) =>
		at === string - 1 || along === 0
			? []
			: [{tone: drawTone(rng, law, 0.08 * along, {pickNoise: 0, glideCents: 0}), startS: 0.5, endS: 99}],
	);
	const tones = [{tone: own, startS: 0.5, endS: 0.5 + dampedS}, ...others];
	const {samples} = render(rng, {sampleRateHz, durationS: 4.7, noise: 8e-4, tones});
	const {plucks, listening} = hear(startListening(sampleRateHz), samples, {believedHz});
	const centsOff = (hz: number) => centsBetween(hz, firstPartialHz(laws[string - 1]!));
	return {
		first: plucks.filter(({isTurned}) => !isTurned).map(({tone}) => centsOff(tone!.hz)),
		turned: plucks.filter(({isTurned}) => isTurned).map(({tone}) => centsOff(tone!.hz)),
		view: viewOf(listening),
	};
}

describe('a peg turned fast, farther than the ear follows from look to look', () => {
	test.each([
		[5, -320, 0.4],
		[3, 290, 0.3],
		[6, 350, 0.5],
		[4, -230, 0.2],
	])('string %i by %i cents in %f s is read where it came to stand', (string, cents, lengthS) => {
		const heard = heardOf({string, turned: {fromS: 1.6, toS: 1.6 + lengthS, cents}});
		expect(heard.first).toHaveLength(1);
		expect(heard.turned).toHaveLength(1);
		expect(Math.abs(heard.turned[0]! - cents)).toBeLessThan(0.5);
		expect(heard.view.phase).toBe('told');
	});
});

describe('what is heard elsewhere and is not the string turned', () => {
	test.each([2, 3, 6])('string %i dying away before the others is not followed onto them', string => {
		const heard = heardOf({string, decayPerS: 3, along: 0.3});
		expect(heard.turned).toEqual([]);
	});

	test.each([2, 5])('string %i damped by a hand, the others ringing on', string => {
		const heard = heardOf({string, dampedS: 1.7, along: 0.5});
		expect(heard.turned).toEqual([]);
	});

	test('where another string is believed, it is that string', () => {
		// The G turned up to the B's own pitch: from the sound alone nobody can tell.
		const heard = heardOf({string: 3, along: 0, turned: {fromS: 1.6, toS: 1.7, cents: 400}});
		expect(heard.turned).toEqual([]);
	});
});
