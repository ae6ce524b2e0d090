import type {Bench, StringRow} from '../../session/bench.ts';
import {takenString} from '../common/guided.ts';
import {missing, statusOf} from './status.ts';

export const wayChoice = 'intonation';
export type Way = 'together' | 'single';

export type Step =
	| {readonly kind: 'choose' | 'tune' | 'done'}
	| {readonly kind: 'read'; readonly row: StringRow; readonly how: 'harmonic' | 'fretted'; readonly again: boolean}
	| {readonly kind: 'slacken'; readonly rows: readonly StringRow[]}
	| {readonly kind: 'move'; readonly row: StringRow};

export function wayOf({ways}: Bench): Way | undefined {
	const way = ways[wayChoice];
	return way === 'together' || way === 'single' ? way : undefined;
}

/** What is open, by the way chosen; the way may be changed over at any time. */
export function stepOf(bench: Bench): Step {
	const way = wayOf(bench);
	if (!way) return {kind: 'choose'};
	return way === 'together' ? together(bench) : single(bench);
}

/** Read all, move all in one slack period, one guided pass, verify. */
function together(bench: Bench): Step {
	const rows = bench.strings.map(row => ({row, status: statusOf(row, bench)}));
	const withStatus = (wanted: string) => rows.filter(({status}) => status === wanted).map(({row}) => row);
	const slack = withStatus('to-move').find(({state}) => state === 'slack');
	if (slack) return {kind: 'move', row: slack};
	const unread = withStatus('to-read');
	if (unread.length > 0) return readStep(unread, bench, false);
	const unproved = withStatus('to-verify');
	if (unproved.length > 0) return isTuned(bench) ? readStep(unproved, bench, true) : {kind: 'tune'};
	const off = withStatus('to-move');
	if (off.length > 0) return {kind: 'slacken', rows: off};
	return isTuned(bench) ? {kind: 'done'} : {kind: 'tune'};
}

/** Each string read, moved, brought back and proved before the next. */
function single(bench: Bench): Step {
	for (const row of bench.strings) {
		const status = statusOf(row, bench);
		if (status === 'to-read') return readStep([row], bench, false);
		if (status === 'to-move') return row.state === 'slack' ? {kind: 'move', row} : {kind: 'slacken', rows: [row]};
		if (status === 'to-verify') return isTuned(bench) ? readStep([row], bench, true) : {kind: 'tune'};
	}
	return isTuned(bench) ? {kind: 'done'} : {kind: 'tune'};
}

/** The string chosen by the person, else one half read, else the first. */
function readStep(rows: readonly StringRow[], bench: Bench, again: boolean): Step {
	const taken = takenString(bench);
	const row =
		rows.find(({string}) => string === taken) ??
		rows.find(({string}) => missing(string, bench) === 'fretted') ??
		rows[0]!;
	return {kind: 'read', row, how: missing(row.string, bench) ?? 'harmonic', again};
}

function isTuned({tuning}: Bench): boolean {
	return tuning.kind === 'done';
}
