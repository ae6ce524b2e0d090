import type {Bench} from '../session/bench.ts';
import {wrapTo} from '../terminal/fit.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {type Line, line, type Span, span, spread, widthOf} from '../terminal/line.ts';
import {formatPercent} from '../units/quantities.ts';
import {shareDone, type Step, wayOf} from './place.ts';
import type {Stage} from '../stages/stage.ts';

/** First row: whose guitar, which step of how many, how much is done. */
export function headerLine(
	{
		bench,
		stages,
		progress,
		remark,
	}: {
		readonly bench: Bench;
		readonly stages: readonly Stage[];
		readonly progress: number;
		/** "look only", for a set-up that is open elsewhere. */
		readonly remark?: string | undefined;
	},
	{width, glyphs}: {readonly width: number; readonly glyphs: Glyphs},
): Line {
	const way = wayOf(bench, stages);
	const here = way.findIndex(({state}) => state === 'here');
	const share = shareDone(bench, stages, progress);
	const isPractice = bench.sheet.practiceSeed !== undefined;
	const left: Span[] = [span('evenfloat', 'accent'), span(`  ${bench.sheet.name}`, 'strong')];
	if (isPractice) left.push(span('  practice', 'quiet'));
	if (remark) left.push(span(`  ${remark}`, 'attention'));
	const step = here < 0 ? 'all steps done' : `${way[here]!.stage.title}, step ${here + 1} of ${way.length}`;
	return spread(
		left,
		[span(`${step}  `, 'strong'), ...gauge(share, 8, glyphs), span(` ${formatPercent(share)}`)],
		width,
		glyphs.cut,
	);
}

function gauge(share: number, cells: number, glyphs: Glyphs): Line {
	const full = Math.round(share * cells);
	return [span(glyphs.full.repeat(full), 'good'), span(glyphs.empty.repeat(cells - full), 'quiet')];
}

/**
 * Second row: every step by name, those behind ticked, this one marked. Where
 * there is no room, names give way: first of steps behind, then of those far
 * ahead; the marks stay, so that what is left can be counted.
 */
export function trailLine(
	way: readonly Step[],
	{width, glyphs}: {readonly width: number; readonly glyphs: Glyphs},
): Line {
	const here = way.findIndex(({state}) => state === 'here');
	const behind = way.map((_, index) => index).filter(index => index < here || here < 0);
	const ahead = way.map((_, index) => index).filter(index => index > here && here >= 0);
	const leaving = [...behind, ...ahead.toReversed()];
	for (let gone = 0; ; gone++) {
		const nameless = new Set(leaving.slice(0, gone));
		const pieces = way.flatMap((step, index) => trailPiece(step, nameless.has(index), glyphs, index > 0));
		if (widthOf(pieces) <= width || gone === leaving.length) return pieces;
	}
}

function trailPiece({stage, state}: Step, isNameless: boolean, glyphs: Glyphs, isGapped: boolean): Line {
	const gap = isGapped ? [span('  ')] : [];
	if (state === 'here') return [...gap, span(`${glyphs.current} ${stage.title}`, 'marked')];
	if (state === 'passed') return [...gap, span(isNameless ? glyphs.done : `${glyphs.done} ${stage.title}`, 'good')];
	return [...gap, span(isNameless ? glyphs.waiting : stage.title, 'quiet')];
}

/**
 * The one thing to do, bold behind a bar so that it is found from an arm's
 * length, and under it why. They share their rows: a short headline leaves
 * room for a long reason.
 */
export function taskLines(
	{headline, why}: {readonly headline: string; readonly why: string},
	{width, rows, glyphs}: {readonly width: number; readonly rows: number; readonly glyphs: Glyphs},
): readonly Line[] {
	const head = wrapTo(headline, width - 2, Math.max(1, rows - 1), glyphs.cut);
	const reason = wrapTo(why, width - 2, rows - head.length, glyphs.cut);
	const text: readonly Line[] = [...head.map(row => line(row, 'strong')), ...reason.map(row => line(row, 'quiet'))];
	return Array.from({length: rows}, (_, index) => [span(`${glyphs.beside} `, 'accent'), ...(text[index] ?? [])]);
}
