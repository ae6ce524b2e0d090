import fc from 'fast-check';
import {expect, test} from 'vitest';
import {
	frettedMinusHarmonicCents,
	frettedNote,
	giveShare,
	harmonicAboveOctaveCents,
	saddleHeightFromActionM,
} from '../../source/physics/fretted-note.ts';
import {stringConstantsOf} from '../../source/physics/string-constants.ts';
import {wireFrom} from '../../source/physics/wire.ts';

const inchM = 0.0254;
const centsPerLog = 1200 / Math.LN2;
const path = {
	scaleLengthM: 0.648,
	saddleSetbackM: 0,
	nutHeightM: 0.35e-3,
	saddleHeightM: saddleHeightFromActionM({actionM: 1.6e-3, nutHeightM: 0.35e-3}),
};
const third = stringConstantsOf(wireFrom({gaugeM: 0.016 * inchM, wound: false}), {
	frequencyHz: 195.998,
	scaleLengthM: 0.648,
});

// Own derivation from the same model on the reference set; no measured table for steel strings was found.
// Mass per length at pitch there, unstretched here: half a percent of the tension term.
test.each([
	['E4', 329.628, 0.009, undefined, 3.3],
	['B3', 246.942, 0.011, undefined, 5.66],
	['G3', 195.998, 0.016, undefined, 9.87],
	['D3', 146.832, 0.024, 0.0135, 6.59],
	['A2', 110, 0.032, 0.0145, 7.78],
	['E2', 82.407, 0.042, 0.016, 9.85],
] as const)(
	'%s of the reference set frets sharp at the 12th by about what the notes derive',
	(_, frequencyHz, gauge, core, cents) => {
		const wire = wireFrom({
			gaugeM: gauge * inchM,
			wound: core !== undefined,
			...(core ? {coreM: core * inchM} : {}),
		});
		const string = stringConstantsOf(wire, {frequencyHz, scaleLengthM: 0.648});
		expect(Math.abs(frettedNote(12, path, string).errorCents - cents)).toBeLessThan(0.04);
	},
);

test('the prototype string without setbacks, frets 1 to 12', () => {
	// Own evaluation of the published model, to .01 cent.
	const prototype = {stringConstant: 51, openStiffness: 0.00236};
	const board = {scaleLengthM: 0.65, nutHeightM: 0.001, saddleHeightM: 0.004, saddleSetbackM: 0};
	const expected = [1.73, 1.61, 1.82, 2.12, 2.48, 2.88, 3.32, 3.78, 4.28, 4.81, 5.38, 5.98];
	for (const [index, cents] of expected.entries()) {
		expect(frettedNote(index + 1, board, prototype).errorCents).toBeCloseTo(cents, 2);
	}
});

test('the four parts add up to the error, and the bench reading is that less the stretched octave of the harmonic', () => {
	const {parts, errorCents} = frettedNote(12, path, third);
	const sum = parts.lengthCents + parts.densityCents + parts.tensionCents + parts.stiffnessCents;
	expect(sum).toBeCloseTo(errorCents, 12);
	expect(frettedMinusHarmonicCents(path, third)).toBeCloseTo(
		errorCents - harmonicAboveOctaveCents(third.openStiffness),
		12,
	);
	// Three times B_inh in cents: a quarter of a cent for a plain third.
	expect(harmonicAboveOctaveCents(third.openStiffness)).toBeCloseTo(
		(centsPerLog / 2) * 3 * (Math.PI * third.openStiffness) ** 2,
		2,
	);
});

test('to first order the error is linear in saddle, nut, stiffness and elongation', () => {
	fc.assert(
		fc.property(
			fc.integer({min: 1, max: 19}),
			fc.double({min: -0.002, max: 0.003, noNaN: true}),
			fc.double({min: -0.0004, max: 0.0004, noNaN: true}),
			fc.double({min: 40, max: 400, noNaN: true}),
			fc.double({min: 0.0005, max: 0.003, noNaN: true}),
			(fret, saddleSetbackM, nutSetbackM, stringConstant, openStiffness) => {
				const note = frettedNote(fret, {...path, saddleSetbackM, nutSetbackM}, {stringConstant, openStiffness});
				const rise = 2 ** (fret / 12) - 1;
				const linear =
					centsPerLog *
					(rise * (openStiffness - saddleSetbackM / 0.648) +
						nutSetbackM / 0.648 +
						(stringConstant * note.elongation) / 2);
				// Second orders: stiffness up to (B g)² π²/2, setback (ΔS g / X₀)², heights.
				expect(Math.abs(note.errorCents - linear)).toBeLessThan(0.6);
			},
		),
	);
});

test('elongation close to the fret follows its closed form', () => {
	for (const fret of [1, 3, 7, 12, 19]) {
		const g = 2 ** (fret / 12);
		const {nutHeightM: b, saddleHeightM: c, scaleLengthM} = path;
		const closed = (g * b + (g - 1) * c) ** 2 / (2 * (g - 1) * scaleLengthM ** 2);
		expect(frettedNote(fret, path, third).elongation / closed).toBeCloseTo(1, 3);
	}
});

test('higher action, more give and more relief act as they must', () => {
	const cents = (actionM: number, extra: {give?: number; reliefM?: number} = {}) =>
		frettedMinusHarmonicCents(
			{
				...path,
				reliefM: extra.reliefM ?? 0,
				saddleHeightM: saddleHeightFromActionM({actionM, nutHeightM: 0.35e-3, reliefM: extra.reliefM ?? 0}),
			},
			{...third, giveShare: extra.give ?? 0},
		);
	expect(cents(2.2e-3)).toBeGreaterThan(cents(1.2e-3));
	expect(cents(1.6e-3, {give: 0.2})).toBeLessThan(cents(1.6e-3));
	// Action is measured with the relief in it, so at the 12th fret relief makes next to no difference.
	expect(Math.abs(cents(1.6e-3, {reliefM: 0.3e-3}) - cents(1.6e-3))).toBeLessThan(0.05);
});

test('a bridge that takes up a share of the stretch takes that share off the tension part', () => {
	const fixed = frettedNote(12, path, third).parts.tensionCents;
	const giving = frettedNote(12, path, {...third, giveShare: 0.25}).parts.tensionCents;
	expect(giving / fixed).toBeCloseTo(0.75, 2);
	expect(giveShare({complianceMPerN: 0, stretchStiffnessNPerM: 40_000})).toBe(0);
	// 5 µm per newton against 40 N per mm: .2 newton per newton.
	expect(giveShare({complianceMPerN: 5e-6, stretchStiffnessNPerM: 40_000})).toBeCloseTo(0.2 / 1.2, 12);
});

test('pressing further behind the fret raises the note', () => {
	const at = (fingerBehindM: number) => frettedNote(1, {...path, fingerBehindM}, third).errorCents;
	expect(at(0.01)).toBeGreaterThan(at(0));
});

test('a finger beyond the nut is a bug', () => {
	expect(() => frettedNote(1, {...path, fingerBehindM: 0.05}, third)).toThrow(RangeError);
	expect(() => frettedNote(12, path, {...third, giveShare: 1})).toThrow(
		'frettedNote: expected giveShare to be below 1, got 1',
	);
});
