import type {Belief} from '../estimation/belief.ts';
import {learn} from '../estimation/learn.ts';
import {type Learned, learnedFrom, recalled} from '../estimation/memory.ts';
import {plateUnknown} from '../planning/plate-unknown.ts';
import type {Fact, Story} from './facts.ts';
import {firstBeliefOf, withSpringsMeasured} from './first-belief.ts';
import type {InstrumentSheet} from './sheet.ts';
import {happeningsOf} from './to-happenings.ts';

/** Facts that take the old strings' place in the story. */
const undoing: ReadonlySet<Fact['type']> = new Set([
	'StringRemoved',
	'StringFitted',
	'StringSlackened',
	'SupportPlaced',
	'SpringsChanged',
]);

/** Place in the story up to which the old strings are all on: what is read there is read on them. */
export function oldStringsEnd(story: Story): number {
	const undone = story.findIndex(({type}) => undoing.has(type));
	return undone < 0 ? story.length : undone;
}

/** True when something was turned and read with the old strings still on: a test that tells what springs and bridge do. */
export function isTested(story: Story): boolean {
	const prefix = story.slice(0, oldStringsEnd(story));
	const turned = prefix.findIndex(
		({type}) => type === 'ClawTurned' || type === 'PegTurned' || type === 'FineTunerTurned',
	);
	return turned >= 0 && prefix.slice(turned).some(({type}) => type === 'PitchRead');
}

const told = new WeakMap<Fact, {sheet: InstrumentSheet; learned: Learned | undefined; lesson: Learned}>();

/**
 * What is known of the instrument once the old strings have told theirs. One
 * turn of the claw, plate and strings read before and after it, says more of
 * the springs than any packet, before a string is touched.
 *
 * @returns `learned` itself unless the sheet is of a change and something was tested.
 */
export function taughtByOldStrings(story: Story, sheet: InstrumentSheet, learned?: Learned): Learned | undefined {
	if (!sheet.before || !isTested(story)) return learned;
	const prefix = story.slice(0, oldStringsEnd(story));
	const last = prefix.at(-1)!;
	const known = told.get(last);
	if (known && known.sheet === sheet && known.learned === learned) return known.lesson;
	const lesson = learnedFrom(beliefOnOldStrings(prefix, sheet, sheet.before, learned));
	told.set(last, {sheet, learned, lesson});
	return lesson;
}

function beliefOnOldStrings(
	story: Story,
	sheet: InstrumentSheet,
	before: NonNullable<InstrumentSheet['before']>,
	learned: Learned | undefined,
): Belief {
	const old: InstrumentSheet = {...sheet, strings: before};
	const known = recalled(firstBeliefOf(old), learned, {newStrings: false, newSprings: false});
	let belief = withSpringsMeasured(known, old);
	let then = sheet;
	let isMeasured = false;
	for (const fact of story) {
		if (fact.type === 'SheetFilled') then = fact.sheet;
		if (fact.type === 'PlateMeasured' && !isMeasured) {
			belief = plateUnknown(belief, fact.tailMm / 1000);
			isMeasured = true;
		}

		for (const happening of happeningsOf(fact, then, old)) belief = learn(belief, happening);
	}

	return belief;
}
