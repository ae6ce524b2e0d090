import {type Guitar, stringAt} from './guitar.ts';
import type {Detour} from './rig.ts';

/** How unevenly this one press was made: depth as a ratio of the usual, and a sideways pull at the fret. */
export interface Press {
	readonly depthRatio: number;
	readonly sidewaysM: number;
}

export const evenPress: Press = {depthRatio: 1, sidewaysM: 0};

/**
 * Path of a string pressed at a fret: from the saddle to the crown of the
 * fret, down to the finger behind it, and on to the nut. Fret crowns lie on a
 * straight line that passes the given heights under the level string at nut
 * and 12th fret (relief is left out); frets stand where equal temperament puts
 * them on the scale line.
 */
export function fretDetour(guitar: Guitar, string: number, fret: number, press: Press): Detour {
	const {body, spec} = guitar;
	const {seat} = stringAt(guitar, string);
	const scaleM = spec.scaleLengthM;
	const alongX = body.scaleLineM - seat.nutXM;
	const alongY = seat.heightM - seat.nutYM;
	const norm = Math.hypot(alongX, alongY);
	const fretM = scaleM * (1 - 2 ** (-fret / 12));
	const crownM = seat.nutHeightM + ((seat.actionM - seat.nutHeightM) * fretM) / (scaleM / 2);
	const depthM = crownM + body.fingerDepthM * press.depthRatio;
	// In front of the finger there must be board left: near the nut it presses half-way.
	const fingerM = fretM - Math.min(body.fingerBehindM, 0.4 * fretM);
	const behindFretM = Math.hypot(fretM - fingerM, depthM - crownM) + Math.hypot(fingerM, depthM);
	const speakingM = Math.hypot(norm - fretM, crownM);
	const sidewaysM = 0.5 * press.sidewaysM ** 2 * (1 / speakingM + 1 / fretM);
	return {
		string,
		endXM: seat.nutXM + (alongX * fretM + alongY * crownM) / norm,
		endYM: seat.nutYM + (alongY * fretM - alongX * crownM) / norm,
		extraM: behindFretM + sidewaysM,
	};
}
