import {array, assert, constantFrom, double, integer, oneof, property, record} from 'fast-check';
import {expect, test} from 'vitest';
import {type Rng, rngFrom} from '../../source/numeric/rng.ts';
import type {Guitar} from '../../source/practice/guitar.ts';
import {
	centreFineTuners,
	changeSprings,
	clampNut,
	fitString,
	motions,
	moveArm,
	moveSaddle,
	openNut,
	placeSupport,
	pluck,
	removeString,
	removeSupport,
	slacken,
	stretchString,
	truth,
	tuners,
	turnClaw,
	turnTo,
} from '../../source/practice/index.ts';
import {rigOf, torqueNm} from '../../source/practice/rig.ts';
import {anyDraw, anyStart, guitarOf} from './guitars.ts';

type Act = (rng: Rng, guitar: Guitar) => Guitar;

const string = constantFrom(0, 1, 2, 3, 4, 5);
const turns = double({min: -3, max: 3, noNaN: true});
const plain: readonly Act[] = [
	(_, guitar) => openNut(guitar),
	clampNut,
	(_, guitar) => centreFineTuners(guitar),
	(_, guitar) => placeSupport(guitar),
	(_, guitar) => placeSupport(guitar, 'level'),
	(_, guitar) => removeSupport(guitar),
];
const anyAct = oneof(
	constantFrom(...plain),
	record({string, cents: double({min: -400, max: 250, noNaN: true}), by: constantFrom(...tuners)}).map(
		({string, cents, by}): Act =>
			(rng, guitar) =>
				turnTo(rng, guitar, string, cents, by).guitar,
	),
	record({string, how: constantFrom('open', 'harmonic', 'fretted'), fret: integer({min: 1, max: 22})} as const).map(
		({string, ...sounding}): Act =>
			(rng, guitar) =>
				pluck(rng, guitar, string, sounding).guitar,
	),
	record({trebleTurns: turns, bassTurns: turns}).map(
		(made): Act =>
			(rng, guitar) =>
				turnClaw(rng, guitar, made).guitar,
	),
	integer({min: 1, max: 6}).map(
		(count): Act =>
			(rng, guitar) =>
				changeSprings(rng, guitar, count),
	),
	record({string, kind: constantFrom(slacken, removeString, stretchString)}).map(
		({string, kind}): Act =>
			(_, guitar) =>
				kind(guitar, string),
	),
	string.map(
		(string): Act =>
			(rng, guitar) =>
				fitString(rng, guitar, string),
	),
	record({string, motion: constantFrom(...motions)}).map(
		({string, motion}): Act =>
			(_, guitar) =>
				moveArm(guitar, motion, string),
	),
	record({string, travelM: double({min: -4e-3, max: 4e-3, noNaN: true})}).map(
		({string, travelM}): Act =>
			(rng, guitar) =>
				moveSaddle(rng, guitar, string, travelM).guitar,
	),
);

test('whatever is done, the guitar is at rest, every number is a number, and no wire is negative', () => {
	assert(
		property(anyDraw, anyStart, array(anyAct, {minLength: 3, maxLength: 25}), ([seed, ensemble], start, acts) => {
			const rng = rngFrom(seed);
			let guitar = guitarOf(seed, ensemble, {start});
			for (const act of acts) guitar = act(rng, guitar);

			const {tensionN, cents, tailM, fineTunerLeft} = truth(guitar);
			for (const newton of tensionN) {
				expect(newton).toBeGreaterThanOrEqual(0);
				expect(newton).toBeLessThan(500);
			}

			for (const each of cents) if (each !== undefined) expect(Number.isFinite(each)).toBe(true);
			for (const left of fineTunerLeft) expect(left >= 0 && left <= 1).toBe(true);
			expect(Number.isFinite(tailM)).toBe(true);
			for (const each of guitar.strings) expect(each.frontM > 0 && each.behindM > 0 && each.give.soonM >= 0).toBe(true);
			if (guitar.supported) return;

			const {angleRad, body} = guitar;
			const torque = torqueNm(rigOf(guitar), angleRad);
			if (angleRad < body.stopsRad[1]) expect(torque).toBeLessThan(body.pivotFrictionNm + 1e-7);
			if (angleRad > body.stopsRad[0]) expect(torque).toBeGreaterThan(-body.pivotFrictionNm - 1e-7);
		}),
		{numRuns: 200},
	);
});
