import fc from 'fast-check';
import {expect, test} from 'vitest';
import {frettedMinusHarmonicCents, frettedNote} from '../../source/physics/fretted-note.ts';
import {
	lengthOnlySlopeCentsPerM,
	lengthOnlyTravelM,
	saddleSlopeCentsPerM,
	saddleTravelM,
} from '../../source/physics/saddle-move.ts';
import {bestSetbacks, leastSquaresSetbacks} from '../../source/physics/setback.ts';

const path = {scaleLengthM: 0.648, saddleSetbackM: 0.002, nutHeightM: 0.35e-3, saddleHeightM: 2.5e-3};
const string = fc.record({
	stringConstant: fc.double({min: 40, max: 420, noNaN: true}),
	openStiffness: fc.double({min: 0.0005, max: 0.0033, noNaN: true}),
});

test.each([
	[-10, -3.7108],
	[-5, -1.8634],
	[1, 0.3746],
	[2, 0.7499],
	[5, 1.8796],
	[10, 3.7757],
	[20, 7.6179],
])('%d cents on 648 mm are %d mm by length alone', (cents, mm) => {
	// Own derivation, evaluated once by hand to .1 µm.
	expect(lengthOnlyTravelM(cents, 0.648) * 1000).toBeCloseTo(mm, 3);
});

test('the slope at 650 mm is -2.663 cents per mm', () => {
	expect(lengthOnlySlopeCentsPerM(0.65) / 1000).toBeCloseTo(-2.663, 3);
});

test('fretted sharp means back, fretted flat means forward', () => {
	expect(lengthOnlyTravelM(4, 0.648)).toBeGreaterThan(0);
	expect(lengthOnlyTravelM(-4, 0.648)).toBeLessThan(0);
});

test('moving by the full model’s travel makes exactly the change asked for', () => {
	fc.assert(
		fc.property(fc.double({min: -25, max: 25, noNaN: true}), string, (change, constants) => {
			const travelM = saddleTravelM(change, path, constants);
			const moved = {...path, saddleSetbackM: path.saddleSetbackM + travelM};
			const made = frettedMinusHarmonicCents(moved, constants) - frettedMinusHarmonicCents(path, constants);
			expect(made).toBeCloseTo(change, 8);
		}),
	);
});

test('full model and length alone agree within 2 percent for strings of a guitar', () => {
	fc.assert(
		fc.property(string, constants => {
			const ratio = saddleSlopeCentsPerM(path, constants) / lengthOnlySlopeCentsPerM(path.scaleLengthM);
			expect(Math.abs(ratio - 1)).toBeLessThan(0.02);
		}),
	);
});

test('no pair of setbacks leaves less over the frets than the best pair', () => {
	fc.assert(
		fc.property(
			string,
			fc.double({min: -0.3e-3, max: 0.3e-3, noNaN: true}),
			fc.double({min: -0.1e-3, max: 0.1e-3, noNaN: true}),
			(constants, bySaddle, byNut) => {
				const best = bestSetbacks(path, constants);
				const closed = leastSquaresSetbacks(path, constants);
				expect(best.rmsCents).toBeLessThanOrEqual(closed.rmsCents + 1e-9);
				expect(Math.abs(best.saddleSetbackM - closed.saddleSetbackM)).toBeLessThan(0.1e-3);
				expect(best.rmsCents).toBeLessThanOrEqual(
					rmsAt(constants, best.saddleSetbackM + bySaddle, best.nutSetbackM + byNut) + 1e-6,
				);
			},
		),
		{numRuns: 40},
	);
});

function rmsAt(
	constants: {stringConstant: number; openStiffness: number},
	saddleSetbackM: number,
	nutSetbackM: number,
): number {
	let sum = 0;
	for (let fret = 1; fret <= 12; fret++) {
		sum += frettedNote(fret, {...path, saddleSetbackM, nutSetbackM}, constants).errorCents ** 2;
	}
	return Math.sqrt(sum / 12);
}
