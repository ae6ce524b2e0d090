import {describe, expect, test} from 'vitest';
import {hear, hearEnd, hearNow} from '../../source/listening/hear.ts';
import {type HeardPluck, type Listening, startListening} from '../../source/listening/listening.ts';
import {viewOf} from '../../source/listening/listening-view.ts';
import {firstPartialHz, lawWithFirstPartial} from '../../source/listening/partial-law.ts';
import {believedHz, whichString} from '../../source/listening/which-string.ts';
import {centsBetween} from '../../source/music/pitch.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {onePluck, quietS} from './synthesis/pluck.ts';
import {render} from './synthesis/scene.ts';
import {companies, drawTake} from './synthesis/take.ts';
import {drawTone} from './synthesis/tone.ts';

/** Everything heard in a recording handed over in blocks. */
function heardIn(
	samples: Float32Array,
	sampleRateHz: number,
	block = 1024,
): {readonly plucks: readonly HeardPluck[]; readonly listening: Listening; readonly phases: readonly string[]} {
	let listening = startListening(sampleRateHz);
	const plucks: HeardPluck[] = [];
	const phases: string[] = [];
	for (let from = 0; from < samples.length; from += block) {
		const heard = hear(listening, samples.subarray(from, from + block));
		listening = heard.listening;
		plucks.push(...heard.plucks);
		const {phase} = viewOf(listening);
		if (phases.at(-1) !== phase) phases.push(phase);
	}

	const end = hearEnd(listening);
	return {plucks: [...plucks, ...end.plucks], listening: end.listening, phases};
}

const law = lawWithFirstPartial(110, 6e-5);

describe('one pluck', () => {
	const made = onePluck({law, lengthS: 2});
	const {plucks, phases} = heardIn(made.samples, made.sampleRateHz);

	test('is told once, settled, within a second and a tenth of a cent', () => {
		expect(plucks).toHaveLength(1);
		expect(plucks[0]!.verdict).toBe('settled');
		expect(plucks[0]!.onsetS).toBeCloseTo(quietS, 1);
		expect(plucks[0]!.toldS - quietS).toBeLessThan(1.05);
		expect(Math.abs(centsBetween(plucks[0]!.tone!.hz, firstPartialHz(law)))).toBeLessThan(0.1);
	});

	test('shows its stages in order', () => {
		expect(phases).toEqual(['waiting', 'attack', 'settling', 'told']);
	});

	test.each([64, 4096, 1e6])('is heard alike in blocks of %i', block => {
		const again = heardIn(made.samples, made.sampleRateHz, block).plucks;
		expect(again.map(p => p.tone!.hz)).toEqual(plucks.map(p => p.tone!.hz));
	});

	test('the state before is left as it was', () => {
		const start = startListening(made.sampleRateHz);
		const copy = structuredClone(start);
		hear(start, made.samples);
		expect(start).toEqual(copy);
	});
});

test('"now" needs no onset', () => {
	// Listening begins half a second into the ring.
	const made = onePluck({law, lengthS: 2});
	const late = made.samples.slice(
		Math.round((quietS + 0.5) * made.sampleRateHz),
		Math.round((quietS + 1.3) * made.sampleRateHz),
	);
	const {listening} = hear(startListening(made.sampleRateHz), late);
	expect(Math.abs(centsBetween(hearNow(listening)!.hz, firstPartialHz(law)))).toBeLessThan(0.2);
});

test('noise is not a pluck', () => {
	const {samples} = render(rngFrom(3), {sampleRateHz: 48_000, durationS: 6, noise: 0.01, tones: []});
	expect(heardIn(samples, 48_000).plucks).toEqual([]);
});

test('strings left to beat against each other are not plucked again', () => {
	const rng = rngFrom(4);
	const ringing = (hz: number) => ({
		tone: drawTone(rng, lawWithFirstPartial(hz, 5e-5), 0.1, {decayPerS: 0.3}),
		startS: 0.5,
		endS: 9,
	});
	const {samples} = render(rng, {
		sampleRateHz: 48_000,
		durationS: 6,
		noise: 1e-4,
		tones: [ringing(110), ringing(110.9), ringing(147.5)],
	});
	expect(heardIn(samples, 48_000).plucks.filter(p => p.onsetS > 0.7)).toEqual([]);
});

describe('a peg turned while the string rings', () => {
	const made = onePluck({law, lengthS: 4.5, changes: {decayPerS: 0.5, turned: {fromS: 1.6, toS: 2.6, cents: 25}}});
	const {plucks, phases} = heardIn(made.samples, made.sampleRateHz);

	test('tells the pluck, and then where it came to stand', () => {
		expect(plucks.map(p => [p.verdict, p.isTurned])).toEqual([
			['settled', false],
			['settled', true],
		]);
		expect(Math.abs(centsBetween(plucks[1]!.tone!.hz, firstPartialHz(law)) - 25)).toBeLessThan(0.3);
	});

	test('shows that it is being turned', () => {
		expect(phases).toEqual(['waiting', 'attack', 'settling', 'told', 'turning', 'told']);
	});
});

test('a pitch that never stands still is no reading', () => {
	const made = onePluck({law, lengthS: 1.8, changes: {turned: {fromS: 0.1, toS: 2, cents: 60}}});
	const {plucks} = heardIn(made.samples, made.sampleRateHz);
	expect(plucks.map(p => p.verdict)).toEqual(['moving']);
});

test('a pluck cut off at full scale says so', () => {
	const made = onePluck({law, level: 0.9, lengthS: 2});
	const {plucks} = heardIn(made.samples, made.sampleRateHz);
	expect(plucks[0]!.isClipped).toBe(true);
});

describe.each(companies)('every string of an instrument, one after another, the others %s', company => {
	const take = drawTake(rngFrom(11, companies.indexOf(company)), {
		strings: 7,
		company,
		spacingS: 1.5,
		most: 6,
		isClean: true,
	});
	const {plucks} = heardIn(take.samples, take.sampleRateHz);

	test('each is told once', () => {
		expect(plucks.map(p => take.plucks.findIndex(t => Math.abs(t.atS - p.onsetS) < 0.1))).toEqual(
			take.plucks.map((_, i) => i),
		);
	});

	test('at the right pitch', () => {
		for (const [i, {tone, verdict}] of plucks.entries()) {
			const cents = centsBetween(tone!.hz, take.plucks[i]!.hz);
			expect(Math.abs(cents)).toBeLessThan(verdict === 'settled' ? 0.5 : 3);
		}
	});

	test('and by the right name, or a question', () => {
		for (const [i, {tone}] of plucks.entries()) {
			const {string, way} = take.plucks[i]!;
			const verdict = whichString(tone!, take.places, {semitonesUp: way === 'open' ? 0 : 12, asked: string});
			if (verdict.kind === 'string') expect(verdict.string).toBe(string);
		}
	});

	test('hints help and do not bend', () => {
		const hinted = hear(startListening(take.sampleRateHz), take.samples, {believedHz: believedHz(take.places)}).plucks;
		for (const [i, {tone}] of hinted.entries()) {
			expect(Math.abs(centsBetween(tone!.hz, plucks[i]!.tone!.hz))).toBeLessThan(
				3 * Math.hypot(tone!.sdCents, plucks[i]!.tone!.sdCents),
			);
		}
	});
});

test('a sample rate that no sound has is a bug', () => {
	expect(() => startListening(100)).toThrow('startListening: expected sampleRateHz from 8000 to 1e6, got 100');
});
