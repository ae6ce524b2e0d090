import type {Learned} from '../../estimation/memory.ts';
import type {StringNumber} from '../../music/string-number.ts';
import {mayMovePitch} from '../deed-nature.ts';
import {stateOf} from '../evolve.ts';
import type {Story} from '../facts.ts';
import type {InstrumentSheet} from '../sheet.ts';
import {happeningsOf} from '../to-happenings.ts';
import {retargeted} from './retargeted.ts';
import {expectedOf, type Recheck, recheckOf} from './recheck.ts';

/** A re-check as far as it has come. */
export interface RecheckNow {
	/** What yesterday expects, and what was read. */
	readonly strings: Recheck['strings'];
	/** What the readings tell, from the first on. */
	readonly found?: Recheck;
	/** The targets were changed since: all cents here are counted from the new ones. */
	readonly hasOtherTargets?: true;
}

/**
 * The last re-check of a story, from when a day had passed to the first work
 * after it: what was turned then is no longer as yesterday left it.
 *
 * @returns Undefined when no day was let pass, or when the sheet was filled with another number of strings since.
 */
export function recheckNow(story: Story, learned?: Learned): RecheckNow | undefined {
	const at = story.findLastIndex(({type}) => type === 'DayPassed');
	if (at < 0) return undefined;
	const yesterday = story.slice(0, at);
	const today = story.slice(at + 1);
	const was = stateOf(yesterday).sheet;
	const is = stateOf(story).sheet;
	const sheet = was && is && retargeted(was, is);
	if (!was || !sheet) return undefined;
	const worked = today.findIndex(mayMovePitch);
	const reads = openReads(worked < 0 ? today : today.slice(0, worked), was, sheet);
	const found = recheckOf(yesterday, reads, learned, sheet);
	return {
		...(found ? {strings: found.strings, found} : {strings: expectedOf(yesterday, learned, sheet)}),
		...(sheet !== was && {hasOtherTargets: true}),
	};
}

/** Open readings, each said against the targets in force then, as cents of those in force now. */
function openReads(
	today: Story,
	was: InstrumentSheet,
	now: InstrumentSheet,
): readonly {readonly string: StringNumber; readonly cents: number}[] {
	let then = was;
	return today.flatMap(fact => {
		if (fact.type === 'SheetFilled') then = retargeted(was, fact.sheet) ?? was;
		if (fact.type !== 'PitchRead' || fact.how !== 'open') return [];
		return happeningsOf(fact, then, now).flatMap(happening =>
			happening.kind === 'pitch' ? [{string: fact.string, cents: happening.cents}] : [],
		);
	});
}
