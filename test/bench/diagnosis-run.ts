import type {Belief} from '../../source/estimation/belief.ts';
import {varianceAlong} from '../../source/estimation/gaussian.ts';
import {learn} from '../../source/estimation/learn.ts';
import {linearisedCents} from '../../source/estimation/reading-model.ts';
import type {Estimate} from '../../source/numeric/estimate.ts';
import {type Rng, rngFrom} from '../../source/numeric/rng.ts';
import {clampShift} from '../../source/planning/clamp-plan.ts';
import type {DiagnosisCase, DiagnosisEvent} from '../../source/planning/diagnosis-case.ts';
import {diagnosisGround} from '../../source/planning/diagnosis-ground.ts';
import {
	clampNut,
	drawGuitar,
	ensembles,
	type Fault,
	type Guitar,
	moveArm,
	pluck,
	turnClaw,
	withFault,
} from '../../source/practice/index.ts';
import {openCents} from '../../source/practice/sound.ts';
import {firstBelief} from './first-belief.ts';
import {guidedPass, type Pass} from './tool-pass.ts';

/** A guitar set up by the tool, clamped, and put right with the fine tuners. */
export interface SetUp {
	readonly guitar: Guitar;
	readonly belief: Belief;
	readonly isNew: boolean;
	readonly locked: Pass;
	/** True shift of every string by the clamps, cents. */
	readonly shifts: readonly number[];
	/** The same as far as readings told. */
	readonly found: readonly (Estimate | undefined)[];
	/** Before any fine tuner was turned, and after, largest error, cents. */
	readonly worstBefore: number;
	readonly worstAfter: number;
}

/** The goal once the nut is locked: ±1.5 with something in hand for what readings do not show. */
export const lockedGoal = {toleranceCents: 1.25, readingCents: 0.5, handCents: 0.7} as const;
const openGoal = {toleranceCents: 2, readingCents: 0.5, handCents: 0.7} as const;

/** From drifted strings, or a new set pulled in, to locked and in tune. */
export function setUp(seed: number, isNew: boolean): SetUp {
	const {spec} = ensembles[seed % ensembles.length]!;
	const drawn = drawGuitar(rngFrom(seed, 1), spec, {start: isNew ? 'new-gauge' : 'drift'});
	const open = guidedPass(rngFrom(seed, 2), drawn, firstBelief(drawn, isNew, false), openGoal);
	return locked(seed, open.guitar, open.belief, isNew);
}

export function locked(seed: number, guitar: Guitar, belief: Belief, isNew: boolean): SetUp {
	const clamped = clampNut(rngFrom(seed, 3), guitar);
	const shifts = guitar.strings.map((_, index) => (openCents(clamped, index) ?? 0) - (openCents(guitar, index) ?? 0));
	return putRight(rngFrom(seed, 4), clamped, belief, {isNew, shifts});
}

/** The clamped guitar, last known as in `belief` with the nut open, read once all round, then corrected with the fine tuners alone. */
export function putRight(
	rng: Rng,
	clamped: Guitar,
	belief: Belief,
	{isNew, shifts}: {readonly isNew: boolean; readonly shifts: readonly number[]},
): SetUp {
	let now = clamped;
	let known = learn(belief, {kind: 'clamped'});
	const found = guitarIndices(clamped).map(index => {
		const place = linearisedCents(belief, belief.mean, index);
		const sd = place && Math.sqrt(varianceAlong(belief.covariance, place.gradient));
		const heard = pluck(rng, now, index);
		now = heard.guitar;
		if (heard.cents === undefined) return undefined;
		known = learn(known, {kind: 'pitch', index, cents: heard.cents});
		return place && clampShift({mean: place.value, sd: sd!}, {mean: heard.cents, sd: 0.5});
	});
	const pass = guidedPass(rng, now, known, lockedGoal);
	return {
		guitar: pass.guitar,
		belief: pass.belief,
		isNew,
		locked: pass,
		shifts,
		found,
		worstBefore: worstOf(clamped),
		worstAfter: worstOf(pass.guitar),
	};
}

function guitarIndices({strings}: Guitar): readonly number[] {
	return strings.map((_, index) => index);
}

export function worstOf(guitar: Guitar): number {
	return Math.max(...guitar.strings.map((_, index) => Math.abs(openCents(guitar, index) ?? 1200)));
}

export type FaultKind = Fault['kind'];
export const faultKinds = [
	'sticky-pivot',
	'slipping-string',
	'tuner-reference',
	'loose-claw',
	'loose-saddle',
	'unsettled-string',
] as const satisfies readonly FaultKind[];

/**
 * A fault of a size in cents. Size: for the pivot, how far from home friction
 * holds the string that reacts most; for the claw, how flat that string goes
 * at one movement of the arm; for the saddle and the slipping string, what
 * the first time flattens it by; for the unsettled string, what one dive lets
 * go; for the tuner, by how much it is off.
 */
export function faultOf(
	kind: FaultKind,
	size: number,
	{string, guitar, sign}: {string: number; guitar: Guitar; sign: number},
): Fault {
	const cents = (at: Guitar, index: number) => openCents(at, index) ?? 0;
	switch (kind) {
		case 'sticky-pivot':
			return {kind, cents: size};
		case 'slipping-string':
			return {kind, string, cents: size};
		case 'tuner-reference':
			return {kind, cents: sign * size};
		case 'loose-claw': {
			const steady = {...guitar, hands: {...guitar.hands, clawSdTurns: 0}};
			const by = -0.1;
			const turned = turnClaw(rngFrom(1), steady, {trebleTurns: by, bassTurns: by}).guitar;
			const most = Math.max(...guitar.strings.map((_, index) => cents(guitar, index) - cents(turned, index)));
			return {kind, turns: (size / most) * Math.abs(by)};
		}

		case 'loose-saddle': {
			const creepM = 5e-6;
			const crept = pluck(rngFrom(1), withFault(guitar, {kind, string, creepM}), string).guitar;
			return {kind, string, creepM: (creepM * size) / Math.max(0.1, cents(guitar, string) - cents(crept, string))};
		}

		case 'unsettled-string': {
			const giveM = 0.4e-3;
			const free = {...guitar, body: {...guitar.body, pivotFrictionNm: 0}};
			const settled = withFault(free, {kind, string, giveM: 0});
			const fresh = moveArm(withFault(free, {kind, string, giveM}), 'dive');
			const most = cents(moveArm(settled, 'dive'), string) - cents(fresh, string);
			return {kind, string, giveM: (giveM * size) / Math.max(0.1, most)};
		}
	}
}

/** What the final check does and reads: all strings twice, then each movement of the arm and all strings after it. */
export function checked(rng: Rng, start: Guitar, belief: Belief, faultAt: number, fault?: Fault): DiagnosisCase {
	let guitar = start;
	const events: DiagnosisEvent[] = [];
	const rounds = [undefined, undefined, 'dive', 'pull-up', 'bend'] as const;
	for (const [round, motion] of rounds.entries()) {
		if (fault && round === faultAt) guitar = withFault(guitar, fault);
		if (motion) {
			guitar = moveArm(guitar, motion);
			events.push({kind: 'arm', motion});
		}

		for (const index of guitar.strings.keys()) {
			const heard = pluck(rng, guitar, index);
			guitar = heard.guitar;
			if (heard.cents !== undefined) events.push({kind: 'read', index, cents: heard.cents});
		}
	}

	return {...diagnosisGround(belief), events};
}
