import {type Guitar, stringAt, withString} from './guitar.ts';
import {torquePerCentNm} from './poise.ts';

/** Hidden faults that can be switched on; `string` counts from 0. */
export type Fault =
	/** The hold-down screw is loose: under tension the saddle creeps this far forward, most of it at once. */
	| {readonly kind: 'loose-saddle'; readonly string: number; readonly creepM: number}
	/** The string slips where it is held, flat by this much at the next hard pull (arm, bend), half as much at the one after, and so on. */
	| {readonly kind: 'slipping-string'; readonly string: number; readonly cents: number}
	/** Worn knife edges: the plate comes to rest this far from home, in cents of the string that reacts most. */
	| {readonly kind: 'sticky-pivot'; readonly cents: number}
	/** The claw's screws have lost their thread: out by this many turns at each move of the arm. */
	| {readonly kind: 'loose-claw'; readonly turns: number}
	/** The tuner's reference is off: every reading shows this much too flat (negative: too sharp). */
	| {readonly kind: 'tuner-reference'; readonly cents: number}
	/** A string that was never stretched in. */
	| {readonly kind: 'unsettled-string'; readonly string: number; readonly giveM: number};

export function withFaults(guitar: Guitar, faults: readonly Fault[]): Guitar {
	return faults.reduce(withFault, guitar);
}

export function withFault(guitar: Guitar, fault: Fault): Guitar {
	const {body, hands} = guitar;
	switch (fault.kind) {
		case 'loose-saddle':
			return withString(guitar, fault.string, {creepM: fault.creepM});
		case 'slipping-string':
			return withString(guitar, fault.string, {slipM: slipM(guitar, fault.string, fault.cents)});
		case 'sticky-pivot':
			return {...guitar, body: {...body, pivotFrictionNm: fault.cents * torquePerCentNm(guitar)}};
		case 'loose-claw':
			return {...guitar, body: {...body, clawSlipTurns: fault.turns}};
		case 'tuner-reference':
			return {...guitar, hands: {...hands, tunerReferenceCents: fault.cents}};
		case 'unsettled-string':
			return withString(guitar, fault.string, {give: {soonM: fault.giveM * 0.8, lateM: fault.giveM * 0.2}});
	}
}

/** Length of wire that flattens a string by so many cents at its usual tension, the plate being held. */
function slipM(guitar: Guitar, string: number, cents: number): number {
	const {wire} = stringAt(guitar, string);
	const speakingM = guitar.spec.scaleLengthM;
	const usualN = wire.massKgPerM * (2 * speakingM * guitar.spec.strings[string]!.targetHz) ** 2;
	return (speakingM * (usualN / wire.stretchStiffnessN) * cents) / 865.6;
}
