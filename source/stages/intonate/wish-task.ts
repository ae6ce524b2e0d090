import type {Bench} from '../../session/bench.ts';
import {readCentsOffset, readSaddlePosition} from '../../session/entry/measures.ts';
import type {Deed} from '../../session/facts.ts';
import type {StringSheet} from '../../session/sheet.ts';
import {formatCents} from '../../units/cents.ts';
import {formatTypedLength} from '../../units/length.ts';
import {answerOf} from '../common/entry-answer.ts';
import {nameOf} from '../common/rows.ts';
import type {Answer, Task} from '../stage.ts';
import {noAside} from './aside.ts';
import {words} from './words.ts';

/** What each fretted 12th is wanted at, and how far each saddle can go: both of the instrument, both the person's to say. */
export function wishTask({sheet, strings}: Bench, progress: number): Task {
	const {wishes} = words;
	return {
		headline: wishes.headline,
		why: wishes.why,
		how: [
			...strings.map(row => {
				const {frettedOffsetCents = 0, saddleRangeMm} = sheet.strings[row.string - 1]!;
				const range = saddleRangeMm?.map(mm => formatTypedLength(mm, sheet.units)).join(' … ');
				return wishes.line(nameOf(row), formatCents(frettedOffsetCents), range);
			}),
			wishes.typeCents,
			wishes.typeTravel,
		],
		tableRests: true,
		prompt: wishes.prompt,
		example: '6: -2',
		enter: {label: wishes.enter, deeds: [noAside]},
		practice: {kind: 'deeds', deeds: [noAside]},
		progress,
	};
}

export function answerWish(text: string, bench: Bench, meant: boolean): Answer {
	const {sheet} = bench;
	const [, number, rest] = /^\s*(\d|all)\s*:\s*(.+)$/i.exec(text) ?? [];
	const isAll = number?.toLowerCase() === 'all';
	if (number === undefined || rest === undefined || !(isAll || sheet.strings[Number(number) - 1])) {
		return {kind: 'refused', said: words.wishes.notAWish(text.trim())};
	}
	const filled = (change: Partial<StringSheet>): readonly Deed[] => [
		{
			type: 'SheetFilled',
			sheet: {
				...sheet,
				strings: sheet.strings.map((row, index) => (isAll || index === Number(number) - 1 ? {...row, ...change} : row)),
			},
		},
	];
	const [, one, other] = /^travel\s+(.+?)\s*(?:\bto\b|…|\.\.)\s*(.+)$/i.exec(rest) ?? [];
	if (one === undefined || other === undefined) {
		return answerOf(readCentsOffset(rest), frettedOffsetCents => filled({frettedOffsetCents}), meant);
	}
	const [front, back] = [readSaddlePosition(one, sheet.units), readSaddlePosition(other, sheet.units)];
	if (front.kind === 'refused') return {kind: 'refused', said: front.said};
	if (back.kind === 'refused') return {kind: 'refused', said: back.said};
	if (front.value >= back.value) return {kind: 'refused', said: words.wishes.notARange(text.trim())};
	const doubtful = front.kind === 'doubtful' ? {...front, value: back.value} : back;
	return answerOf(doubtful, () => filled({saddleRangeMm: [front.value, back.value]}), meant);
}
