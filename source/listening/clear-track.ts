import {Matrix, solve} from 'ml-matrix';
import type {PartialTrack} from './partial-tracks.ts';

/** Lines taken away from one track at most. */
const mostLines = 3;
/** A line nearer to the partial than this is not told apart from it, turns over the whole stretch. */
const nearestTurns = 1.6;
/** How far a line must stand out of noise, in standard deviations. */
const clearOfNoise = 6;
/** Powers of time that the partial and a line may change with besides what is expected: decay, a glide not quite as fitted. */
const partialPower = 2;
const linePower = 1;

/**
 * A partial's track without the strings that ring beside it.
 *
 * What is left after the partial itself (its expected phase, times a slow
 * polynomial) is searched for the strongest line; lines and partial are then
 * fitted together, and the lines taken away. Nearer than about a turn and
 * a half over the whole stretch a line cannot be told from the partial and stays.
 *
 * @param phase Expected phase of the partial per frame, rad.
 * @param noise Variance of a complex amplitude.
 */
export function clearTrack(
	track: PartialTrack,
	timesS: Float64Array,
	phase: Float64Array,
	noise: number,
): PartialTrack {
	const frames = timesS.length;
	const middleS = (timesS[0]! + timesS[frames - 1]!) / 2;
	const halfS = (timesS[frames - 1]! - timesS[0]!) / 2;
	if (frames < 12) return track;
	const x = timesS.map(t => (t - middleS) / halfS);
	const envelope = envelopeOf(track, x);
	const columns: Complex[] = [];
	for (let power = 0; power <= partialPower; power++) columns.push(phasor(phase, x, power, envelope));
	const lines: Complex[] = [];
	for (let round = 0; round < mostLines; round++) {
		const left = without(track, [...columns, ...lines], columns.length + lines.length);
		const line = strongestLine(left, phase, timesS, noise, nearestTurns / (2 * halfS));
		if (!line) break;
		for (let power = 0; power <= linePower; power++) lines.push(phasor(line, x, power));
	}

	if (lines.length === 0) return track;
	return {...track, ...without(track, [...lines, ...columns], lines.length)};
}

interface Complex {
	readonly re: Float64Array;
	readonly im: Float64Array;
}

function phasor(phase: Float64Array, x: ArrayLike<number>, power: number, envelope?: ArrayLike<number>): Complex {
	const size = (k: number) => x[k]! ** power * (envelope ? envelope[k]! : 1);
	return {re: phase.map((p, k) => Math.cos(p) * size(k)), im: phase.map((p, k) => Math.sin(p) * size(k))};
}

/** Exponential decay through the track's amplitudes: straight line through their logarithms. */
function envelopeOf({re, im}: Complex, x: ArrayLike<number>): Float64Array {
	let [w0, wx, wxx, wy, wxy] = [1e-12, 0, 1e-12, 0, 0];
	for (let k = 0; k < re.length; k++) {
		const square = re[k]! ** 2 + im[k]! ** 2 + 1e-20;
		const y = 0.5 * Math.log(square);
		w0 += square;
		wx += square * x[k]!;
		wxx += square * x[k]! ** 2;
		wy += square * y;
		wxy += square * x[k]! * y;
	}

	const slope = Math.max(-4, Math.min(0, (w0 * wxy - wx * wy) / (w0 * wxx - wx * wx)));
	return re.map((_, k) => Math.exp(slope * x[k]!));
}

/** Least-squares fit of all `columns` to the track, and the track less the first `count` of them. */
function without(track: Complex, columns: readonly Complex[], count: number): Complex {
	const size = columns.length;
	const normal = Matrix.zeros(2 * size, 2 * size);
	const right = Matrix.zeros(2 * size, 1);
	for (let a = 0; a < size; a++) {
		for (let b = 0; b <= a; b++) {
			const [re, im] = dot(columns[a]!, columns[b]!);
			// Hermitian entry (re + i im) as a 2 × 2 real block, and its mirror.
			normal
				.set(2 * a, 2 * b, re)
				.set(2 * a + 1, 2 * b + 1, re)
				.set(2 * a, 2 * b + 1, -im)
				.set(2 * a + 1, 2 * b, im);
			normal
				.set(2 * b, 2 * a, re)
				.set(2 * b + 1, 2 * a + 1, re)
				.set(2 * b + 1, 2 * a, -im)
				.set(2 * b, 2 * a + 1, im);
		}

		const [re, im] = dot(columns[a]!, track);
		right.set(2 * a, 0, re).set(2 * a + 1, 0, im);
		normal.set(2 * a, 2 * a, normal.get(2 * a, 2 * a) * (1 + 1e-9));
		normal.set(2 * a + 1, 2 * a + 1, normal.get(2 * a + 1, 2 * a + 1) * (1 + 1e-9));
	}

	const shares = solve(normal, right);
	const re = Float64Array.from(track.re);
	const im = Float64Array.from(track.im);
	for (let a = 0; a < count; a++) {
		const [sr, si] = [shares.get(2 * a, 0), shares.get(2 * a + 1, 0)];
		const column = columns[a]!;
		for (let k = 0; k < re.length; k++) {
			re[k]! -= sr * column.re[k]! - si * column.im[k]!;
			im[k]! -= sr * column.im[k]! + si * column.re[k]!;
		}
	}

	return {re, im};
}

/** Σ conj(a) b. */
function dot(a: Complex, b: Complex): readonly [re: number, im: number] {
	let re = 0;
	let im = 0;
	for (let k = 0; k < a.re.length; k++) {
		re += a.re[k]! * b.re[k]! + a.im[k]! * b.im[k]!;
		im += a.re[k]! * b.im[k]! - a.im[k]! * b.re[k]!;
	}

	return [re, im];
}

/** Phase of the strongest line in what is left, if it stands clear of noise; frequencies within `nearHz` of the partial are left alone. */
function strongestLine(
	left: Complex,
	phase: Float64Array,
	timesS: Float64Array,
	noise: number,
	nearHz: number,
): Float64Array | undefined {
	const frames = timesS.length;
	const hopS = timesS[1]! - timesS[0]!;
	const spanS = hopS * frames;
	const ownHz =
		(phase[frames - 1]! - phase[frames >> 1]!) / (2 * Math.PI * (timesS[frames - 1]! - timesS[frames >> 1]!));
	const stepHz = 0.25 / spanS;
	let best = 0;
	let bestHz = 0;
	const power = (hz: number) => {
		const turn = 2 * Math.PI * hz * hopS;
		const c = Math.cos(turn);
		const s = -Math.sin(turn);
		let [wr, wi, re, im] = [1, 0, 0, 0];
		for (let k = 0; k < frames; k++) {
			re += left.re[k]! * wr - left.im[k]! * wi;
			im += left.re[k]! * wi + left.im[k]! * wr;
			[wr, wi] = [wr * c - wi * s, wr * s + wi * c];
		}

		return re * re + im * im;
	};
	// Half the frame rate is the widest that frames can tell apart; a Hann window leaves nothing beyond a quarter of it times two.
	const reachHz = 0.5 / hopS;
	for (let hz = ownHz - reachHz; hz <= ownHz + reachHz; hz += stepHz) {
		if (Math.abs(hz - ownHz) < nearHz) continue;
		const p = power(hz);
		if (p > best) [best, bestHz] = [p, hz];
	}

	// Noise alone gives frames × variance × (looks per frame, about 2 to 3 for overlapping windows).
	if (best < clearOfNoise ** 2 * noise * frames * 2.5) return undefined;
	const [before, after] = [power(bestHz - stepHz), power(bestHz + stepHz)];
	const bend = before - 2 * best + after;
	const hz = bestHz + (bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (before - after)) / bend)) * stepHz : 0);
	return timesS.map(t => 2 * Math.PI * hz * t);
}
