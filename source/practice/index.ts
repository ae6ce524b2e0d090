/** What practice mode and benchmarks use; the rest of the folder is how it works. */
export {
	changeSprings,
	type Moved,
	motions,
	moveArm,
	placeSupport,
	removeSupport,
	supportAt,
	turnClaw,
	liftClear,
	turnClawUntil,
} from './bridge-work.ts';
export {clampNut, openNut} from './clamp.ts';
export {drawGuitar, type GuitarOptions} from './draw-guitar.ts';
export {type Ensemble, ensembles} from './ensembles.ts';
export {type Fault, withFault} from './faults.ts';
export type {Guitar, GuitarSpec, StringSpec} from './guitar.ts';
export {measureSpringArm, measureSprings, measureTail, pluck} from './read.ts';
export {centreFineTuners, measureSaddle, moveSaddle} from './saddle-work.ts';
export type {Sounding} from './sound.ts';
export {type Start, starts} from './starts.ts';
export {frettedErrorCents, type Truth, trueMoves, truth} from './truth.ts';
export {type Tuner, tuners} from './turn.ts';
export {fitString, leftForADay, removeString, slacken, stretchString, type TurnRead, turnTo} from './work.ts';
