import {whichString} from '../../listening/which-string.ts';
import type {ListeningView} from '../../listening/listening-view.ts';
import {centsBetween} from '../../music/pitch.ts';
import {fitTo} from '../../terminal/fit.ts';
import type {Glyphs} from '../../terminal/glyphs.ts';
import {type Line, span} from '../../terminal/line.ts';
import {formatCents} from '../../units/cents.ts';
import type {Seen} from '../seen.ts';
import type {Sitting} from '../state.ts';
import {askedPitch, semitonesUp} from './asked-pitch.ts';
import {aimWords, heardCents, soundWords, troubleMarks, words} from './ear-words.ts';
import {placesOf} from './places.ts';

const levelCells = 6;
const settledCells = 5;
/** Narrower than this the bar of settling stands without its word. */
const labelledFrom = 70;
/** Range of the level bar, dB re full scale: a soft pluck far from the microphone to full scale. */
const levelDb = [-54, 0] as const;
/** Shown for so long after the last pluck was told, s: then it waits for the next. */
const showsNoteS = 4;

/**
 * One row while the program listens: how loud it is, what is heard, how near
 * to a reading. Its parts stand where they stand whatever is heard.
 */
export function earLine(
	sitting: Sitting,
	seen: Seen,
	{width, glyphs}: {readonly width: number; readonly glyphs: Glyphs},
): Line {
	const {ear} = sitting;
	if (!ear) return [];
	const {view} = ear;
	const share = view ? (view.peakDb - levelDb[0]) / (levelDb[1] - levelDb[0]) : 0;
	const mark = view?.troubles.map(({code}) => troubleMarks[code]).find(each => each !== undefined);
	const right = mark === undefined ? '' : ` ${glyphs.attention} ${mark}`;
	const left = 'ear ';
	const label = width >= labelledFrom ? words.settled : '';
	const room = width - left.length - levelCells - label.length - settledCells - 2 - right.length - 1;
	return [
		span(left, 'accent'),
		...bar(share, levelCells, glyphs, view?.isClipping ? 'attention' : 'good'),
		span(
			`  ${fitTo(whatWords(sitting, seen), Math.max(0, room), 'left', glyphs.cut)} `,
			isTold(view) ? 'strong' : 'plain',
		),
		...(view?.hz === undefined && view?.phase !== 'attack'
			? [span(' '.repeat(label.length + settledCells))]
			: [span(label, 'quiet'), ...bar(view.settled, settledCells, glyphs, view.settled === 1 ? 'good' : 'attention')]),
		span(right, 'attention'),
	];
}

function bar(share: number, cells: number, glyphs: Glyphs, as: 'good' | 'attention'): Line {
	const full = Math.max(0, Math.min(cells, Math.round(share * cells)));
	return [span(glyphs.full.repeat(full), as), span(glyphs.empty.repeat(cells - full), 'quiet')];
}

function isTold(view: ListeningView | undefined): boolean {
	return view?.phase === 'told';
}

/** What is heard, in a few words. */
function whatWords({ear, entry}: Sitting, seen: Seen): string {
	const {view, note, from} = ear ?? {};
	if (from === undefined) return words.opening;
	const asked = askedPitch(seen, entry);
	const waiting = note ?? words.waitingFor(asked && askedWords(asked));
	if (!view || view.phase === 'waiting') return waiting;
	if (view.phase === 'attack') return words.plucked;
	const isNoted = view.phase === 'told' && note !== undefined && (view.sinceOnsetS ?? 0) < showsNoteS;
	return isNoted ? note : liveWords(view, seen, asked);
}

function askedWords({string, how, fret}: NonNullable<ReturnType<typeof askedPitch>>): string {
	if (how === 'harmonic') return `the harmonic of string ${string}`;
	return how === 'open' ? `string ${string}` : `string ${string} at fret ${fret ?? 12}`;
}

/** `string 3 −80.2 ±0.4, to +23.0`: the string that it is, if that is sure, else hertz. */
function liveWords(view: ListeningView, {bench}: Seen, asked: ReturnType<typeof askedPitch>): string {
	const {hz, sdCents = 0} = view;
	if (hz === undefined) return words.plucked;
	const up = asked ? semitonesUp(asked) : 0;
	const places = placesOf(bench, asked);
	const verdict = whichString({hz, sdCents}, places, {semitonesUp: up, ...(asked && {asked: asked.string})});
	const best =
		verdict.kind === 'string' ? verdict : verdict.why === 'another-string' ? verdict.candidates[0] : undefined;
	if (!best) return soundWords(view);
	const row = bench.strings.find(each => each.string === best.string)!;
	const cents = centsBetween(hz, row.targetHz * 2 ** (up / 12));
	const shown = view.phase === 'turning' ? formatCents(cents) : heardCents({mean: cents, sd: sdCents});
	const aim = best.string === asked?.string && asked.toCents !== undefined ? `, to ${aimWords(asked.toCents)}` : '';
	return `string ${best.string} ${shown}${aim}`;
}
