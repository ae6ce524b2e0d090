import {type Belief, priorBelief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import {type Learned, learnedFrom, recalled} from '../../source/estimation/memory.ts';
import type {Rng} from '../../source/numeric/rng.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {usualGoal} from '../../source/planning/goal.ts';
import {withOldStrings} from '../../source/planning/old-strings.ts';
import {plateUnknown} from '../../source/planning/plate-unknown.ts';
import {forecastChange, type SetChange} from '../../source/planning/set-change.ts';
import {
	drawGuitar,
	fitString,
	type Guitar,
	type GuitarSpec,
	measureSprings,
	measureTail,
	pluck,
	type StringSpec,
	turnClaw,
	turnTo,
} from '../../source/practice/index.ts';
import {pitchesBalanced} from '../../source/practice/poise.ts';
import {tensionsN} from '../../source/practice/sound.ts';
import {tailM} from '../../source/practice/read.ts';
import {balanceByTool} from './balance-run.ts';
import {firstBelief} from './first-belief.ts';
import {modelOf} from './model-of.ts';

/** A change of set or tuning on an invented instrument. */
export interface Change {
	readonly name: string;
	readonly spec: GuitarSpec;
	readonly strings: readonly StringSpec[];
}

/** What was foreseen beside what then was so. */
export interface Foreseen {
	readonly forecast: SetChange;
	readonly pitchM: number;
	readonly totalN: number;
	/** Turns that truly bring the plate to level at pitch. */
	readonly turns: number;
	readonly tailAtPitchM: number;
}

/** What the tool has seen of the instrument: nothing; one string let down and up again with the old strings on; a whole set-up before. */
export const knowledges = [
	'never seen',
	'never seen, springs measured',
	'one test turn',
	'one test turn of the claw',
	'set up before',
] as const;
export type Knowledge = (typeof knowledges)[number];

function known(rng: Rng, guitar: Guitar, knowledge: Knowledge): Learned | undefined {
	switch (knowledge) {
		case 'never seen':
		case 'never seen, springs measured':
			return undefined;
		case 'one test turn':
			return learnedFrom(afterTestTurn(rng, guitar));
		case 'one test turn of the claw':
			return learnedFrom(afterClawTest(rng, guitar));
		case 'set up before': {
			const claw = {trebleTurns: 1, bassTurns: 1};
			const came = pitchesBalanced(
				{...guitar, claw},
				guitar.strings.map(() => -40 + 65 * rng.uniform()),
			);
			const wish = {goal: usualGoal, wishTailM: 0, toleranceM: 0.3e-3};
			const unknown = {belief: firstBelief(came, false, false)};
			return balanceByTool(rng, came, unknown, wish, {moment: 'first', isTrimmed: true}).lesson;
		}
	}
}

/** Plate and strings read, the claw let out by a turn, plate and strings read again. */
function afterClawTest(rng: Rng, start: Guitar): Belief {
	let guitar = start;
	let belief = firstBelief(guitar, false, false);
	let isMeasured = false;
	const look = () => {
		for (const index of belief.strings.keys()) {
			const heard = pluck(rng, guitar, index);
			guitar = heard.guitar;
			if (heard.cents !== undefined) belief = learn(belief, {kind: 'pitch', index, cents: heard.cents});
		}

		const shownM = measureTail(rng, guitar);
		if (!isMeasured) belief = plateUnknown(belief, shownM);
		isMeasured = true;
		belief = learn(belief, {kind: 'tail', tailM: shownM});
	};
	look();
	guitar = turnClaw(rng, guitar, {trebleTurns: -1, bassTurns: -1}).guitar;
	belief = learn(belief, {kind: 'claw', advanceM: -guitar.spec.clawScrewPitchM});
	look();
	return belief;
}

/** How far the thickest string is let down for a test, cents. */
const testCents = -100;

/** Plate and strings read, the thickest let down by a half-step, plate and strings read again. */
function afterTestTurn(rng: Rng, start: Guitar): Belief {
	let guitar = start;
	let belief = firstBelief(guitar, false, false);
	let isMeasured = false;
	const look = () => {
		for (const index of belief.strings.keys()) {
			const heard = pluck(rng, guitar, index);
			guitar = heard.guitar;
			if (heard.cents !== undefined) belief = learn(belief, {kind: 'pitch', index, cents: heard.cents});
		}

		const shownM = measureTail(rng, guitar);
		if (!isMeasured) belief = plateUnknown(belief, shownM);
		isMeasured = true;
		belief = learn(belief, {kind: 'tail', tailM: shownM});
	};
	look();
	const index = belief.strings.length - 1;
	guitar = turnTo(rng, guitar, index, testCents, 'peg').guitar;
	belief = learn(belief, {kind: 'turned', index});
	// The turned one first: what it came to is what the others followed.
	const heard = pluck(rng, guitar, index);
	guitar = heard.guitar;
	if (heard.cents !== undefined) belief = learn(belief, {kind: 'pitch', index, cents: heard.cents});
	look();
	return belief;
}

/** A level guitar in tune, forecast before anything is undone, then the new strings on it. */
export function foresee(seed: number, change: Change, knowledge: Knowledge): Foreseen {
	const guitar = drawGuitar(rngFrom(seed, 1), change.spec, {start: 'level-and-in-tune'});
	const rng = rngFrom(seed, 2);
	const before = beliefBefore(rng, guitar, change, known(rngFrom(seed, 4), guitar, knowledge));
	const belief = knowledge.endsWith('springs measured') ? withSprings(rngFrom(seed, 5), before, guitar) : before;
	const forecast = forecastChange(belief, 0);
	const fitted = restrung(rngFrom(seed, 3), guitar, change.strings);
	return {
		forecast,
		pitchM: guitar.spec.clawScrewPitchM,
		totalN: tensionsN(atPitch(fitted, 0)).reduce((sum, each) => sum + each, 0),
		turns: levelTurns(fitted),
		tailAtPitchM: tailM(atPitch(fitted, 0)),
	};
}

function beliefBefore(rng: Rng, guitar: Guitar, {strings}: Change, known: Learned | undefined): Belief {
	const model = modelOf({...guitar.spec, strings});
	const prior = priorBelief(model, {nut: 'locked', newness: 0});
	const start = known ? recalled(prior, known, {newStrings: true, newSprings: false}) : prior;
	const shownM = measureTail(rng, guitar);
	const belief = plateUnknown(withOldStrings(start, modelOf(guitar.spec), 0), shownM);
	return learn(belief, {kind: 'tail', tailM: shownM});
}

/** The ruler laid along the springs as well, by the wizard's own reading of it. */
function withSprings(rng: Rng, belief: Belief, guitar: Guitar): Belief {
	const {nowM, closedM} = measureSprings(rng, guitar);
	return learn(belief, {kind: 'stretch', stretchM: nowM - closedM});
}

function restrung(rng: Rng, guitar: Guitar, strings: readonly StringSpec[]): Guitar {
	const spec = {...guitar.spec, strings};
	const isSame = (index: number) => {
		const [was, is] = [guitar.spec.strings[index]!, strings[index]!];
		return was.gaugeM === is.gaugeM && was.wound === is.wound;
	};
	return strings.reduce((each, _, index) => (isSame(index) ? each : fitString(rng, each, index)), {
		...guitar,
		spec,
	} as Guitar);
}

/** Free of friction, all at pitch, this many turns on both screws. */
export function atPitch(guitar: Guitar, turns: number): Guitar {
	return pitchesBalanced({...guitar, claw: {trebleTurns: turns, bassTurns: turns}}, []);
}

/** Turns that truly bring the plate to level at pitch. */
export function levelTurns(guitar: Guitar): number {
	let [loose, tight] = [-25, 25];
	for (let round = 0; round < 50; round++) {
		const middle = (loose + tight) / 2;
		if (tailM(atPitch(guitar, middle)) > 0) loose = middle;
		else tight = middle;
	}

	return (loose + tight) / 2;
}
