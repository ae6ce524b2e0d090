import {believedHz, type StringPlace} from '../../listening/which-string.ts';
import type {Estimate} from '../../numeric/estimate.ts';
import type {Bench} from '../../session/bench.ts';
import {type AskedPitch, semitonesUp} from './asked-pitch.ts';

/** A peg being turned may be anywhere between where it was and its aim, and somewhat beyond, cents. */
const turningSdCents = 40;

/** Where every string that sounds is believed to be, for telling which one was heard. */
export function placesOf(bench: Bench, asked: AskedPitch | undefined): readonly StringPlace[] {
	return bench.strings.flatMap(row => {
		const isAsked = row.string === asked?.string;
		if (row.state === 'off' || (row.state === 'slack' && !isAsked)) return [];
		const now = isAsked && asked.toCents !== undefined ? between(row.now, asked.toCents) : row.now;
		const sounded =
			isAsked && asked.how === 'fretted' ? bench.expectReading(row.string, asked.how, asked.fret) : undefined;
		return [{string: row.string, targetHz: row.targetHz, ...(now && {now}), ...(sounded && {sounded})}];
	});
}

function between(now: Estimate | undefined, toCents: number): Estimate | undefined {
	if (!now) return undefined;
	const half = Math.abs(toCents - now.mean) / 2;
	return {mean: (now.mean + toCents) / 2, sd: Math.hypot(now.sd, half, turningSdCents)};
}

/** Hints for the ear: every string open and an octave up, and the note asked for if it is another. */
export function hintsHz(places: readonly StringPlace[], asked: AskedPitch | undefined): readonly number[] {
	const hz = believedHz(places);
	const place = places.find(({string}) => string === asked?.string);
	if (!asked || !place || [0, 12].includes(semitonesUp(asked))) return hz;
	const {mean} = place.sounded ?? place.now ?? {mean: 0};
	return [...hz, place.targetHz * 2 ** (semitonesUp(asked) / 12 + mean / 1200)];
}
