import {type Guitar, stringAt} from './guitar.ts';
import {lineTensionN, rigOf, speakingM, springN, torqueNm} from './rig.ts';
import {soundCents} from './sound.ts';
import {hzAt, tensionForHz} from './wire.ts';

/**
 * Ways to put a guitar into a known state at once, for drawing it and for
 * tests. No hand could: several settings change together.
 */

/** All strings at these open pitches (cents of target) with the plate held where it is; `behindShare` −1 to 1 says where in the nut's dead band. */
export function pitchesHeld(guitar: Guitar, cents: readonly number[], behindShare: readonly number[] = []): Guitar {
	const rig = rigOf(guitar);
	const strings = guitar.strings.map((string, index) => {
		const line = rig.lines[index]!;
		const {wire, seat} = string;
		const lengthM = speakingM(line, guitar.angleRad);
		const heldHz = hzAt(guitar.spec.strings[index]!.targetHz, cents[index] ?? 0);
		const tensionN = tensionForHz(wire, heldHz, lengthM, rig.endStiffness);
		const behindN = tensionN * Math.exp((behindShare[index] ?? 0) * wire.nutFriction * seat.nutWrapRad);
		return {
			...string,
			on: true,
			frontM: (lengthM + line.extraM) / (1 + tensionN / wire.stretchStiffnessN),
			behindM: seat.behindPathM / (1 + behindN / wire.stretchStiffnessN),
		};
	});
	return {...guitar, strings};
}

/** The claw (at 0 turns) moved so that the plate rests exactly at its present angle. */
export function clawBalanced(guitar: Guitar): Guitar {
	const at = (clawXM: number): Guitar => ({...guitar, body: {...guitar.body, clawXM}});
	const torque = (clawXM: number): number => torqueNm(rigOf(at(clawXM)), guitar.angleRad);
	// More distance is more pull, and always more torque.
	let near = guitar.body.hookXM - 0.05;
	let far = guitar.body.hookXM - 0.35;
	for (let round = 0; round < 60; round++) {
		const middle = (near + far) / 2;
		if (torque(middle) < 0) near = middle;
		else far = middle;
	}

	return at((near + far) / 2);
}

/** All strings at these open pitches and the plate wherever claw and springs then hold it with `leaningNm` out of balance. */
export function pitchesBalanced(
	guitar: Guitar,
	cents: readonly number[],
	behindShare: readonly number[] = [],
	leaningNm = 0,
): Guitar {
	const free = rigOf(guitar);
	const lines = free.lines.map((line, index) => ({
		...line,
		heldHz: hzAt(guitar.spec.strings[index]!.targetHz, cents[index] ?? 0),
	}));
	const excessNm = (angleRad: number): number => torqueNm({...free, lines}, angleRad) - leaningNm;
	let [low, high] = guitar.body.stopsRad;
	for (let round = 0; round < 60; round++) {
		const middle = (low + high) / 2;
		if (excessNm(middle) > 0) low = middle;
		else high = middle;
	}

	// Where a stop holds the plate the halving only creeps up to it.
	const [diveRad, tailRad] = guitar.body.stopsRad;
	const angleRad = excessNm(tailRad) > 0 ? tailRad : excessNm(diveRad) < 0 ? diveRad : (low + high) / 2;
	return pitchesHeld({...guitar, angleRad}, cents, behindShare);
}

/** Springs whose initial tension would not even be overcome at this state are exchanged for ones with less, and the claw set again. */
export function springsSuited(guitar: Guitar): Guitar {
	const {body, springs} = guitar;
	const suited = springs.map(spring => {
		const forceN = springN(spring, Math.hypot(body.hookXM - body.clawXM, body.hookYM - body.clawYM));
		return {...spring, initialN: Math.min(spring.initialN, 0.5 * forceN)};
	});
	return clawBalanced({...guitar, springs: suited});
}

/** Saddle position at which the fretted 12th agrees with the harmonic, the guitar being at pitch with the plate held. */
export function idealSaddleM(guitar: Guitar, string: number): number {
	const errorCents = (saddleM: number): number => {
		const strings = guitar.strings.map((each, index) => (index === string ? {...each, saddleM} : each));
		const held = pitchesHeld({...guitar, supported: true, strings}, []);
		return soundCents(held, string, {how: 'fretted'})! - soundCents(held, string, {how: 'harmonic'})!;
	};
	let positionM = stringAt(guitar, string).saddleM;
	for (let round = 0; round < 6; round++) {
		// 1731 cents per scale length is close enough to the slope for a quick end.
		positionM += (errorCents(positionM) / 1731) * guitar.spec.scaleLengthM;
	}

	return positionM;
}

/** Torque that shifts the most responsive string by one cent at this state: unit of pivot friction. */
export function torquePerCentNm(guitar: Guitar): number {
	const rig = rigOf(guitar);
	const step = 1e-5;
	const stiffness = (torqueNm(rig, guitar.angleRad - step) - torqueNm(rig, guitar.angleRad + step)) / (2 * step);
	let mostCentsPerRad = 0;
	for (const line of rig.lines) {
		const here = lineTensionN(rig, line, speakingM(line, guitar.angleRad));
		const there = lineTensionN(rig, line, speakingM(line, guitar.angleRad + step));
		if (here > 0) mostCentsPerRad = Math.max(mostCentsPerRad, (600 * Math.log2(there / here)) / step);
	}

	return stiffness / mostCentsPerRad;
}
