import {type Guitar, stringAt, withString} from './guitar.ts';
import {restingRad, settled, withWireShared} from './rest.ts';
import {type Line, rigOf, speakingM} from './rig.ts';
import {hzAt, tensionForHz} from './wire.ts';

export const tuners = ['peg', 'fine-tuner'] as const;
export type Tuner = (typeof tuners)[number];

/** What a turn came to. */
export interface Turned {
	readonly guitar: Guitar;
	/** The fine tuner reached an end of its travel before the pitch was reached. */
	readonly ranOut: boolean;
	/** The string broke on the way and is off. */
	readonly broke: boolean;
}

/**
 * The guitar after a peg or fine tuner was turned until this string's open
 * fundamental stands exactly `toCents` from target. No hand, no tuner: the
 * deed with its imperfections is `turnTo`.
 *
 * While the pitch is held, tension follows from pitch and length alone, so one
 * search finds the resting angle; the wire that makes that tension follows.
 * The turn must go one way only, as friction remembers.
 */
export function turnedExactly(guitar: Guitar, string: number, toCents: number, by: Tuner): Turned {
	const heldHz = hzAt(guitar.spec.strings[string]!.targetHz, toCents);
	const free = rigOf(guitar);
	const rig = {...free, lines: free.lines.map((line, index) => (index === string ? {...line, heldHz} : line))};
	const angleRad = restingRad(guitar, rig);
	const line = free.lines[string]!;
	const lengthM = speakingM(line, angleRad);
	const tensionN = tensionForHz(line.wire, heldHz, lengthM, rig.endStiffness);
	if (tensionN > line.wire.breakN) return {guitar: withoutString(guitar, string), ranOut: false, broke: true};
	const moved = withWireShared(guitar, rig, angleRad);
	return by === 'peg'
		? {guitar: pegged(moved, string, line, lengthM, tensionN), ranOut: false, broke: false}
		: fineTuned(guitar, moved, string, {line, lengthM, tensionN});
}

/** The string taken off, and the bridge come to rest without it. */
export function withoutString(guitar: Guitar, string: number): Guitar {
	return settled(withString(guitar, string, {on: false, clampedM: 0}));
}

/** Wire wound on or off the peg until the front has this tension; behind, the wire slid last in the direction that the front took. */
function pegged(guitar: Guitar, string: number, line: Line, lengthM: number, tensionN: number): Guitar {
	const stiffness = line.wire.stretchStiffnessN;
	const frontM = (lengthM + line.extraM) / (1 + tensionN / stiffness);
	const behindN = frontM < line.frontM ? tensionN * line.grip : tensionN / line.grip;
	return withString(guitar, string, {frontM, behindM: line.behindPathM / (1 + behindN / stiffness)});
}

function fineTuned(
	before: Guitar,
	moved: Guitar,
	string: number,
	{line, lengthM, tensionN}: {line: Line; lengthM: number; tensionN: number},
): Turned {
	const stiffness = line.wire.stretchStiffnessN;
	// Either nothing slides at the nut, or the wire there follows the capstan's edge.
	const behindN = stiffness * Math.max(0, line.behindPathM / line.behindM - 1);
	const edgeN = Math.min(tensionN * line.grip, Math.max(tensionN / line.grip, behindN));
	const slides = line.grip !== Number.POSITIVE_INFINITY && edgeN !== behindN;
	const behindM = slides ? line.behindPathM / (1 + edgeN / stiffness) : line.behindM;
	const frontM = line.frontM + line.behindM - behindM;
	const fineTunerM = frontM * (1 + tensionN / stiffness) - lengthM;
	const travelM = stringAt(before, string).seat.fineTunerTravelM;
	if (fineTunerM >= 0 && fineTunerM <= travelM) {
		return {guitar: withString(moved, string, {frontM, behindM, fineTunerM}), ranOut: false, broke: false};
	}

	const stopped = withString(before, string, {fineTunerM: Math.min(travelM, Math.max(0, fineTunerM))});
	return {guitar: settled(stopped), ranOut: true, broke: false};
}
