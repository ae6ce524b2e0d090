import {type Belief, bridgeOf} from '../estimation/belief.ts';
import {type SaddleBelief, saddleTeller} from '../estimation/saddle-belief.ts';
import {type SaddleHappening, usualSaddleNoise} from '../estimation/saddle-history.ts';
import {type SaddleModel, saddleModelOf, slopeCentsPerMm} from '../estimation/saddle-model.ts';
import type {StringNumber} from '../music/string-number.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {aimsUnderSupport} from '../planning/saddle-aims.ts';
import type {TuningGoal} from '../planning/goal.ts';
import {compromiseFor, type SaddleCompromise} from '../planning/saddle-compromise.ts';
import {type SaddlePlan, planSaddle} from '../planning/saddle-plan.ts';
import {type SaddleTravel, saddleTravelOf} from '../planning/saddle-travel.ts';
import type {StringRow} from './bench.ts';
import {mayMovePitch} from './deed-nature.ts';
import {expectFretted} from './expect-fretted.ts';
import type {Fact, Story} from './facts.ts';
import {targetHzOf, wireOf} from './instrument.ts';
import {earsTold, heardStiffnessOf} from './heard-told.ts';
import {fretsReadOf} from './saddle-frets.ts';
import type {InstrumentSheet} from './sheet.ts';
import type {SessionState} from './state.ts';
import {indexOf} from './to-happenings.ts';

/** What is known of one string's saddle and intonation, and what to do about it. */
export function saddleOf(
	story: Story,
	state: SessionState,
	sheet: InstrumentSheet,
	belief: Belief,
	string: StringNumber,
	tuning: TuningGoal,
): Pick<StringRow, 'saddleMm' | 'intonationCents' | 'saddleMoveMm' | 'saddle'> {
	const {saddleMm, saddleMovedMm, hole} = state.strings[string];
	const saddle = saddleBeliefFor(story, sheet, belief, string);
	const plan = saddlePlanFor(saddle, sheet, string, hole);
	const slope = slopeCentsPerMm(saddle.model, saddle.positionMm.mean);
	const ears = earsTold(story, string, fact => isTouch(fact, string), slope);
	const compromise = saddle.isRead ? compromiseAtEnd(saddle, plan) : undefined;
	const frets = fretsReadOf(story, string, saddle, fact => isTouch(fact, string));
	const aim = supportAimsOf(story, belief, tuning)[indexOf(string)];
	return {
		...(saddleMm === undefined ? {} : {saddleMm}),
		...(saddle.isRead || saddle.moves > 0 ? {intonationCents: saddle.errorCents, saddleMoveMm: plan.travelMm} : {}),
		saddle: {
			...plan,
			plucks: saddle.plucks,
			movedMm: saddleMovedMm,
			...(compromise ? {compromise} : {}),
			...(aim ? {aimUnderSupport: aim} : {}),
			...(frets ? {frets} : {}),
			...(ears ? {ears} : {}),
		},
	};
}

/** What a note at a fret should read, cents; undefined until something was read fretted. See `expectFretted`. */
export function frettedExpected(
	story: Story,
	sheet: InstrumentSheet,
	belief: Belief,
	string: StringNumber,
	{open, fret}: {readonly open: Estimate; readonly fret: number},
): Estimate | undefined {
	const saddle = saddleBeliefFor(story, sheet, belief, string);
	const frets = fretsReadOf(story, string, saddle, fact => isTouch(fact, string));
	return expectFretted(open, saddle, fret, frets?.readings ?? []);
}

/** What else would help where the travel ends; where it stands now if it is believed beyond that end already. */
function compromiseAtEnd({model, positionMm}: SaddleBelief, plan: SaddlePlan): SaddleCompromise | undefined {
	const {reach, travelMm, errorCents, expectedCents} = plan;
	if (reach.kind !== 'out') return undefined;
	const isThere = reach.travelMm * travelMm.mean <= 0;
	return isThere
		? compromiseFor(model, errorCents.mean, positionMm.mean)
		: compromiseFor(model, expectedCents.mean, positionMm.mean + reach.travelMm);
}

/** Aims under a support, once strings were slackened on it; nothing without one. */
function supportAimsOf(story: Story, belief: Belief, tuning: TuningGoal): readonly (Estimate | undefined)[] {
	if (!belief.blocked) return [];
	const known = supportAims.get(belief);
	if (known?.toleranceCents === tuning.toleranceCents) return known.aims;
	const since = story.slice(story.findLastIndex(({type}) => type === 'SupportPlaced') + 1);
	const aims = since.some(({type}) => type === 'StringSlackened') ? aimsUnderSupport(belief, tuning) : [];
	supportAims.set(belief, {toleranceCents: tuning.toleranceCents, aims});
	return aims;
}

const supportAims = new WeakMap<
	Belief,
	{readonly toleranceCents: number; readonly aims: readonly (Estimate | undefined)[]}
>();

/** True of a fact after which earlier readings of a string no longer stand beside later ones. */
function isTouch(fact: Fact, string: StringNumber): boolean {
	const happening = happeningOf(fact, string);
	return happening !== undefined && happening.kind !== 'read' && happening.kind !== 'measured';
}

/** The belief about one string's saddle after a story. */
export function saddleBeliefFor(
	story: Story,
	sheet: InstrumentSheet,
	belief: Belief,
	string: StringNumber,
): SaddleBelief {
	return tellerFor(sheet, supportOf(belief, string, story), string)(historyOf(story, string));
}

type Teller = (history: readonly SaddleHappening[]) => SaddleBelief;

/** The last teller of every string of a sheet: it serves until the string's model changes. */
const tellers = new WeakMap<InstrumentSheet, Map<StringNumber, {readonly key: string; readonly teller: Teller}>>();

function tellerFor(sheet: InstrumentSheet, support: Support, string: StringNumber): Teller {
	const ofSheet = tellers.get(sheet) ?? new Map<StringNumber, {readonly key: string; readonly teller: Teller}>();
	tellers.set(sheet, ofSheet);
	const key = JSON.stringify(support);
	const known = ofSheet.get(string);
	if (known?.key === key) return known.teller;
	const {saddleMm} = sheet.strings[indexOf(string)]!;
	const start = saddleMm === undefined ? {} : {positionMm: saddleMm};
	const teller = saddleTeller(modelWith(sheet, string, support), start, usualSaddleNoise);
	ofSheet.set(string, {key, teller});
	return teller;
}

/** What of the bridge and the nut a fretted string feels, and its own stiffness if that was heard. */
interface Support {
	readonly giveShare: number;
	readonly extraLengthM: number;
	readonly heardStiffness?: Estimate;
}

/** A difference in give by half of this moves a fretted note by less than a fiftieth of a cent; finer ones are not told apart. */
const giveStep = 0.002;

function supportOf(belief: Belief, string: StringNumber, story: Story): Support {
	// On a support too: notes were read, and will be judged, with the bridge floating; a saddle's plan must not change because it went in.
	const share = giveShareOf(belief, indexOf(string));
	const heard = heardStiffnessOf(story, string);
	return {
		...(heard && {heardStiffness: {mean: twoDigits(heard.mean), sd: twoDigits(heard.sd)}}),
		giveShare: Math.round(share / giveStep) * giveStep,
		extraLengthM: belief.nut === 'open' ? belief.model.strings[indexOf(string)]!.behindNutM : 0,
	};
}

/** A hundredth of a stiffness is a thousandth of a cent. */
function twoDigits(value: number): number {
	return Number(value.toPrecision(2));
}

/** The fretted-note model of one string as the sheet, the bridge's belief and what was heard of it have it. */
export function saddleModelFor(
	sheet: InstrumentSheet,
	belief: Belief,
	string: StringNumber,
	story: Story = [],
): SaddleModel {
	return modelWith(sheet, string, supportOf(belief, string, story));
}

function modelWith(sheet: InstrumentSheet, string: StringNumber, support: Support): SaddleModel {
	const row = sheet.strings[indexOf(string)]!;
	return saddleModelOf({
		wire: wireOf(row),
		frequencyHz: targetHzOf(row, sheet.referenceAHz),
		scaleLengthM: sheet.scaleLengthMm / 1000,
		actionM: (row.actionMm ?? sheet.actionMm) / 1000,
		nutHeightM: sheet.nutHeightMm / 1000,
		...support,
	});
}

/** How the saddle can travel: what the sheet says, else what is usual. */
export function saddleTravelFor(
	sheet: InstrumentSheet,
	string: StringNumber,
	hole?: 'front' | 'back' | undefined,
): SaddleTravel {
	return saddleTravelOf(sheet.strings[indexOf(string)]?.saddleRangeMm, hole);
}

function saddlePlanFor(
	saddle: SaddleBelief,
	sheet: InstrumentSheet,
	string: StringNumber,
	hole: 'front' | 'back' | undefined,
): SaddlePlan {
	const wishCents = sheet.strings[indexOf(string)]?.frettedOffsetCents ?? 0;
	const goal = {wishCents, toleranceCents: sheet.frettedToleranceCents};
	return planSaddle(saddle, goal, saddleTravelFor(sheet, string, hole));
}

/** Share of one string's stiffness in all that holds the bridge: how far it gives way to a fretted string. */
function giveShareOf(belief: Belief, index: number): number {
	const bridge = bridgeOf(belief, belief.mean);
	const armM = bridge.armM[index]!;
	// Slack strings count as they will when they are back; a fretted string moves too little for wire to slide at the nut.
	const stiffness = Array.from(bridge.axialStiffnessN, (each, at) => each / bridge.speakingLengthM[at]!);
	const together = stiffness.reduce((sum, each) => sum + each, bridge.springRateNmPerRad / armM ** 2);
	return stiffness[index]! / together;
}

/** What the story says of one saddle. */
function historyOf(story: Story, string: StringNumber): readonly SaddleHappening[] {
	const history = story.flatMap(fact => happeningOf(fact, string) ?? []);
	return history.filter((_, at) => !isMisread(history, at));
}

/** Readings that agree with each other and leave another one this far out show that it was misread or mistyped. */
const misread = {readings: 3, agreeCents: 4, awayCents: 8} as const;

/** True of a reading that the next ones of its kind, nothing touched between, agree to contradict. */
function isMisread(history: readonly SaddleHappening[], at: number): boolean {
	const read = history[at]!;
	if (read.kind !== 'read') return false;
	const rest = history.slice(at + 1);
	const end = rest.findIndex(({kind}) => kind !== 'read' && kind !== 'measured');
	const later = (end < 0 ? rest : rest.slice(0, end)).flatMap(other =>
		other.kind === 'read' && other.how === read.how ? [other.cents] : [],
	);
	const [low, high] = [Math.min(...later), Math.max(...later)];
	return (
		later.length >= misread.readings &&
		high - low <= misread.agreeCents &&
		(read.cents > high + misread.awayCents || read.cents < low - misread.awayCents)
	);
}

const touched: SaddleHappening = {kind: 'touched'};
const happenings = new WeakMap<Fact, SaddleHappening>();

/** What a fact is for one string's saddle: the same object every time. */
function happeningOf(fact: Fact, string: StringNumber): SaddleHappening | undefined {
	const happening = translated(fact, string);
	if (happening === undefined || happening.kind === 'touched') return happening && touched;
	const known = happenings.get(fact);
	if (known === undefined) happenings.set(fact, happening);
	return known ?? happening;
}

function translated(fact: Fact, string: StringNumber): SaddleHappening | undefined {
	switch (fact.type) {
		case 'PitchRead':
			if (fact.string !== string || (fact.fret ?? 12) !== 12) return undefined;
			return {
				kind: 'read',
				how: fact.how,
				cents: fact.cents,
				...(fact.heard && {heardSdCents: fact.heard.sdCents}),
			};
		case 'SaddleMoved':
			return fact.string === string ? {kind: 'moved', travelMm: fact.travelMm} : touched;
		case 'SaddleMeasured':
			return fact.string === string ? {kind: 'measured', positionMm: fact.positionMm} : undefined;
		case 'StringFitted':
			return fact.string === string ? {kind: 'restrung'} : touched;
		default:
			return mayMovePitch(fact) ? touched : undefined;
	}
}
