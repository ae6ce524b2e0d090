import type {DiagnosisCause} from './diagnosis.ts';
import {
	type DiagnosisCase,
	type DiagnosisEvent,
	platePattern,
	plateSpread,
	roundStarts,
	stringPattern,
} from './diagnosis-case.ts';

/**
 * One unknown number behind the readings: Gaussian, and each unit of it adds
 * `size × by[channel]` to every reading from a step on.
 */
export interface Factor {
	readonly mean: number;
	readonly sd: number;
	readonly steps: readonly Step[];
	/** How much of it counts towards the size that is reported. */
	readonly counts?: number;
}

interface Step {
	/** Place in the events. */
	readonly at: number;
	readonly by: Float64Array;
	readonly size: number;
	/** A pluck's own reading is over when what it lets go has gone. */
	readonly isAfter?: boolean;
}

export interface Candidate {
	readonly cause: DiagnosisCause;
	readonly index?: number;
	/** Share of belief before anything is read. */
	readonly prior: number;
	/** In units of the size. */
	readonly factors: readonly Factor[];
	/** Sizes looked at, cents, equally likely. */
	readonly sizes: readonly number[];
}

/**
 * Beliefs beforehand: most guitars are sound. Judgement; what they trade is
 * false alarms against small faults missed.
 */
const priors = {
	sound: 0.8,
	plate: 0.05,
	claw: 0.03,
	'all-alike': 0.03,
	'string-slips': 0.04,
	'saddle-creeps': 0.02,
	stretching: 0.03,
} satisfies Record<DiagnosisCause, number>;

/** Cents, each about 1.5 times the last. */
const sizes = [3, 4, 5, 7.5, 11, 16, 24, 36, 55] as const;

/** What any movement leaves on a string of a sound guitar, cents. */
const touchedCents = 0.3;

/** What a new string of newness 1 lets go at a movement of the arm, cents: mean and spread are alike. */
const usualGiveCents = 0.8;

/** What a night does to a settled string, and through warmth to all in proportion to the bridge, cents. Judgement; 2 K are 2 cents on a floating bridge. */
const nightCents = 0.8;
const nightPlateCents = 2;
/** What a string of newness 1 is expected to give in a night beyond that, cents: mean and spread are alike. Judgement. */
const nightGiveCents = 4;

function nightsOf({events}: DiagnosisCase): readonly number[] {
	return events.flatMap(({kind}, at) => (kind === 'night' ? [at] : []));
}

type Arm = Extract<DiagnosisEvent, {kind: 'arm'}>;

function armsOf({events}: DiagnosisCase): readonly {readonly at: number; readonly motion: Arm['motion']}[] {
	return events.flatMap((event, at) => (event.kind === 'arm' ? [{at, motion: event.motion}] : []));
}

/** What a sound guitar does: friction leaves the plate a little off, strings settle a little, new ones give. */
export function soundFactors(given: DiagnosisCase): readonly Factor[] {
	const {strings, frictionCents} = given;
	const arms = armsOf(given);
	const channels = strings.length + 1;
	const restless = arms.flatMap(({at}) =>
		strings.map((_, index): Factor => ({mean: 0, sd: touchedCents, steps: [{at, by: only(index, channels), size: 1}]})),
	);
	const friction = frictionCents.mean;
	const nights = nightsOf(given);
	return [
		...restless,
		...nights.flatMap(at => [
			{mean: 0, sd: nightPlateCents, steps: [{at, by: platePattern(given), size: 1}]},
			...strings.map(({newness}, index): Factor => {
				const by = stringPattern(given, index);
				return {
					mean: -nightGiveCents * newness,
					sd: Math.hypot(nightCents, nightGiveCents * newness),
					steps: [{at, by, size: 1}],
				};
			}),
		]),
		{mean: friction, sd: frictionCents.sd, steps: restsAt(given, platePattern(given), side)},
		...rests(given).map(({from, to}): Factor => {
			const by = platePattern(given);
			return {mean: 0, sd: 0.5 * friction, steps: stretchOfTime(from, to, by, 1)};
		}),
		...strings.flatMap(({newness}, index): readonly Factor[] =>
			newness === 0
				? []
				: [
						{
							mean: -usualGiveCents * newness,
							sd: usualGiveCents * newness,
							steps: roundSteps(given, index, 0, given.events.length),
						},
					],
		),
	];
}

/** Which way friction holds a plate that was let go from this side: after a dive the strings stay flat. */
const side = {dive: -1, 'pull-up': 1, bend: -0.3} as const;

interface Rest {
	readonly from: number;
	readonly to: number;
	readonly motion?: Arm['motion'];
}

/** Stretches of time during which the plate lies still: before the arm, and after each movement. */
function rests(given: DiagnosisCase): readonly Rest[] {
	const arms = armsOf(given);
	const first: Rest = {from: -1, to: arms[0]?.at ?? given.events.length};
	return [first, ...arms.map(({at, motion}, k) => ({from: at, to: arms[k + 1]?.at ?? given.events.length, motion}))];
}

function restsAt(
	given: DiagnosisCase,
	by: Float64Array,
	sizeOf: Readonly<Record<Arm['motion'], number>>,
): readonly Step[] {
	return rests(given).flatMap(({from, to, motion}) => (motion ? stretchOfTime(from, to, by, sizeOf[motion]) : []));
}

function stretchOfTime(from: number, to: number, by: Float64Array, size: number): readonly Step[] {
	return [
		{at: from, by, size},
		{at: to, by, size: -size},
	];
}

/** What stretching in lets go in one round, in units of one movement of the arm: a pluck of its own three times what touching the others does. */
function roundSteps(given: DiagnosisCase, index: number, from: number, to: number): readonly Step[] {
	const by = stringPattern(given, index);
	const share = 1 / (given.strings.length + 2);
	return given.events.flatMap((event, at): readonly Step[] => {
		if (at < from || at >= to || (event.kind !== 'read' && event.kind !== 'plucked')) return [];
		return [{at, by, size: event.index === index ? 3 * share : share, isAfter: true}];
	});
}

/** What one string that is not stretched in lets go: in every round a little, at every movement more. */
function giveFactors(given: DiagnosisCase, index: number): readonly Factor[] {
	const by = stringPattern(given, index);
	const starts = roundStarts(given);
	const inRounds = starts.map(
		(from, at): Factor => ({
			mean: -0.7,
			sd: 0.4,
			counts: 1,
			steps: roundSteps(given, index, from, starts[at + 1] ?? given.events.length),
		}),
	);
	const atArm = armsOf(given).map(({at, motion}): Factor => {
		const steps = [{at, by, size: 1}];
		// A bend pulls hard at its own string and leaves the others alone; which one it was is not recorded.
		return motion === 'bend' ? {mean: -0.5, sd: 1.5, counts: 1, steps} : {mean: -0.9, sd: 0.4, counts: 1, steps};
	});
	const overNight = nightsOf(given).map((at): Factor => ({mean: -1, sd: 0.4, counts: 1, steps: [{at, by, size: 1}]}));
	return [...inRounds, ...atArm, ...overNight];
}

function only(index: number, channels: number): Float64Array {
	const by = new Float64Array(channels);
	by[index] = 1;
	return by;
}

export function candidatesOf(given: DiagnosisCase): readonly Candidate[] {
	const {strings} = given;
	return [
		{cause: 'sound', prior: priors.sound, factors: [], sizes: []},
		plate(given),
		claw(given),
		...allAlike(given),
		...strings.flatMap((_, index) => [slips(given, index), creeps(given, index)]),
		...stretching(given),
	];
}

/** Worn edges, posts, a spring that rubs: where the plate rests depends on where it came from, and on luck. */
function plate(given: DiagnosisCase): Candidate {
	const by = platePattern(given);
	const states = rests(given).map(({from, to, motion}): Factor => {
		const mean = motion === undefined ? 0 : 0.75 * side[motion];
		return {mean, sd: motion === 'bend' ? 0.8 : 0.5, steps: stretchOfTime(from, to, by, 1)};
	});
	// How far apart the two last rests are.
	const counted = states.map((factor, at) => ({...factor, counts: at === states.length - 1 ? 1 : 0}));
	return {
		cause: 'plate',
		prior: priors.plate,
		factors: [...counted, ...unsureShares(given, restsAt(given, by, {...side, bend: 0}))],
		sizes,
	};
}

/** Screw or spring gave way: at every pull of the arm a little further out, all flat, and it stays. */
function claw(given: DiagnosisCase): Candidate {
	const by = platePattern(given);
	const pulls = armsOf(given);
	const steps = pulls.map(({at, motion}): Factor => {
		const isBend = motion === 'bend';
		return {mean: isBend ? 0 : -0.85, sd: isBend ? 0.15 : 0.4, steps: [{at, by, size: 1}], counts: 1};
	});
	const atStart: Factor = {mean: 0, sd: pulls.length > 0 ? 0.1 : 1, steps: [{at: -1, by, size: 1}], counts: 1};
	const course = pulls.filter(({motion}) => motion !== 'bend').map(({at}) => ({at, by, size: -0.85}));
	return {
		cause: 'claw',
		prior: priors.claw,
		factors: [...steps, atStart, ...unsureShares(given, course)],
		sizes,
	};
}

/** The plate's share in each string is not known exactly: each string's own error goes along with the plate's course. */
function unsureShares(given: DiagnosisCase, course: readonly Step[]): readonly Factor[] {
	const channels = given.strings.length + 1;
	return plateSpread(given).map((sd, index) => ({
		mean: 0,
		sd: Math.max(1e-3, sd),
		steps: course.map(step => ({...step, by: only(index, channels)})),
	}));
}

/** One jump of everything that is read as a pitch, between two rounds. */
function allAlike(given: DiagnosisCase): readonly Candidate[] {
	const by = Float64Array.from([...given.strings.map(() => 1), 0]);
	const starts = given.before ? roundStarts(given) : roundStarts(given).slice(1);
	return starts.map(at => ({
		cause: 'all-alike',
		prior: priors['all-alike'] / starts.length,
		factors: [{mean: 0, sd: 1, counts: 1, steps: [{at: at === 0 ? -1 : at, by, size: 1}]}],
		sizes,
	}));
}

/** Flat at a hard pull, mostly less at the next one. */
function slips(given: DiagnosisCase, index: number): Candidate {
	const by = stringPattern(given, index);
	const pulls = armsOf(given);
	let hard = 0;
	const factors = pulls.map(({at, motion}): Factor => {
		const steps = [{at, by, size: 1}];
		if (motion === 'bend') return {mean: -0.1, sd: 0.3, steps, counts: 1};
		hard++;
		return hard === 1 ? {mean: -0.85, sd: 0.35, steps, counts: 1} : {mean: -0.4, sd: 0.3, steps, counts: 1};
	});
	const atStart: Factor = {mean: 0, sd: pulls.length > 0 ? 0.1 : 1, steps: [{at: -1, by, size: 1}], counts: 1};
	return {
		cause: 'string-slips',
		index,
		prior: priors['string-slips'] / given.strings.length,
		factors: [...factors, atStart, unsureBridge(given, index, courseOf(factors))],
		sizes,
	};
}

/** Flat from pluck to pluck, less each time; the arm need not have been moved. */
function creeps(given: DiagnosisCase, index: number): Candidate {
	const by = stringPattern(given, index);
	let plucks = 0;
	const factors = given.events.flatMap((event, at): readonly Factor[] => {
		if (event.kind !== 'read' && event.kind !== 'plucked') return [];
		if (event.index !== index) return [];
		const size = 0.45 ** plucks;
		plucks++;
		return [{mean: -1, sd: 0.4, steps: [{at, by, size, isAfter: true}], counts: size}];
	});
	const rest: Factor = {mean: 0, sd: 0.15, steps: armsOf(given).map(({at}) => ({at, by, size: 1})), counts: 1};
	return {
		cause: 'saddle-creeps',
		index,
		prior: priors['saddle-creeps'] / given.strings.length,
		factors: [...factors, rest, unsureBridge(given, index, courseOf(factors))],
		sizes,
	};
}

/** New strings flat, all in proportion to how new they are, or one of them alone. */
function stretching(given: DiagnosisCase): readonly Candidate[] {
	const {strings} = given;
	const fresh = strings.flatMap(({newness}, index) => (newness > 0 ? [index] : []));
	if (fresh.length === 0) return [];
	const most = Math.max(...strings.map(({newness}) => newness));
	const share = priors.stretching / (fresh.length + 1);
	const byString = fresh.map(index => giveFactors(given, index));
	const together = byString[0]!.map((factor, at): Factor => {
		const steps = fresh.flatMap((index, k) => {
			const weight = strings[index]!.newness / most;
			return byString[k]![at]!.steps.map(step => ({...step, size: step.size * weight}));
		});
		return {...factor, steps};
	});
	const apart = fresh.map(
		(_, k): Factor => ({
			mean: 0,
			sd: 0.35,
			steps: byString[k]!.flatMap(({steps, mean}) => steps.map(step => ({...step, size: -mean * step.size}))),
		}),
	);
	return [
		{cause: 'stretching', prior: share, sizes, factors: [...together, ...apart]},
		...fresh.map(
			(index, k): Candidate => ({
				cause: 'stretching',
				index,
				prior: share,
				sizes,
				factors: [...byString[k]!, unsureBridge(given, index, courseOf(byString[k]!))],
			}),
		),
	];
}

/** Steps of some factors at their means: how the cause goes on the whole. */
function courseOf(factors: readonly Factor[]): readonly Step[] {
	return factors.flatMap(({mean, steps}) => steps.map(step => ({...step, size: mean * step.size})));
}

/** How much one string moves the others is known to some share only. */
function unsureBridge(given: DiagnosisCase, index: number, course: readonly Step[]): Factor {
	const by = stringPattern(given, index);
	by[index] = 0;
	return {mean: 0, sd: 0.25, steps: course.map(step => ({...step, by}))};
}
