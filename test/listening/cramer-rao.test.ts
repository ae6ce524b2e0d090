import {expect, test} from 'vitest';
import {pitchBoundCents} from '../../source/listening/cramer-rao.ts';

const steady = {stiffness: 0, noise: 0.01, sampleRateHz: 48_000, fromS: 0, toS: 0.5};
const partial = (n: number, amplitude = 0.1) => ({n, hz: 110 * n, amplitude, decayPerS: 0});

test('one steady sinusoid: the textbook bound', () => {
	// Kay 1993, ch. 3, from memory: var f ≥ 12 fs² / ((2π)² η N (N² - 1)), η = A²/2σ². Tolerance: ours sums over 2000 steps.
	const samples = 24_000;
	const eta = 0.1 ** 2 / 2 / 0.01 ** 2;
	const sdHz = Math.sqrt((12 * 48_000 ** 2) / ((2 * Math.PI) ** 2 * eta * samples * (samples ** 2 - 1)));
	expect(pitchBoundCents({...steady, partials: [partial(1)]})).toBeCloseTo((1200 / Math.LN2) * (sdHz / 110), 5);
});

test('twice the noise doubles it; twice the time lowers it by 2√2', () => {
	const tone = {...steady, stiffness: 1e-4, partials: [1, 2, 3, 4].map(n => partial(n))};
	const bound = pitchBoundCents(tone);
	expect(pitchBoundCents({...tone, noise: 0.02}) / bound).toBeCloseTo(2, 6);
	expect(pitchBoundCents({...tone, toS: 1}) / bound).toBeCloseTo(2 ** -1.5, 3);
});

test('what is unknown costs: stiffness, then a glide', () => {
	const partials = [1, 2, 3, 4, 5, 6].map(n => partial(n));
	const alone = pitchBoundCents({...steady, partials: [partial(1)]});
	const all = pitchBoundCents({...steady, stiffness: 1e-4, partials});
	const gliding = pitchBoundCents({...steady, stiffness: 1e-4, partials, glide: {relative: 0.006, timeS: 0.15}});
	expect(all).toBeLessThan(alone);
	expect(gliding).toBeGreaterThan(all);
});
