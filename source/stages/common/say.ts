import {noteName} from '../../music/note.ts';
import {hzFromCents, midiFromHz} from '../../music/pitch.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import {formatCents} from '../../units/cents.ts';

/** Cents as a person follows them: whole when far out, a decimal when close. */
export function centsShown(cents: number): string {
	return formatCents(cents, Math.abs(cents) < 19.5 ? 1 : 0);
}

/**
 * What a tuner that names the nearest note shows when this string stands
 * `cents` from its target: `F2 +12` for an E2 112 cents sharp.
 */
export function tunerShows(row: StringRow, cents: number, bench: Bench): string {
	const midi = midiFromHz(hzFromCents(cents, row.targetHz), bench.sheet.referenceAHz);
	const nearest = Math.round(midi);
	const name = noteName(nearest, row.note.includes('b') ? 'flats' : 'sharps');
	return `${name} ${formatCents((midi - nearest) * 100, 0)}`;
}

/** Further off than this a string is hardly tight, and no tuner names it. */
const namedWithinCents = 1200;

/** `+23`, or `+112 (F2 +12)` when the tuner will name another note. */
export function aimShown(row: StringRow, cents: number, bench: Bench): string {
	const shown = `${centsShown(cents)} cents`;
	const away = Math.abs(cents);
	return away < 50 || away > namedWithinCents ? shown : `${shown} (${tunerShows(row, cents, bench)})`;
}
