import type {Guitar, GuitarString, Wire} from './guitar.ts';
import {frontWireM, type Wrapped} from './nut.ts';
import {tensionForHz} from './wire.ts';

/**
 * The guitar laid out for the search of its resting angle: only what a torque
 * needs, flat, so that the inner loop stays plain.
 */
export interface Rig {
	readonly lines: readonly Line[];
	readonly pulls: readonly Pull[];
	readonly hookXM: number;
	readonly hookYM: number;
	readonly endStiffness: number;
}

/** A string from its contact on the plate to where its speaking part ends. */
export interface Line extends Wrapped {
	readonly wire: Wire;
	/** Contact on the plate, level. */
	readonly xM: number;
	readonly yM: number;
	/** Nut, or the crown of a fret while fretted. */
	readonly endXM: number;
	readonly endYM: number;
	/** Rest of the path: fine tuner, and beyond the fret while fretted, or the sideways way of a bend. */
	readonly extraM: number;
	/** The plate is twisted: this string sees the angle plus this. */
	readonly twistRad: number;
	/** Set while a hand keeps this string at a pitch: then tension follows from pitch, not from wire. */
	readonly heldHz?: number;
}

interface Pull {
	readonly clawXM: number;
	readonly clawYM: number;
	readonly rateNPerM: number;
	readonly initialN: number;
	readonly closedM: number;
}

/** Path of a string that ends elsewhere than at the nut, or runs a longer way. */
export interface Detour {
	readonly string: number;
	readonly endXM: number;
	readonly endYM: number;
	readonly extraM: number;
}

export function rigOf(guitar: Guitar, detour?: Detour): Rig {
	const {body, claw, spec} = guitar;
	const difference = claw.trebleTurns - claw.bassTurns;
	const mean = (claw.trebleTurns + claw.bassTurns) / 2;
	const halfClawM = 0.03;
	return {
		lines: guitar.strings.map((string, index) =>
			lineOf(guitar, string, difference, detour?.string === index ? detour : undefined),
		),
		pulls: guitar.springs.map(({acrossM, ...spring}) => ({
			...spring,
			clawXM: body.clawXM - spec.clawScrewPitchM * (mean + (difference / 2) * (acrossM / halfClawM)),
			clawYM: body.clawYM,
		})),
		hookXM: body.hookXM,
		hookYM: body.hookYM,
		endStiffness: body.endStiffness,
	};
}

function lineOf({body, nut}: Guitar, string: GuitarString, difference: number, detour: Detour | undefined): Line {
	const {seat, wire} = string;
	return {
		wire,
		xM: body.scaleLineM + string.saddleM,
		yM: seat.heightM,
		endXM: detour?.endXM ?? seat.nutXM,
		endYM: detour?.endYM ?? seat.nutYM,
		extraM: string.fineTunerM + (detour?.extraM ?? 0),
		twistRad: body.twistRadPerMPerTurn * difference * seat.acrossM,
		// No string: endless wire carries nothing.
		frontM: string.on ? string.frontM : 1e9,
		behindM: string.behindM,
		behindPathM: seat.behindPathM,
		grip: nut === 'open' && string.on ? Math.exp(wire.nutFriction * seat.nutWrapRad) : Number.POSITIVE_INFINITY,
	};
}

/** Distance from contact to the end of the speaking part with the plate at an angle. */
export function speakingM(line: Line, angleRad: number): number {
	const cos = Math.cos(angleRad + line.twistRad);
	const sin = Math.sin(angleRad + line.twistRad);
	const x = line.xM * cos + line.yM * sin - line.endXM;
	const y = line.yM * cos - line.xM * sin - line.endYM;
	return Math.sqrt(x * x + y * y);
}

export function lineTensionN(rig: Rig, line: Line, lengthM: number): number {
	if (line.heldHz !== undefined) return tensionForHz(line.wire, line.heldHz, lengthM, rig.endStiffness);
	const pathM = lengthM + line.extraM;
	return line.wire.stretchStiffnessN * Math.max(0, pathM / frontWireM(line, pathM) - 1);
}

/**
 * Torque that turns the plate towards arm-up, N m, by virtual work: strings
 * and springs each give −force × d(length)/d(angle), with the exact lengths.
 * Falls with angle wherever the bridge is stable.
 */
export function torqueNm(rig: Rig, angleRad: number): number {
	let torque = 0;
	for (const line of rig.lines) {
		const cos = Math.cos(angleRad + line.twistRad);
		const sin = Math.sin(angleRad + line.twistRad);
		const x = line.xM * cos + line.yM * sin;
		const y = line.yM * cos - line.xM * sin;
		const alongM = x - line.endXM;
		const upM = y - line.endYM;
		const lengthM = Math.sqrt(alongM * alongM + upM * upM);
		torque -= (lineTensionN(rig, line, lengthM) * (alongM * y - upM * x)) / lengthM;
	}

	const cos = Math.cos(angleRad);
	const sin = Math.sin(angleRad);
	const x = rig.hookXM * cos + rig.hookYM * sin;
	const y = rig.hookYM * cos - rig.hookXM * sin;
	for (const pull of rig.pulls) {
		const alongM = x - pull.clawXM;
		const upM = y - pull.clawYM;
		const lengthM = Math.sqrt(alongM * alongM + upM * upM);
		torque -= (springN(pull, lengthM) * (alongM * y - upM * x)) / lengthM;
	}

	return torque;
}

/** Every spring from hook to hook with the plate at an angle, beyond the same closed up, m; 0 where its coils touch. */
export function springsOpenM({pulls, hookXM, hookYM}: Rig, angleRad: number): readonly number[] {
	const x = hookXM * Math.cos(angleRad) + hookYM * Math.sin(angleRad);
	const y = hookYM * Math.cos(angleRad) - hookXM * Math.sin(angleRad);
	return pulls.map(({clawXM, clawYM, closedM}) => Math.max(0, Math.hypot(x - clawXM, y - clawYM) - closedM));
}

/** The hooks seat over this way, so that initial tension comes on steeply but not at a jump. */
const seatingM = 0.0002;

export function springN(spring: Pick<Pull, 'rateNPerM' | 'initialN' | 'closedM'>, lengthM: number): number {
	const openM = lengthM - spring.closedM;
	if (openM <= 0) return 0;
	return spring.initialN * Math.min(1, openM / seatingM) + spring.rateNPerM * openM;
}
