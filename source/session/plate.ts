import type {Belief} from '../estimation/belief.ts';
import type {Learned} from '../estimation/memory.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {advanceBeforeRelease, type ClawPlan, planClaw} from '../planning/claw-plan.ts';
import {clawBySide, type SideMeasure} from '../planning/claw-by-side.ts';
import {advanceFor} from '../planning/claw-sense.ts';
import {centsOf} from '../planning/landing.ts';
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
	const plan = planned(planClaw(belief, wishM), clawSenseOf(story, sheet, learned), wishM, belief.blocked);
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
			toleranceM: plateToleranceMm / 1000,
			measures: measuresSinceTouch(story, state),
		}),
		isLookDue: isLookDue(story, belief),
		isSecondLookDue:
			measuresSinceTouch(story, state) === 1 && (Math.abs(clawTurns.mean) >= boldTurns || wasLastTurnBold(story)),
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

/** From this many turns on the plate is worth a look on the way through the pass. Judgement. */
const boldTurns = 0.5;
/** All strings this near to pitch say well enough where the plate will stand, cents. Judgement. */
const roughCents = 15;

function wasLastTurnBold(story: Story): boolean {
	const turned = story.findLast(({type}) => type === 'ClawTurned');
	return turned?.type === 'ClawTurned' && Math.abs(turned.trebleTurns + turned.bassTurns) / 2 >= boldTurns;
}

/** The claw was turned boldly, the plate not seen since, and every string is roughly at pitch: a trim now costs hardly a turn more. */
function isLookDue(story: Story, belief: Belief): boolean {
	const turned = story.findLast(({type}) => type === 'ClawTurned' || type === 'PlateMeasured');
	if (turned?.type !== 'ClawTurned' || belief.blocked) return false;
	if (!wasLastTurnBold(story)) return false;
	const cents = centsOf(belief, belief.mean);
	return belief.strings.every(
		({on, everRead, turnedUnread}, index) =>
			on === 'off' || (on === 'sounding' && everRead && !turnedUnread && Math.abs(cents[index] ?? 1200) <= roughCents),
	);
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
