import type {SetupSummary} from '../storage/store.ts';
import type {Stage} from '../stages/stage.ts';
import {fitTo} from '../terminal/fit.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {blank, cutLine, type Line, line, span} from '../terminal/line.ts';
import {type OpeningItem, openingItems} from './opening-items.ts';
import type {Opening} from './state.ts';

/** The first screen's lines above message and keys: as many rows as asked, the marked one among them. */
export function openingLines(
	opening: Opening,
	stages: readonly Stage[],
	{
		width,
		rows,
		glyphs,
		now,
	}: {readonly width: number; readonly rows: number; readonly glyphs: Glyphs; readonly now: number},
): readonly Line[] {
	const items = openingItems(opening);
	const head: readonly Line[] = [
		[span('evenfloat', 'accent'), span('  set up a guitar with a floating bridge, step by step', 'strong')],
		blank,
	];
	const drawn = items.map((item, at) => itemLine(item, at, at === opening.at, stages, {width, glyphs, now}));
	const firstKept = items.findIndex(({kind}) => kind === 'kept');
	const list =
		firstKept < 0
			? [...drawn, blank, line('Every answer is stored at once. Nothing is lost if you stop.', 'quiet')]
			: [
					...drawn.slice(0, firstKept),
					blank,
					line('Guitars and set-ups kept, newest first', 'quiet'),
					...drawn.slice(firstKept),
				];
	const marked = list.indexOf(drawn[opening.at]!);
	const room = Math.max(1, rows - head.length);
	const from = Math.min(Math.max(0, marked - room + 2), Math.max(0, list.length - room));
	return [...head, ...list.slice(from, from + room)].map(row => cutLine(row, width, glyphs.cut));
}

function itemLine(
	item: OpeningItem,
	at: number,
	isMarked: boolean,
	stages: readonly Stage[],
	{width, glyphs, now}: {readonly width: number; readonly glyphs: Glyphs; readonly now: number},
): Line {
	const number = at < 9 ? String(at + 1) : ' ';
	const mark = span(isMarked ? `${glyphs.current} ` : '  ', 'accent');
	return [mark, span(`${number}  `, 'accent'), ...itemWords(item, stages, isMarked, width - 5, now)];
}

function itemWords(item: OpeningItem, stages: readonly Stage[], isMarked: boolean, width: number, now: number): Line {
	const as = isMarked ? 'strong' : 'plain';
	switch (item.kind) {
		case 'new':
			return [span(fitTo('New set-up', 28), as), span('a guitar on the bench', 'quiet')];
		case 'practice':
			return [span(fitTo('Practise', 28), as), span('a simulated guitar; no hardware needed', 'quiet')];
		case 'resume':
			return [
				span(fitTo(`Go on: ${item.summary.guitarName}`, 28), as),
				span(placeWords(item.summary, stages, now), 'quiet'),
			];
		case 'kept':
			return [
				span(fitTo(item.summary.guitarName, Math.min(28, width - 30)), as),
				span(placeWords(item.summary, stages, now), 'quiet'),
			];
	}
}

function placeWords(
	{finished, stage, practice, changedAt, startedAt, id}: SetupSummary,
	stages: readonly Stage[],
	now: number,
): string {
	const place = finished ? 'done' : `at: ${stages.find(known => known.id === stage)?.title ?? 'the beginning'}`;
	const when = dayWords(Math.max(changedAt, startedAt), now);
	return [` ${place}`, when, practice ? 'practice' : '', id].filter(Boolean).join('  ');
}

/** `today 14:02`, `3 Nov 2026`: in the person's own time zone. */
export function dayWords(at: number, now: number): string {
	const then = new Date(at);
	const time = then.toLocaleTimeString('en-GB', {hour: '2-digit', minute: '2-digit'});
	if (then.toDateString() === new Date(now).toDateString()) return `today ${time}`;
	return then.toLocaleDateString('en-GB', {day: 'numeric', month: 'short', year: 'numeric'});
}
