import type {Belief} from '../estimation/belief.ts';
import type {Learned} from '../estimation/memory.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {advanceBeforeRelease, type ClawPlan, planClaw} from '../planning/claw-plan.ts';
import {clawBySide, type SideMeasure} from '../planning/claw-by-side.ts';
import {clawChances, isLookWorth, isRough, isTurnWorth, sureShare} from '../planning/claw-moment.ts';
import {advanceFor, isArmGuessed} from '../planning/claw-sense.ts';
import {plateVerdict} from '../planning/plate-verdict.ts';
import {springAdvice} from '../planning/spring-advice.ts';
import {type ClawScrews, springCaseOf} from '../planning/spring-case.ts';
import type {PlateRow} from './bench.ts';
import {clawSenseOf} from './claw-sense.ts';
import type {Story} from './facts.ts';
import type {InstrumentSheet} from './sheet.ts';
import type {SessionState} from './state.ts';

/** The plate counts as standing as wished within this much at the tail, mm. Common practice, no source. */
export const plateToleranceMm = 0.3;

/** How the plate stands, what the claw must do, and whether turns are enough. */
export function plateOf(
	story: Story,
	state: SessionState,
	sheet: InstrumentSheet,
	belief: Belief,
	learned: Learned | undefined,
): PlateRow {
	const wishM = sheet.plateWishMm / 1000;
	const seen = clawSenseOf(story, sheet, learned);
	const plan = planned(planClaw(belief, wishM), seen, wishM, belief.blocked);
	const toleranceM = plateToleranceMm / 1000;
	const chances = clawChances(seen.sense, {wishM, toleranceM, screwPitchM: sheet.clawScrewPitchMm / 1000});
	const perTurn = 1000 / sheet.clawScrewPitchMm;
	const inTurns = ({mean, sd}: Estimate): Estimate => ({mean: mean * perTurn, sd: sd * perTurn});
	const inMm = ({mean, sd}: Estimate): Estimate => ({mean: mean * 1000, sd: sd * 1000});
	const screws = screwsOf(sheet, state.claw.meanTurns);
	const clawTurns = inTurns(plan.advanceM);
	return {
		tailMm: inMm(plan.tailM),
		tailAtPitchMm: inMm(plan.tailAtPitchM),
		clawTurns,
		clawTurnsMade: state.claw.meanTurns,
		...(state.plate ? {measured: state.plate} : {}),
		springForceN: plan.springForceN.mean,
		bySide: clawBySide(clawTurns.mean, plan.tailPerAdvance * screws.pitchM, sidesMeasured(story)),
		springs: springAdvice(springCaseOf(belief, plan, screws)),
		verdict: plateVerdict(plan.tailAtPitchM, {
			wishM,
			toleranceM,
			measures: measuresSinceTouch(story, state),
			turned: chances.turnedNow,
		}),
		isTurnWorth: isTurnWorth(chances),
		isArmWanted: sheet.springArmMm === undefined && isArmGuessed(seen.sense) && Math.abs(clawTurns.mean) >= boldTurns,
		isLookDue: wasClawLast(story) && chances.asItIs < sureShare && isRough(belief),
		isSecondLookDue:
			measuresSinceTouch(story, state) === 1 &&
			(Math.abs(clawTurns.mean) >= boldTurns || wasLastTurnBold(story) || isLookWorth(chances)),
		...(belief.blocked ? {turnsBeforeRelease: inTurns(advanceBeforeRelease(belief, wishM))} : {}),
	};
}

/** The belief's plan, with what a ruler has told in place of what is only inferred. */
function planned(
	plan: ClawPlan,
	{sense, isMeasured}: ReturnType<typeof clawSenseOf>,
	wishM: number,
	isBlocked: boolean,
): ClawPlan {
	if (!isMeasured) return plan;
	const sd = Math.sqrt(sense.tailVariance);
	const {toComeM} = plan;
	const fromPitch = {mean: sense.tailM - toComeM.mean, sd: Math.hypot(sd, toComeM.sd, toComeShare * toComeM.mean)};
	return {
		...plan,
		tailAtPitchM: {mean: sense.tailM, sd},
		// Right after a bold turn of the claw nearly all is still to come, and the belief, which counts from the last measure, knows better.
		...(isBlocked ? {} : {tailM: weighed(plan.tailM, fromPitch)}),
		advanceM: advanceFor(sense, wishM),
		tailPerAdvance: sense.tailArmM * Math.exp(-sense.logArm),
	};
}

/** How far what the strings still have to bring may be wrong where much is to come, as a share of it: far turns end on stops. Judgement. */
const toComeShare = 0.5;

/** Two accounts of one height, each by how sure it is; as sure as the surer of them, for they rest on the same measures. */
function weighed(one: Estimate, other: Estimate): Estimate {
	const [ours, theirs] = [one, other].map(({sd}) => 1 / Math.max(1e-12, sd ** 2));
	return {
		mean: (one.mean * ours! + other.mean * theirs!) / (ours! + theirs!),
		sd: Math.min(one.sd, other.sd),
	};
}

/** From this many turns on the ruler is laid on twice. Judgement. */
export const boldTurns = 0.5;

function wasLastTurnBold(story: Story): boolean {
	const turned = story.findLast(({type}) => type === 'ClawTurned');
	return turned?.type === 'ClawTurned' && Math.abs(turned.trebleTurns + turned.bassTurns) / 2 >= boldTurns;
}

/** True if the claw was turned since the plate was last measured. */
function wasClawLast(story: Story): boolean {
	return story.findLast(({type}) => type === 'ClawTurned' || type === 'PlateMeasured')?.type === 'ClawTurned';
}

export function screwsOf({clawScrewPitchMm, clawTurnsLeft}: InstrumentSheet, turnsMade: number): ClawScrews {
	const [looser, tighter] = clawTurnsLeft ?? [];
	return {
		pitchM: clawScrewPitchMm / 1000,
		turnsMade,
		...(looser === undefined || tighter === undefined ? {} : {turnsLeft: {looser, tighter}}),
	};
}

/** How often the plate was measured since anything last moved it. */
function measuresSinceTouch(story: Story, {plate, lastTouch}: SessionState): number {
	if (!plate || plate.touchedSince > 0) return 0;
	return story.filter((fact, index) => fact.type === 'PlateMeasured' && index > lastTouch).length;
}

/** Measures of both sides, each with how much more the treble screw had been turned by then. */
function sidesMeasured(story: Story): readonly SideMeasure[] {
	let differenceTurns = 0;
	const measures: SideMeasure[] = [];
	for (const fact of story) {
		if (fact.type === 'ClawTurned') differenceTurns += fact.trebleTurns - fact.bassTurns;
		if (fact.type !== 'PlateMeasured' || fact.sidesMm === undefined) continue;
		const {treble, bass} = fact.sidesMm;
		measures.push({trebleM: treble / 1000, bassM: bass / 1000, differenceTurns});
	}

	return measures;
}
