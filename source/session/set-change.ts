import type {Belief} from '../estimation/belief.ts';
import {learn} from '../estimation/learn.ts';
import type {Learned} from '../estimation/memory.ts';
import {foreseenStretchM} from '../estimation/spring-stretch.ts';
import {type StringNumber, stringNumbers} from '../music/string-number.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {tensionAtPitch} from '../physics/tension-at-pitch.ts';
import {forecastChange, type SetChange} from '../planning/set-change.ts';
import {type SpringAdvice, springAdvice} from '../planning/spring-advice.ts';
import {springCaseOf} from '../planning/spring-case.ts';
import {beliefOf} from './belief-of.ts';
import {isWork} from './deed-nature.ts';
import {stateOf} from './evolve.ts';
import type {Fact, Story} from './facts.ts';
import {targetHzOf, wireOf} from './instrument.ts';
import {oldStringsEnd} from './old-strings-told.ts';
import {screwsOf} from './plate.ts';
import type {InstrumentSheet, StringSheet} from './sheet.ts';

/** What a change of set or tuning was foreseen to do before anything was undone. Heights mm above level, turns positive tighter. */
export interface ChangeForecast {
	readonly strings: readonly ChangedString[];
	readonly totalBeforeN: number;
	readonly totalN: Estimate;
	/** Only the strings changed, brought to pitch on a support that holds the plate as it stood, then let go. */
	readonly letGoTailMm: Estimate;
	/** Only the strings changed, and all brought to pitch again. */
	readonly tailAtPitchMm: Estimate;
	/** Turns on both claw screws, from where they stood at intake, that bring the plate to the wish at pitch. */
	readonly clawTurns: Estimate;
	/** The same turns as they would be known if a ruler were laid along the springs now; absent once it was, or a hand has changed anything. */
	readonly clawTurnsIfMeasured?: Estimate;
	readonly springs: SpringAdvice;
}

export interface ChangedString {
	readonly string: StringNumber;
	readonly beforeN: number;
	readonly nowN: Estimate;
	/** Where it would sound when let go as above, cents of its new target; undefined when slack. */
	readonly letGoCents: Estimate | undefined;
	/** Tension at pitch over minimum breaking load, 0 to 1, by nominal values. */
	readonly strengthShare: number;
	readonly verdict: 'near-strength' | 'slack' | 'usual';
}

/** Share of the minimum breaking load from which a string at pitch is worth a warning. Judgement: the textbook's elastic limit is 0.65 to 0.75 (Shigley, 9th ed., table 10-5). */
const nearStrengthShare = 0.6;
/** Below this pull at pitch a string is felt as slack, N. Common practice, no source; players differ. */
export const leastPlayableN = 45;

/**
 * The forecast of a change, from what was known before anything was undone. It
 * is a function of the facts, so it is kept with every set-up and can be
 * compared with what came true.
 *
 * @returns Undefined unless the sheet tells what was on before.
 */
export function changeForecastOf(story: Story, learned?: Learned): ChangeForecast | undefined {
	const upTo = story.slice(0, oldStringsEnd(story));
	const {sheet} = stateOf(upTo);
	if (!sheet?.before) return undefined;
	return forecastFor(sheet, sheet.before, upTo, learned);
}

const forecasts = new WeakMap<
	InstrumentSheet,
	{of: Fact | undefined; learned: Learned | undefined; forecast: ChangeForecast}
>();

function forecastFor(
	sheet: InstrumentSheet,
	before: readonly StringSheet[],
	story: Story,
	learned: Learned | undefined,
): ChangeForecast {
	const last = story.findLast(({type}) => type !== 'SheetFilled');
	const known = forecasts.get(sheet);
	if (known && known.of === last && known.learned === learned) return known.forecast;
	// Foreseen from the claw as it came in, wherever a test has left it.
	const made = stateOf(story).claw.meanTurns;
	const now = beliefOf(story, sheet, learned);
	const belief = made === 0 ? now : learn(now, {kind: 'claw', advanceM: (-made * sheet.clawScrewPitchMm) / 1000});
	const change = forecastChange(belief, sheet.plateWishMm / 1000);
	const beforeN = before.map(string => pullAtPitchN(string, sheet));
	const inTurns = ({claw: {advanceM}}: SetChange): Estimate => ({
		mean: advanceM.mean * perTurn,
		sd: advanceM.sd * perTurn,
	});
	const inMm = ({mean, sd}: Estimate): Estimate => ({mean: mean * 1000, sd: sd * 1000});
	const perTurn = 1000 / sheet.clawScrewPitchMm;
	const forecast: ChangeForecast = {
		strings: sheet.strings.map((row, index) => {
			const nowN = change.tensionN[index]!;
			const strengthShare = nowN.mean / wireOf(row).breakingLoadN;
			return {
				string: stringNumbers[index]!,
				beforeN: beforeN[index] ?? 0,
				nowN,
				letGoCents: change.letGoCents[index],
				strengthShare,
				verdict: strengthShare > nearStrengthShare ? 'near-strength' : nowN.mean < leastPlayableN ? 'slack' : 'usual',
			};
		}),
		totalBeforeN: beforeN.reduce((sum, each) => sum + each, 0),
		totalN: change.totalN,
		letGoTailMm: inMm(change.letGoTailM),
		tailAtPitchMm: inMm(change.claw.tailAtPitchM),
		clawTurns: inTurns(change),
		...(sheet.springLengthsMm === undefined &&
			!story.some(isWork) && {
				clawTurnsIfMeasured: inTurns(forecastChange(asIfMeasured(story, sheet, learned), sheet.plateWishMm / 1000)),
			}),
		springs: springAdvice(springCaseOf(belief, change.claw, screwsOf(sheet, 0))),
	};
	forecasts.set(sheet, {of: last, learned, forecast});
	return forecast;
}

/** What would be believed if a ruler along the springs showed just what is expected of it. */
function asIfMeasured(story: Story, sheet: InstrumentSheet, learned: Learned | undefined): Belief {
	const expectedMm = foreseenStretchM(beliefOf(story, sheet, learned)) * 1000;
	return beliefOf(story, {...sheet, springLengthsMm: [expectedMm, 0]}, learned);
}

/** Pull of a string at its target by nominal values, newtons. */
export function pullAtPitchN(row: StringSheet, sheet: InstrumentSheet): number {
	return tensionAtPitch(wireOf(row), {
		frequencyHz: targetHzOf(row, sheet.referenceAHz),
		speakingLengthM: sheet.scaleLengthMm / 1000,
	}).tensionN;
}
