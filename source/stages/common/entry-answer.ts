import type {Entry} from '../../session/entry/entry.ts';
import type {Deed} from '../../session/facts.ts';
import type {Answer} from '../stage.ts';

/** A typed value as an answer; what is doubtful becomes a question. */
export function answerOf<T>(
	entry: Entry<T>,
	deedsOf: (value: T, entered: string) => readonly Deed[],
	meant = false,
): Answer {
	if (entry.kind === 'refused') return {kind: 'refused', said: entry.said};
	const deeds = deedsOf(entry.value, entry.entered);
	if (entry.kind === 'doubtful' && !meant) return {kind: 'question', said: entry.said, deedsIfMeant: deeds};
	return {kind: 'deeds', deeds};
}
