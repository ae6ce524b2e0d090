import {type Belief, nominalTargetTensionN} from '../estimation/belief.ts';
import type {Learned} from '../estimation/memory.ts';
import {noise} from '../estimation/priors.ts';
import {type StringNumber, stringNumbers} from '../music/string-number.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {probabilityWithin} from '../numeric/normal.ts';
import {clawLift} from '../planning/claw-lift.ts';
import {clawByEar, type ClawReturn} from '../planning/claw-return.ts';
import {armRanges} from '../planning/arm-range.ts';
import {type Act as PhysicalAct, consequencesOf} from '../planning/forecast.ts';
import type {TuningGoal} from '../planning/goal.ts';
import {tensionsOf} from '../planning/landing.ts';
import {planWithout} from '../planning/lost-string.ts';
import {planTuning, type TuningPlan} from '../planning/tuning-plan.ts';
import type {Act, Bench, ClawByEar, Forecast, Lost, PlateRow, StringRow, StringState, TuningAdvice} from './bench.ts';
import {beliefOf} from './belief-of.ts';
import {type BenchDiagnosis, diagnosisOf} from './diagnosis-of.ts';
import {stateOf} from './evolve.ts';
import type {Story} from './facts.ts';
import {harmonicAboveOpenCents, targetHzOf} from './instrument.ts';
import {type Locking, lockingOf} from './locking.ts';
import {plateOf} from './plate.ts';
import {type RecheckNow, recheckNow} from './records/recheck-now.ts';
import {frettedExpected, saddleOf} from './saddles.ts';
import {compareForecast} from './set-change-compared.ts';
import {changeForecastOf, pullAtPitchN} from './set-change.ts';
import type {InstrumentSheet} from './sheet.ts';
import {type SessionState, touchedSince} from './state.ts';
import {indexOf} from './to-happenings.ts';

/**
 * Everything a screen may show, worked out from the facts alone.
 *
 * @param story Must contain a filled sheet.
 * @param learned What earlier set-ups of this instrument taught.
 * @throws {RangeError} If the story has no filled sheet.
 */
export function benchOf(story: Story, learned?: Learned): Bench {
	const known = benches.get(story);
	if (known && known.learned === learned) return known.bench;
	const bench = derive(story, learned);
	benches.set(story, {learned, bench});
	return bench;
}

const benches = new WeakMap<Story, {learned: Learned | undefined; bench: Bench}>();

function derive(story: Story, learned: Learned | undefined): Bench {
	const state = stateOf(story);
	const {sheet} = state;
	if (!sheet) throw new RangeError('benchOf: expected story to hold a filled sheet, got none');
	const belief = beliefOf(story, sheet, learned);
	const goal = goalOf(sheet, state.nut);
	const reads = readsSinceTouch(state, sheet);
	const plan = planTuning(belief, goal, reads);
	const change = changeForecastOf(story, learned);
	const plate = plateOf(story, state, sheet, belief, learned);
	let led: {turn: ClawByEar | undefined} | undefined;
	let locking: Locking | undefined;
	let rechecked: {recheck: RecheckNow | undefined} | undefined;
	let told: {diagnosis: BenchDiagnosis | undefined} | undefined;
	return {
		story,
		sheet,
		nut: state.nut,
		blocked: state.blocked,
		springs: state.springs ?? sheet.springs,
		toleranceCents: goal.toleranceCents,
		strings: rowsOf(story, state, sheet, belief, plan, goal),
		plate,
		tuning: adviceOf(plan),
		ticked: state.ticked,
		ways: state.ways,
		passedStages: state.passedStages,
		...(state.reopenedStage === undefined ? {} : {reopenedStage: state.reopenedStage}),
		lastAdjustment: state.lastTouch,
		adjustments: state.adjustments,
		...(change ? {change} : {}),
		changeCompared: () => compareForecast(story, learned),
		clawByEar: () => {
			led ??= {turn: clawByEarOf(clawByEar(belief, goal, plan), sheet)};
			return led.turn;
		},
		clawLift: () => clawLiftOf(belief, plate, sheet),
		locking: () => {
			locking ??= lockingOf(story, sheet, learned, aimed =>
				adviceOf(planTuning(beliefOf(story, aimed, learned), goal, reads)),
			);
			return locking;
		},
		diagnosis: () => {
			told ??= {diagnosis: diagnosisOf(story, learned)};
			return told.diagnosis;
		},
		recheck: () => {
			rechecked ??= {recheck: recheckNow(story, learned)};
			return rechecked.recheck;
		},
		without: string => lostOf(belief, sheet, string),
		forecast: act => forecastOf(belief, sheet, act, goal),
		expectReading: (string, how, fret = 12) => {
			const status = belief.strings[indexOf(string)];
			const now = plan.now[indexOf(string)];
			if (!status?.everRead || status.turnedUnread || status.on !== 'sounding' || !now) return undefined;
			const sd = Math.hypot(now.sd, noise.readingCents);
			if (how === 'open') return {mean: now.mean, sd};
			const harmonic = {mean: now.mean + harmonicAboveOpenCents(sheet.strings[indexOf(string)]!, sheet), sd};
			return how === 'fretted' ? frettedExpected(story, sheet, belief, string, {open: harmonic, fret}) : harmonic;
		},
	};
}

/** Turns to the sixteenth, a hair at least, and cents to the tenth, as a person is told them. */
function clawByEarOf(back: ClawReturn | undefined, {clawScrewPitchMm}: InstrumentSheet): ClawByEar | undefined {
	return (
		back && {
			string: stringNumbers[back.index]!,
			toCents: Math.round(10 * back.toCents) / 10,
			turns: Math.round((16_000 * back.advanceM) / clawScrewPitchMm) / 16 || Math.sign(back.advanceM) / 32,
		}
	);
}

/** What a ruler has told of the claw is surer than what the strings alone do. */
function clawLiftOf(
	belief: Belief,
	{measured, clawTurns, turnsBeforeRelease = clawTurns}: PlateRow,
	{clawScrewPitchMm}: InstrumentSheet,
): ClawByEar | undefined {
	const {mean, sd} = measured ? clawTurns : turnsBeforeRelease;
	const pitchM = clawScrewPitchMm / 1000;
	const lift = clawLift(belief, {mean: mean * pitchM, sd: sd * pitchM});
	if (!lift) return undefined;
	const {index, toCents, from} = lift;
	// Which way it leans says which way to turn, whatever the number makes of it.
	const turns = from === 'rising' ? Math.max(0, mean) : Math.min(0, mean);
	return {
		string: stringNumbers[index]!,
		toCents: Math.round(10 * toCents) / 10,
		turns: Math.round(16 * turns) / 16,
		from,
	};
}

/** The clamps move strings by several cents, so nearer than this before them is lost again: common practice, no source. */
const beforeClampsCents = 2;

/** What counts as in tune for this sheet, now: nothing finer than the clamps will leave while they are off. */
export function goalOf(sheet: InstrumentSheet, nut: SessionState['nut']): TuningGoal {
	const {openToleranceCents: wish} = sheet;
	const toleranceCents = nut === 'open' ? Math.max(wish, beforeClampsCents) : wish;
	return {toleranceCents, readingCents: noise.readingCents, handCents: noise.handCents};
}

/** How often each string was read, open or as a harmonic, since anything was touched. */
function readsSinceTouch(state: SessionState, sheet: InstrumentSheet): number[] {
	return sheet.strings.map((_, index) => {
		const session = state.strings[stringNumbers[index]!];
		return (['open', 'harmonic'] as const).reduce(
			(count, how) => count + (touchedSince(session, how) === 0 ? session.readings[how]!.cents.length : 0),
			0,
		);
	});
}

function rowsOf(
	story: Story,
	state: SessionState,
	sheet: InstrumentSheet,
	belief: Belief,
	plan: TuningPlan,
	goal: TuningGoal,
): StringRow[] {
	const tensions = tensionsOf(belief, belief.mean);
	const targetTensions = belief.model.strings.map(nominalTargetTensionN);
	const arms = armRanges(belief, sheet.plateWishMm / 1000);
	return sheet.strings.map((row, index): StringRow => {
		const string = stringNumbers[index]!;
		const session = state.strings[string];
		const status = belief.strings[index]!;
		const isKnown = status.everRead && !status.turnedUnread && status.on === 'sounding';
		const now = isKnown ? plan.now[index] : undefined;
		const aim = plan.step.kind === 'turn' && plan.step.index === index ? plan.step.aim : plan.aims[index];
		const before = sheet.before?.[index];
		const last = session.lastHow && session.readings[session.lastHow]?.last;
		return {
			string,
			note: row.note,
			targetHz: targetHzOf(row, sheet.referenceAHz),
			gaugeThou: row.gaugeThou,
			wound: row.wound,
			...(last ? {lastReading: {cents: last.cents, how: last.how, fact: last}} : {}),
			touchedSince: session.lastHow ? (touchedSince(session, session.lastHow) ?? 0) : 0,
			...(now ? {now} : {}),
			...(aim ? {aim} : {}),
			tensionN: status.on === 'sounding' ? tensions[index]! : 0,
			targetTensionN: targetTensions[index]!,
			...(before ? {tensionBeforeN: pullAtPitchN(before, sheet)} : {}),
			...(arms[index] ? {arm: arms[index]} : {}),
			strengthShare: status.on === 'sounding' ? tensions[index]! / belief.model.strings[index]!.breakingLoadN : 0,
			...saddleOf(story, state, sheet, belief, string, goal),
			state: stateOfString(belief, goal, index, now),
		};
	});
}

function stateOfString(
	belief: Belief,
	{toleranceCents}: TuningGoal,
	index: number,
	now: Estimate | undefined,
): StringState {
	const status = belief.strings[index]!;
	if (status.on !== 'sounding') return status.on;
	if (now && probabilityWithin(now, toleranceCents) > 0.8) return 'settled';
	if (!now || now.sd > 3 * toleranceCents) return 'needs a look';
	if (belief.blocked) return 'blocked';
	return belief.nut === 'locked' ? 'locked' : 'free';
}

function lostOf(belief: Belief, sheet: InstrumentSheet, string: StringNumber): Lost {
	const {without, replaced} = planWithout(belief, indexOf(string), sheet.plateWishMm / 1000);
	const rows = ({advanceM, tailAtPitchM: tail}: typeof without) => ({
		clawTurns: {
			mean: (advanceM.mean * 1000) / sheet.clawScrewPitchMm,
			sd: (advanceM.sd * 1000) / sheet.clawScrewPitchMm,
		},
		tailAtPitchMm: {mean: tail.mean * 1000, sd: tail.sd * 1000},
	});
	return {...rows(without), replaced: rows(replaced)};
}

function adviceOf({step}: TuningPlan): TuningAdvice {
	switch (step.kind) {
		case 'read':
			return {kind: 'read', string: stringNumbers[step.index]!, why: step.why};
		case 'turn':
			return {
				kind: 'turn',
				string: stringNumbers[step.index]!,
				aimCents: step.aim,
				gentle: step.gentle,
				why: step.why,
			};
		case 'done':
			return {
				kind: 'done',
				worst: {string: stringNumbers[step.worst.index]!, error: step.worst.error},
				probability: step.probability,
			};
	}
}

function forecastOf(belief: Belief, sheet: InstrumentSheet, act: Act, {toleranceCents}: TuningGoal): Forecast {
	if (belief.blocked && act.kind !== 'unsupport') {
		return {moves: [], tipMm: {mean: 0, sd: 0}, comesBack: true, matters: false, ...strainOf(belief, act)};
	}

	const {moves, tipM} = consequencesOf(belief, physicalAct(act, sheet));
	const rows = moves.flatMap((cents, index) => {
		const status = belief.strings[index]!;
		return cents && status.everRead && status.on === 'sounding' ? [{string: stringNumbers[index]!, cents}] : [];
	});
	return {
		moves: rows,
		tipMm: {mean: tipM.mean * 1000, sd: tipM.sd * 1000},
		comesBack: act.kind === 'slacken',
		matters: rows.some(({cents}) => Math.abs(cents.mean) + cents.sd > toleranceCents),
		...strainOf(belief, act),
	};
}

function physicalAct(act: Act, sheet: InstrumentSheet): PhysicalAct {
	switch (act.kind) {
		case 'turn':
			return {kind: 'turn', index: indexOf(act.string), toCents: act.toCents};
		case 'slacken':
			return {kind: 'slacken', indices: act.strings.map(indexOf)};
		case 'remove':
			return {kind: 'remove', index: indexOf(act.string)};
		case 'claw':
			return {kind: 'claw', advanceM: (act.turns * sheet.clawScrewPitchMm) / 1000};
		case 'unsupport':
		case 'clamp':
			return act;
	}
}

/** Share of the minimum breaking load from which a turn is warned of. */
const warnedShare = 0.6;

/** Strength of the string to be turned, if it comes near: tension goes with the square of pitch. */
function strainOf(belief: Belief, act: Act): {strain: {string: StringNumber; share: number}} | Record<never, never> {
	if (act.kind !== 'turn') return {};
	const index = indexOf(act.string);
	const share =
		(nominalTargetTensionN(belief.model.strings[index]!) * 2 ** (act.toCents / 600)) /
		belief.model.strings[index]!.breakingLoadN;
	return share > warnedShare ? {strain: {string: act.string, share}} : {};
}
