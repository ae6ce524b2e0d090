import {broughtBack, type ClawSense, clawTurned, firstSense, plateSeen, unsettled} from '../planning/claw-sense.ts';
import {clawByEarSdM} from '../planning/claw-return.ts';
import {planClaw} from '../planning/claw-plan.ts';
import type {Learned} from '../estimation/memory.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {beliefOf} from './belief-of.ts';
import type {Fact, Story} from './facts.ts';
import type {InstrumentSheet} from './sheet.ts';

/** What the plate's measures and the claw's turns of a story have told; `measured` once the plate was. */
export function clawSenseOf(
	story: Story,
	sheet: InstrumentSheet,
	learned?: Learned,
): {readonly sense: ClawSense; readonly isMeasured: boolean} {
	let sense = firstSense(beliefOf([], sheet, learned), learned?.clawArm);
	let isMeasured = false;
	let isBlocked = false;
	/** The height at which strings were set last, while the claw has only been led by them since. */
	let heldM: number | undefined;
	let springs = sheet.springs;
	for (const [index, fact] of story.entries()) {
		switch (fact.type) {
			case 'SupportPlaced':
				isBlocked = true;
				heldM = fact.tailMm === undefined ? undefined : fact.tailMm / 1000;
				break;
			case 'SupportRemoved':
				isBlocked = false;
				break;
			case 'ClawTurned':
				isMeasured ||= heldM !== undefined && fact.until !== undefined;
				sense = afterClaw(sense, fact, sheet, heldM);
				if (!fact.until) heldM = undefined;
				break;
			case 'SpringsChanged':
				heldM = undefined;
				sense = unsettled(sense, fact.springs === springs ? 're-hooked' : 'springs');
				springs = fact.springs;
				break;
			case 'StringFitted':
				heldM = undefined;
				sense = unsettled(sense, 'string');
				break;
			case 'PlateMeasured':
				// On a support the plate shows where the support holds it.
				if (isBlocked) break;
				sense = plateSeen(sense, fact.tailMm / 1000, toComeAt(fact, story.slice(0, index + 1), sheet, learned));
				isMeasured = true;
				break;
			default:
		}
	}

	return {sense, isMeasured};
}

function afterClaw(
	sense: ClawSense,
	{trebleTurns, bassTurns, until}: Fact & {type: 'ClawTurned'},
	{clawScrewPitchMm}: InstrumentSheet,
	heldM: number | undefined,
): ClawSense {
	if (until && heldM !== undefined) return broughtBack(sense, heldM);
	const advanceM = (((trebleTurns + bassTurns) / 2) * clawScrewPitchMm) / 1000;
	return clawTurned(sense, advanceM, until ? clawByEarSdM(advanceM) : 0);
}

type Remembered = WeakMap<Fact, {readonly learned: Learned | undefined; readonly toComeM: Estimate}>;
const bySheet = new WeakMap<InstrumentSheet, Remembered>();

/** What the strings were still to bring when the plate was measured; a fact stands on the same facts for ever. */
function toComeAt(fact: Fact, story: Story, sheet: InstrumentSheet, learned: Learned | undefined): Estimate {
	const remembered: Remembered = bySheet.get(sheet) ?? new WeakMap();
	bySheet.set(sheet, remembered);
	const known = remembered.get(fact);
	if (known && known.learned === learned) return known.toComeM;
	const {toComeM} = planClaw(beliefOf(story, sheet, learned), sheet.plateWishMm / 1000);
	remembered.set(fact, {learned, toComeM});
	return toComeM;
}
