import {type Belief, priorBelief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import {learnedFrom, recalled} from '../../source/estimation/memory.ts';
import type {Rng} from '../../source/numeric/rng.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {withOldStrings} from '../../source/planning/old-strings.ts';
import {plateUnknown} from '../../source/planning/plate-unknown.ts';
import {forecastChange, type SetChange} from '../../source/planning/set-change.ts';
import {drawGuitar, fitString, type Guitar, type GuitarSpec, measureTail, type StringSpec} from '../../source/practice/index.ts';
import {pitchesBalanced} from '../../source/practice/poise.ts';
import {tensionsN} from '../../source/practice/sound.ts';
import {tailM} from '../../source/practice/read.ts';
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

/** A level guitar in tune, forecast before anything is undone, then the new strings on it. */
export function foresee(seed: number, change: Change, isKnown: (guitar: Guitar) => Belief | undefined): Foreseen {
	const guitar = drawGuitar(rngFrom(seed, 1), change.spec, {start: 'level-and-in-tune'});
	const rng = rngFrom(seed, 2);
	const forecast = forecastChange(beliefBefore(rng, guitar, change, isKnown(guitar)), 0);
	const fitted = restrung(rngFrom(seed, 3), guitar, change.strings);
	return {
		forecast,
		pitchM: guitar.spec.clawScrewPitchM,
		totalN: tensionsN(atPitch(fitted, 0)).reduce((sum, each) => sum + each, 0),
		turns: levelTurns(fitted),
		tailAtPitchM: tailM(atPitch(fitted, 0)),
	};
}

function beliefBefore(rng: Rng, guitar: Guitar, {strings}: Change, known: Belief | undefined): Belief {
	const model = modelOf({...guitar.spec, strings});
	const prior = priorBelief(model, {nut: 'locked', newness: 0});
	const start = known ? recalled(prior, learnedFrom(known), {newStrings: true, newSprings: false}) : prior;
	const belief = plateUnknown(withOldStrings(start, modelOf(guitar.spec), 0));
	return learn(belief, {kind: 'tail', tailM: measureTail(rng, guitar)});
}

function restrung(rng: Rng, guitar: Guitar, strings: readonly StringSpec[]): Guitar {
	const spec = {...guitar.spec, strings};
	const isSame = (index: number) => {
		const [was, is] = [guitar.spec.strings[index]!, strings[index]!];
		return was.gaugeM === is.gaugeM && was.wound === is.wound;
	};
	return strings.reduce(
		(each, _, index) => (isSame(index) ? each : fitString(rng, each, index)),
		{...guitar, spec} as Guitar,
	);
}

/** Free of friction, all at pitch, this many turns on both screws. */
function atPitch(guitar: Guitar, turns: number): Guitar {
	return pitchesBalanced({...guitar, claw: {trebleTurns: turns, bassTurns: turns}}, []);
}

function levelTurns(guitar: Guitar): number {
	let [loose, tight] = [-25, 25];
	for (let round = 0; round < 50; round++) {
		const middle = (loose + tight) / 2;
		if (tailM(atPitch(guitar, middle)) > 0) loose = middle;
		else tight = middle;
	}

	return (loose + tight) / 2;
}
