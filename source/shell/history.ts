import type {Learned} from '../estimation/memory.ts';
import {benchOf} from '../session/bench-of.ts';
import {comparisonText, recheckText} from '../session/records/as-text.ts';
import {ageDays, compared, fittedAt} from '../session/records/compare.ts';
import {expectedOf, recheckOf} from '../session/records/recheck.ts';
import {words} from '../session/records/words.ts';
import {stringNumbers} from '../music/string-number.ts';
import {setUpSheet} from '../session/report/set-up-sheet.ts';
import {stateOf} from '../session/evolve.ts';
import type {Story} from '../session/facts.ts';
import type {Store} from '../storage/store.ts';
import {formatCents, formatCentsSpread} from '../units/cents.ts';
import {formatCount} from '../units/quantities.ts';
import {learnedFor} from './learned.ts';

interface Visit {
	readonly story: Story;
	readonly learned: Learned | undefined;
	readonly bench: ReturnType<typeof benchOf>;
}

/** Set-ups of a guitar that have a sheet, oldest first, each with what was known when it began; of those that cannot be read the store's warnings tell. */
function visitsOf(store: Store, guitarId: string): readonly Visit[] {
	const kept = store.list().filter(summary => summary.guitarId === guitarId);
	return kept
		.toSorted((a, b) => a.startedAt - b.startedAt)
		.flatMap(summary => {
			const loaded = store.load(summary.id);
			if (!loaded.ok || !stateOf(loaded.journal.story).sheet) return [];
			const {story} = loaded.journal;
			const learned = learnedFor(store.loadLearned(guitarId), summary);
			return [{story, learned, bench: benchOf(story, learned)}];
		});
}

/** What is kept of a guitar over time: its set-ups compared one with the next, and the age of its strings. */
export function historyLines(store: Store, guitarId: string, now: number): readonly string[] {
	const visits = visitsOf(store, guitarId);
	const sheets = visits.map(({bench}) => setUpSheet(bench));
	const last = sheets.at(-1);
	if (!last) return [words.nothingKept];
	const fitted = fittedAt(visits.map(({story}) => story));
	return [
		...sheets.flatMap((sheet, at) => {
			const day = new Date(sheet.to).toISOString().slice(0, 10);
			const before = sheets[at - 1];
			return [
				words.visit(day, formatCount(sheet.work.pegTurns + sheet.work.fineTunerTurns, 'turn')),
				...(before ? comparisonText(compared(before, sheet), sheet.sheet).map(line => `  ${line}`) : []),
			];
		}),
		...last.strings.map(({string}) => {
			const at = fitted(string);
			return at === undefined
				? words.ageUnknown(String(string))
				: words.age(String(string), formatCount(ageDays(at, now), 'day'));
		}),
	];
}

/** Whether a set-up of this guitar got as far as its sheet: without one there is nothing to compare with. */
export function hasVisit(store: Store, guitarId: string): boolean {
	return visitsOf(store, guitarId).length > 0;
}

/** What the last set-up of a guitar expects its open strings to read now. */
export function expectationLines(store: Store, guitarId: string): readonly string[] {
	const last = visitsOf(store, guitarId).at(-1);
	if (!last) return [words.nothingKept];
	return expectedOf(last.story, last.learned).map(({string, expected}) =>
		words.expects(String(string), expected ? formatCentsSpread(expected) : words.unknown),
	);
}

/**
 * Today's readings against the last set-up of a guitar.
 *
 * @param text Cents of the open strings, string 1 first, any number of rounds.
 */
export function recheckLines(
	store: Store,
	guitarId: string,
	text: string,
): {readonly ok: boolean; readonly lines: readonly string[]} {
	const last = visitsOf(store, guitarId).at(-1);
	if (!last) return {ok: false, lines: [words.nothingKept]};
	const typed = text.trim().split(/\s+/).filter(Boolean);
	const cents = typed.map(word => Number(word.replace(',', '.').replace('−', '-')));
	const count = last.bench.strings.length;
	if (
		cents.length === 0 ||
		cents.length % count !== 0 ||
		!cents.every(each => Number.isFinite(each) && Math.abs(each) <= 300)
	) {
		const example = stringNumbers
			.slice(0, count)
			.map(string => formatCents(string % 3 === 0 ? -1 : 0.5))
			.join(' ');
		return {ok: false, lines: [words.notReadings(typed.join(' ') || words.unknown, count, example)]};
	}

	const reads = cents.map((each, at) => ({string: stringNumbers[at % count]!, cents: each}));
	const found = recheckOf(last.story, reads, last.learned);
	return {ok: true, lines: found ? recheckText(found) : []};
}
