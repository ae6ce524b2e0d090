import type {Guitar} from './guitar.ts';
import {frontWireM} from './nut.ts';
import {type Detour, type Rig, rigOf, speakingM, torqueNm} from './rig.ts';

/**
 * The guitar at rest after something changed: the plate stays where it is
 * while pivot friction can hold it, else it moves to the nearer edge of the
 * dead band or to a stop; wire slides at the nut where the capstan lets it.
 * With a support in, the plate does not move at all.
 */
export function settled(guitar: Guitar, detour?: Detour): Guitar {
	const rig = rigOf(guitar, detour);
	return withWireShared(guitar, rig, restingRad(guitar, rig));
}

/** Where the plate comes to rest, starting from where it is. */
export function restingRad(guitar: Guitar, rig: Rig): number {
	const {angleRad, body, supported} = guitar;
	if (supported) return angleRad;
	const torque = torqueNm(rig, angleRad);
	// A little more than the search leaves over, so that a plate at the edge of the band stays when asked again.
	if (Math.abs(torque) <= body.pivotFrictionNm + 10 * torqueToleranceNm) return angleRad;
	const edge = Math.sign(torque) * body.pivotFrictionNm;
	const stopRad = torque > 0 ? body.stopsRad[1] : body.stopsRad[0];
	return crossing(at => torqueNm(rig, at) - edge, angleRad, torque - edge, stopRad);
}

/** The plate put at an angle by hand or arm, with the strings following. */
export function forcedTo(guitar: Guitar, angleRad: number, detour?: Detour): Guitar {
	return withWireShared(guitar, rigOf(guitar, detour), angleRad);
}

/** Writes down where the wire went when the plate moved to `angleRad`. */
export function withWireShared(guitar: Guitar, rig: Rig, angleRad: number): Guitar {
	const strings = guitar.strings.map((string, index) => {
		const line = rig.lines[index]!;
		if (!string.on || line.heldHz !== undefined) return string;
		const frontM = frontWireM(line, speakingM(line, angleRad) + line.extraM);
		if (frontM === string.frontM) return string;
		return {...string, frontM, behindM: string.frontM + string.behindM - frontM};
	});
	return {...guitar, strings, angleRad};
}

const angleToleranceRad = 1e-12;
const torqueToleranceNm = 1e-10;

/**
 * Where a function that has the sign of `valueFrom` at `from` first reaches
 * zero on the way to `limit`; `limit` itself if it does not (a stop holds).
 * Newton's first step finds a near bracket, then false position with
 * Anderson and Björck's weights (BIT 13, 253-264, 1973) closes it; slack
 * strings and sliding wire make kinks, which a bracket survives.
 */
function crossing(value: (at: number) => number, from: number, valueFrom: number, limit: number): number {
	let near = from;
	let nearValue = valueFrom;
	let far = limit;
	let farValue: number | undefined;
	const probe = from + Math.sign(limit - from) * Math.min(1e-5, Math.abs(limit - from));
	const slope = probe === from ? 0 : (value(probe) - valueFrom) / (probe - from);
	let step = slope === 0 ? Number.POSITIVE_INFINITY : (-1.001 * valueFrom) / slope;
	// Walk out with doubled steps until the sign changes.
	while (farValue === undefined) {
		const isOutside = !(Math.sign(step) === Math.sign(limit - near) && Math.abs(step) < Math.abs(limit - near));
		const at = isOutside ? limit : near + step;
		const here = value(at);
		if (here === 0) return at;
		if (Math.sign(here) !== Math.sign(valueFrom)) {
			far = at;
			farValue = here;
		} else if (isOutside) {
			return limit;
		} else {
			near = at;
			nearValue = here;
			step *= 2;
		}
	}

	// `far` is always the newest point; an end kept for the second time loses weight.
	for (let round = 0; round < 80; round++) {
		const at = (near * farValue - far * nearValue) / (farValue - nearValue);
		const here = value(at);
		if (Math.sign(here) === Math.sign(farValue)) {
			const weight = 1 - here / farValue;
			nearValue *= weight > 0 ? weight : 0.5;
		} else {
			near = far;
			nearValue = farValue;
		}

		far = at;
		farValue = here;
		if (Math.abs(here) < torqueToleranceNm || Math.abs(far - near) < angleToleranceRad) break;
	}

	return far;
}
