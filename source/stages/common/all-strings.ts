import type {Bench} from '../../session/bench.ts';
import {pitchReads, readReading} from '../../session/entry/reading.ts';
import {readingContext} from '../../session/entry/reading-context.ts';
import type {Deed, How} from '../../session/facts.ts';
import type {Answer} from '../stage.ts';
import {nameOf} from './rows.ts';
import {allStrings as words} from './words.ts';

/**
 * As many bare readings on one line as there are strings, thinnest first:
 * all strings at once. Undefined if the line is anything else.
 */
export function answerAllStrings(text: string, how: How, bench: Bench, meant = false): Answer | undefined {
	const typed = text.trim().split(/[\s;/]+/);
	if (typed.length !== bench.strings.length || text.includes(':')) return undefined;
	const deeds: Deed[] = [];
	let question: string | undefined;
	for (const [index, row] of bench.strings.entries()) {
		const entry = readReading(typed[index]!, readingContext(bench, row.string, how));
		if (entry.kind === 'refused') return {kind: 'refused', said: words.at(nameOf(row), entry.said)};
		if (entry.kind !== 'reading' && entry.kind !== 'doubtful') return undefined;
		if (entry.kind === 'doubtful') question ??= words.at(nameOf(row), entry.said);
		const reading = entry.kind === 'doubtful' ? entry.reading : entry;
		deeds.push(...pitchReads(meant ? {...reading, meant: true} : reading, how));
	}
	return question !== undefined && !meant
		? {kind: 'question', said: question, deedsIfMeant: deeds}
		: {kind: 'deeds', deeds};
}
