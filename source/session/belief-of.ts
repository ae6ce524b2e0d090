import type {Belief} from '../estimation/belief.ts';
import {learn} from '../estimation/learn.ts';
import {type Learned, recalled} from '../estimation/memory.ts';
import {withOldStrings} from '../planning/old-strings.ts';
import {plateUnknown} from '../planning/plate-unknown.ts';
import type {Fact, Story} from './facts.ts';
import {firstBeliefOf, withSpringsMeasured} from './first-belief.ts';
import {instrumentFrom} from './instrument.ts';
import {oldStringsEnd, taughtByOldStrings} from './old-strings-told.ts';
import type {InstrumentSheet} from './sheet.ts';
import {happeningsOf, indexOf} from './to-happenings.ts';

/**
 * What is believed after a story. Replayed from the facts, so undo takes
 * learning back too; what was already worked out for a shorter story of the
 * same facts is remembered, so one more fact costs one step.
 *
 * @param learned What earlier set-ups of this instrument taught.
 */
export function beliefOf(story: Story, sheet: InstrumentSheet, learned?: Learned): Belief {
	const told = taughtByOldStrings(story, sheet, learned);
	const readOnOld = told === learned ? 0 : oldStringsEnd(story);
	const memory = memoryFor(sheet, told);
	const facts = story.filter(fact => fact.type !== 'SheetFilled');
	let at = facts.length - 1;
	while (at >= 0 && !memory.has(facts[at]!)) at--;
	let belief = at >= 0 ? memory.get(facts[at]!)! : startOf(sheet, told, readOnOld > 0);
	const sheets = sheetsInForce(story);
	for (const fact of facts.slice(at + 1)) {
		if (isStillOldString(fact, story, sheet, readOnOld)) continue;
		// The first measure of the plate stands by itself: neither habit nor memory says how level it came in.
		if (fact.type === 'PlateMeasured' && fact === story.find(({type}) => type === 'PlateMeasured')) {
			belief = plateUnknown(belief, fact.tailMm / 1000);
		}

		for (const happening of happeningsOf(fact, sheets.get(fact) ?? sheet, sheet)) belief = learn(belief, happening);
		memory.set(fact, belief);
	}

	return belief;
}

/** A fact stands on the same facts for ever, so it can stand for the story up to it. */
type Memory = WeakMap<Fact, Belief>;
const bySheet = new WeakMap<InstrumentSheet, Map<Learned | undefined, Memory>>();

function memoryFor(sheet: InstrumentSheet, learned: Learned | undefined): Memory {
	const byLearned = bySheet.get(sheet) ?? new Map<Learned | undefined, Memory>();
	bySheet.set(sheet, byLearned);
	const memory = byLearned.get(learned) ?? new WeakMap<Fact, Belief>();
	byLearned.set(learned, memory);
	return memory;
}

function sheetsInForce(story: Story): Map<Fact, InstrumentSheet> {
	const result = new Map<Fact, InstrumentSheet>();
	let sheet: InstrumentSheet | undefined;
	for (const fact of story) {
		if (fact.type === 'SheetFilled') sheet = fact.sheet;
		if (sheet) result.set(fact, sheet);
	}

	return result;
}

/** In a change of set, what was read on the old strings says nothing about the new ones. */
function isStillOldString(fact: Fact, story: Story, sheet: InstrumentSheet, readOnOld: number): boolean {
	if (!sheet.before || fact.type !== 'PitchRead') return false;
	if (story.indexOf(fact) < readOnOld) return true;
	// The same string tuned elsewhere is no other string.
	const [was, is] = [sheet.before[indexOf(fact.string)], sheet.strings[indexOf(fact.string)]];
	if (was && is && was.gaugeThou === is.gaugeThou && was.wound === is.wound && was.coreThou === is.coreThou)
		return false;
	const fitted = story.findIndex(each => each.type === 'StringFitted' && indexOf(each.string) === indexOf(fact.string));
	return fitted < 0 || story.indexOf(fact) < fitted;
}

/** @param isLesson What is learned holds what the springs' lengths told already: the old strings were tested with it. */
function startOf(sheet: InstrumentSheet, learned: Learned | undefined, isLesson: boolean): Belief {
	const known = recalled(firstBeliefOf(sheet), learned, {
		newStrings: sheet.job === 'restring' || sheet.job === 'change',
		newSprings: false,
	});
	const cameIn = sheet.before
		? withOldStrings(known, instrumentFrom({...sheet, strings: sheet.before}), sheet.plateWishMm / 1000)
		: known;
	return isLesson ? cameIn : withSpringsMeasured(cameIn, sheet);
}
