import {centsPerLog} from '../music/pitch.ts';
import {frettedNote, type FrettedString, type StringPath} from './fretted-note.ts';

/** Where saddle and nut of one string should stand, and what error is left over the frets. */
export interface Setbacks {
	/** ΔS, m behind the scale line. */
	readonly saddleSetbackM: number;
	/** ΔN, m; negative = nearer the first fret. */
	readonly nutSetbackM: number;
	/** Root mean square of the error over the frets, cents. */
	readonly rmsCents: number;
}

type Board = Omit<StringPath, 'saddleSetbackM' | 'nutSetbackM'>;

/**
 * Setbacks that are best over frets 1 to `lastFret`, by the closed solution:
 * with Zₙ the error without setbacks over 1200/ln 2, and gₖ = Σ (gₙ−1)ᵏ,
 * Zₖ = Σ (gₙ−1)ᵏ Zₙ,
 *
 *     ΔS =  X₀ (g₀ Z₁ − g₁ Z₀) / (g₀ g₂ − g₁²)
 *     ΔN = −X₀ (g₂ Z₀ − g₁ Z₁) / (g₀ g₂ − g₁²)
 *
 * Within 0.02 mm of `bestSetbacks` for usual strings.
 *
 * @param lastFret Whole, ≥ 2.
 * @see Anderson and Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024), appendix on least squares.
 */
export function leastSquaresSetbacks(board: Board, string: FrettedString, lastFret = 12): Setbacks {
	const frets = fretsTo('leastSquaresSetbacks', lastFret);
	const errors = errorsCents(frets, board, string, [0, 0]);
	let [g0, g1, g2, z0, z1] = [0, 0, 0, 0, 0];
	for (const [index, fret] of frets.entries()) {
		const rise = 2 ** (fret / 12) - 1;
		const z = errors[index]! / centsPerLog;
		g0 += 1;
		g1 += rise;
		g2 += rise ** 2;
		z0 += z;
		z1 += rise * z;
	}
	const determinant = g0 * g2 - g1 ** 2;
	return setbacksAt(frets, board, string, [
		(board.scaleLengthM * (g0 * z1 - g1 * z0)) / determinant,
		(-board.scaleLengthM * (g2 * z0 - g1 * z1)) / determinant,
	]);
}

/**
 * Setbacks with the least root mean square error over frets 1 to `lastFret` of
 * the full model, by Gauss-Newton steps from the closed solution.
 */
export function bestSetbacks(board: Board, string: FrettedString, lastFret = 12): Setbacks {
	const frets = fretsTo('bestSetbacks', lastFret);
	const start = leastSquaresSetbacks(board, string, lastFret);
	let at: readonly [number, number] = [start.saddleSetbackM, start.nutSetbackM];
	for (let step = 0; step < 8; step++) at = improved(frets, board, string, at);
	return setbacksAt(frets, board, string, at);
}

/** Central differences over 10 µm: rounding far below, curvature not yet felt. */
const probeM = 1e-5;

function improved(
	frets: readonly number[],
	board: Board,
	string: FrettedString,
	[s, n]: readonly [number, number],
): readonly [number, number] {
	const errors = errorsCents(frets, board, string, [s, n]);
	const saddleUp = errorsCents(frets, board, string, [s + probeM, n]);
	const saddleDown = errorsCents(frets, board, string, [s - probeM, n]);
	const nutUp = errorsCents(frets, board, string, [s, n + probeM]);
	const nutDown = errorsCents(frets, board, string, [s, n - probeM]);
	let [ss, sn, nn, se, ne] = [0, 0, 0, 0, 0];
	for (const [index, error] of errors.entries()) {
		const bySaddle = (saddleUp[index]! - saddleDown[index]!) / (2 * probeM);
		const byNut = (nutUp[index]! - nutDown[index]!) / (2 * probeM);
		ss += bySaddle ** 2;
		sn += bySaddle * byNut;
		nn += byNut ** 2;
		se += bySaddle * error;
		ne += byNut * error;
	}
	const determinant = ss * nn - sn ** 2;
	return [s - (nn * se - sn * ne) / determinant, n - (ss * ne - sn * se) / determinant];
}

function errorsCents(
	frets: readonly number[],
	board: Board,
	string: FrettedString,
	[saddleSetbackM, nutSetbackM]: readonly [number, number],
): readonly number[] {
	return frets.map(fret => frettedNote(fret, {...board, saddleSetbackM, nutSetbackM}, string).errorCents);
}

function setbacksAt(
	frets: readonly number[],
	board: Board,
	string: FrettedString,
	[saddleSetbackM, nutSetbackM]: readonly [number, number],
): Setbacks {
	const errors = errorsCents(frets, board, string, [saddleSetbackM, nutSetbackM]);
	const meanSquare = errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length;
	return {saddleSetbackM, nutSetbackM, rmsCents: Math.sqrt(meanSquare)};
}

function fretsTo(where: string, lastFret: number): readonly number[] {
	if (!Number.isInteger(lastFret) || lastFret < 2 || lastFret > 36) {
		throw new RangeError(`${where}: expected lastFret to be a whole number from 2 to 36, got ${lastFret}`);
	}
	return Array.from({length: lastFret}, (_, index) => index + 1);
}
