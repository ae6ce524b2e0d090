import {centsPerLog} from '../music/pitch.ts';
import {requireFinite, requirePositive} from '../numeric/require.ts';
import {frettedMinusHarmonicCents, type FrettedString, type StringPath} from './fretted-note.ts';

/**
 * Saddle travel that brings the fretted 12th onto the harmonic, by length
 * alone: with r = 2^(c/1200) and the open string brought back to pitch,
 *
 *     r (L + s) / 2 = L/2 + s    →    s = L (r − 1) / (2 − r)
 *
 * Own derivation. Tension and stiffness, which the move changes too, shorten it by
 * up to 2 % on steel strings; `saddleTravelM` accounts for them.
 *
 * @param errorCents Fretted 12th minus harmonic, cents; below 1200.
 * @param speakingLengthM Now, m, > 0.
 * @returns Travel, m; positive = back, away from the neck, longer.
 * @throws {RangeError} If the length is not positive or the error is an octave or more.
 */
export function lengthOnlyTravelM(errorCents: number, speakingLengthM: number): number {
	requirePositive('lengthOnlyTravelM', {speakingLengthM, 'room below an octave in errorCents': 1200 - errorCents});
	const ratio = 2 ** (errorCents / 1200);
	return (speakingLengthM * (ratio - 1)) / (2 - ratio);
}

/** Change of the fretted 12th against the harmonic per metre of travel at X₀, by length alone: −1200 / (ln 2 · X₀), cents per m. */
export function lengthOnlySlopeCentsPerM(scaleLengthM: number): number {
	requirePositive('lengthOnlySlopeCentsPerM', {scaleLengthM});
	return -centsPerLog / scaleLengthM;
}

/**
 * Saddle travel that takes the full model from where it stands to another
 * fretted-minus-harmonic, the string brought back to pitch.
 *
 * @param changeCents Wanted change of fretted 12th minus harmonic, cents; within ±100.
 * @returns Travel, m; positive = back.
 * @throws {RangeError} If the change is beyond ±100 cents.
 */
export function saddleTravelM(changeCents: number, path: StringPath, string: FrettedString): number {
	requireFinite('saddleTravelM', {changeCents});
	if (Math.abs(changeCents) > 100) {
		throw new RangeError(`saddleTravelM: expected changeCents to be within ±100, got ${changeCents}`);
	}
	const wished = frettedMinusHarmonicCents(path, string) + changeCents;
	const errorAt = (travelM: number) =>
		frettedMinusHarmonicCents({...path, saddleSetbackM: path.saddleSetbackM + travelM}, string) - wished;
	// Secant steps; the curve is all but straight, so the length-only answer starts them close.
	let before = 0;
	let travel = lengthOnlyTravelM(-changeCents, path.scaleLengthM);
	for (let step = 0; step < 20 && Math.abs(travel - before) > 1e-12; step++) {
		const slope = (errorAt(travel) - errorAt(before)) / (travel - before);
		[before, travel] = [travel, travel - errorAt(travel) / slope];
	}
	return travel;
}

/** Cents of fretted 12th minus harmonic per metre of saddle travel in the full model, negative. */
export function saddleSlopeCentsPerM(path: StringPath, string: FrettedString): number {
	const probeM = 1e-4;
	const at = (travelM: number) =>
		frettedMinusHarmonicCents({...path, saddleSetbackM: path.saddleSetbackM + travelM}, string);
	return (at(probeM) - at(-probeM)) / (2 * probeM);
}
