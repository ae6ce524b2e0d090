import {expect, test} from 'vitest';
import {estimateTone} from '../../source/listening/estimate-tone.ts';
import {harmonicLaw, lawWithFirstPartial, type PartialLaw} from '../../source/listening/partial-law.ts';
import {heardIntonation, openStiffness, tunerDifferenceCents} from '../../source/listening/tuner-difference.ts';
import {onePluck, quietS} from './synthesis/pluck.ts';
import type {SyntheticTone} from './synthesis/tone.ts';

function heard(law: PartialLaw, changes: Partial<SyntheticTone> = {}, seed = 8) {
	const {samples, sampleRateHz} = onePluck({law, changes, seed});
	const part = samples.slice(Math.round((quietS + 0.05) * sampleRateHz), Math.round((quietS + 0.8) * sampleRateHz));
	return estimateTone({samples: part, sampleRateHz, sinceOnsetS: 0.05})!;
}

const open = lawWithFirstPartial(110, 1.2e-4);
/** Fretted half-way: half as long, four times the coefficient, and sharp by 6 cents. */
const fretted = {...harmonicLaw(open), idealHz: harmonicLaw(open).idealHz * 2 ** (6 / 1200)};

test('a stiff string with strong high partials reads sharp on a cheap tuner, a flexible one does not', () => {
	const bright = {tilt: 0.6, pluckShare: 0.1, pickupShare: 0.1, glideCents: 0};
	expect(tunerDifferenceCents(heard(lawWithFirstPartial(82.4, 5e-4), bright))).toBeGreaterThan(1);
	expect(tunerDifferenceCents(heard(lawWithFirstPartial(196, 0), {glideCents: 0}))).toBeUndefined();
});

test('intonation is heard to a fifth of a cent where a cheap tuner is cents out', () => {
	// Plucked in unlike places: a harmonic near the bridge, the fretted note nearer its middle.
	const pair = {
		harmonic: heard(harmonicLaw(open), {pluckShare: 0.1, pickupShare: 0.1, tilt: 0.6}),
		fretted: heard(fretted, {pluckShare: 0.3, pickupShare: 0.2, tilt: 1.3}, 9),
	};
	const {cents, periodTunerCents} = heardIntonation(pair);
	expect(Math.abs(cents.mean - 6)).toBeLessThan(0.2);
	expect(Math.abs(cents.mean - 6)).toBeLessThan(3 * cents.sd);
	expect(Math.abs(periodTunerCents! - 6)).toBeGreaterThan(1);
});

test('open, harmonic and fretted tell one stiffness of the open string', () => {
	for (const [law, semitonesUp] of [
		[open, 0],
		[harmonicLaw(open), 12],
		[fretted, 12],
	] as const) {
		const {mean, sd} = openStiffness(heard(law), semitonesUp);
		expect(Math.abs(mean - 1.2e-4)).toBeLessThan(0.02 * 1.2e-4 + 3 * sd);
		expect(sd).toBeLessThan(1e-5);
	}
});
