import {PitchDetector} from 'pitchy';
import {describe, expect, test} from 'vitest';
import {estimateTone} from '../../source/listening/estimate-tone.ts';
import {lawWithFirstPartial, stiffnessShiftCents} from '../../source/listening/partial-law.ts';
import {centsBetween} from '../../source/music/pitch.ts';
import {type OnePluck, onePluck, quietS} from '../listening/synthesis/pluck.ts';

/** What is heard of a synthetic pluck between 50 and 800 ms after its onset. */
function heard(pluck: OnePluck) {
	const {samples, sampleRateHz} = onePluck(pluck);
	const part = samples.slice(Math.round((quietS + 0.05) * sampleRateHz), Math.round((quietS + 0.8) * sampleRateHz));
	return {tone: estimateTone({samples: part, sampleRateHz, sinceOnsetS: 0.05})!, part, sampleRateHz};
}

// Handbook table of the equal-tempered scale (CRC, 14-22) and a physics department's table, Hz as printed; A4 = 440 Hz.
test.each([
	['E2', 82.407],
	['A2', 110],
	['D3', 146.83],
	['G3', 196],
	['B3', 246.94],
	['E4', 329.63],
] as const)('%s plucked at its printed pitch is heard there', (_, hz) => {
	// Tolerance: the aim of the listening, a fifth of a cent.
	const {tone} = heard({law: lawWithFirstPartial(hz, 6e-5)});
	expect(Math.abs(centsBetween(tone.hz, hz))).toBeLessThan(0.2);
});

describe('stiffness heard, against R. W. Young, J. Acoust. Soc. Am. 24(3) (1952), abstract', () => {
	/** Shift of a mode, cents: 3.4e13 n² d² / (f0² l⁴), lengths in cm, for steel wire of E/ρ = 25.5e10 cm²/s². */
	const youngCents = (n: number, {diameterCm, lengthCm, hz}: Wire) =>
		(3.4e13 * n ** 2 * diameterCm ** 2) / (hz ** 2 * lengthCm ** 4);
	interface Wire {
		readonly diameterCm: number;
		readonly lengthCm: number;
		readonly hz: number;
	}
	// Plain steel strings of .009, .011 and .016 in on 64.8 cm, open; the last also fretted half-way.
	const wires: readonly Wire[] = [
		{diameterCm: 0.02286, lengthCm: 64.8, hz: 329.63},
		{diameterCm: 0.02794, lengthCm: 64.8, hz: 246.94},
		{diameterCm: 0.04064, lengthCm: 64.8, hz: 196},
		{diameterCm: 0.04064, lengthCm: 32.4, hz: 392},
	];
	test.each(wires)('$diameterCm cm at $hz Hz', wire => {
		// Into the sound goes theory, B = π² (E/ρ) d² / (64 l⁴ f²), not the printed constant.
		const stiffness = (Math.PI ** 2 * 25.5e10 * wire.diameterCm ** 2) / (64 * wire.lengthCm ** 4 * wire.hz ** 2);
		const {tone} = heard({law: lawWithFirstPartial(wire.hz, stiffness)});
		for (const n of [2, 5, 10]) {
			// 2 % for the two printed digits of the constant and the formula's first order, and the fit's own uncertainty.
			const slackCents = 865.6 * n ** 2 * 3 * tone.stiffnessSd;
			const young = youngCents(n, wire);
			expect(Math.abs(stiffnessShiftCents(tone.law.stiffness, n) - young)).toBeLessThan(0.02 * young + slackCents);
		}
		expect(tone.stiffnessSd).toBeLessThan(0.1 * stiffness + 1e-6);
	});
});

describe('a sound made here, from printed numbers alone', () => {
	/** Decaying sinusoids, partial n at n f₀ and sharp of it by Young's shift: nothing of ours goes into it. */
	const printed = (hz: number, shiftCents: (n: number) => number) => {
		const sampleRateHz = 44_100;
		const samples = new Float32Array(Math.round(0.75 * sampleRateHz));
		const partials = Array.from({length: 16}, (_, i) => (i + 1) * hz * 2 ** (shiftCents(i + 1) / 1200));
		for (let i = 0; i < samples.length; i++) {
			const t = i / sampleRateHz;
			for (const [k, f] of partials.entries())
				samples[i]! += (0.1 / (k + 1)) * Math.exp(-(1.5 + 0.3 * k) * t) * Math.sin(2 * Math.PI * f * t + k * k);
		}

		return {tone: estimateTone({samples, sampleRateHz, sinceOnsetS: 0.05})!, partials};
	};

	test.each([
		['.016 in, G3', 0.04064, 196],
		['.011 in, B3', 0.02794, 246.94],
		['.009 in, E4', 0.02286, 329.63],
	] as const)('%s: every partial of a steel string on 64.8 cm is where it was put', (_, diameterCm, hz) => {
		// R. W. Young 1952: 3.4e13 n² d² / (f0² l⁴) cents.
		const {tone, partials} = printed(hz, n => (3.4e13 * n ** 2 * diameterCm ** 2) / (hz ** 2 * 64.8 ** 4));
		// Tolerance: the aim of the listening; Young's shift is the first order of the law, 0.3 cents off at partial 16 of the stiffest.
		expect(Math.abs(centsBetween(tone.hz, partials[0]!))).toBeLessThan(0.2);
		for (const n of [2, 5, 8]) {
			const heardHz = n * tone.law.idealHz * Math.sqrt(1 + tone.law.stiffness * n ** 2);
			expect(Math.abs(centsBetween(heardHz, partials[n - 1]!))).toBeLessThan(0.3);
		}
	});
});

test('second opinion: on a flexible string after the attack a kept npm detector agrees', () => {
	const {tone, part, sampleRateHz} = heard({law: lawWithFirstPartial(196, 0), changes: {glideCents: 0}, quietDb: 60});
	const [pitch, clarity] = PitchDetector.forFloat32Array(8192).findPitch(part.subarray(8192, 16_384), sampleRateHz);
	expect(clarity).toBeGreaterThan(0.95);
	// Tolerance: the detector interpolates its peak with a parabola; it is good to some tenths of a cent.
	expect(Math.abs(centsBetween(tone.hz, pitch))).toBeLessThan(0.5);
});
