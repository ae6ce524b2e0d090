import type {Bench, StringRow} from '../session/bench.ts';
import {helpLines} from '../terminal/keys.ts';
import {asciiGlyphs} from '../terminal/glyphs.ts';
import {line, textOf} from '../terminal/line.ts';
import {formatCentsSpread, formatCentsUnit} from '../units/cents.ts';
import {formatLength} from '../units/length.ts';
import {formatForce, formatHertz, formatPercent} from '../units/quantities.ts';
import {forecastWords} from './forecast-lines.ts';
import {entryHelp} from './overlay-lines.ts';
import {helpKeys} from './sitting-keys.ts';
import {openingItems} from './opening-items.ts';
import {openingLines} from './opening-lines.ts';
import {shareDone, wayOf} from './place.ts';
import type {Ports} from './ports.ts';
import {actAhead, aimOf, moveAhead, seenBy} from './seen.ts';
import type {Opening, Sitting} from './state.ts';

/** What is said, and the prompt under it. */
export interface Spoken {
	readonly body: string;
	readonly prompt: string;
}

/** The task in sentences, most needed first. */
export function saySitting(sitting: Sitting, ports: Ports): Spoken {
	const seen = seenBy(sitting, ports);
	const {bench, stage, task} = seen;
	const way = wayOf(bench, ports.stages);
	const here = way.findIndex(({state}) => state === 'here');
	const place = stage ? `${stage.title}, step ${here + 1} of ${way.length}` : 'All steps done';
	const act = actAhead(seen, sitting.entry);
	const warning = act && forecastWords(act, bench.forecast(act), bench);
	const cautions = (task.cautions ?? []).filter(caution => !sitting.cautionsRead.includes(caution));
	const body = [
		'',
		`[${place}, ${formatPercent(shareDone(bench, ports.stages, task.progress))}]`,
		task.headline,
		task.why,
		...cautions.map(caution => `Caution: ${caution}`),
		...(task.how ?? []),
		...(warning ? [`Before you do: ${warning}`] : []),
	].join('\n');
	const ways = [
		task.enter ? `Enter: ${task.enter.label}` : '',
		moveAhead(seen, sitting.entry) ? `${task.freeText ? ':p' : 'p'}: the simulated hands do it` : '',
		'?: help',
	].filter(Boolean);
	const asked = sitting.writing === 'note' ? 'note' : task.prompt;
	const example = task.example && sitting.writing !== 'note' ? `, such as ${task.example}` : '';
	return {body, prompt: `${asked}${example} (${ways.join('; ')})>`};
}

export function sayOpening(opening: Opening, ports: Ports): Spoken {
	const count = openingItems(opening).length;
	const lines = openingLines({...opening, at: -1}, ports.stages, {
		width: 100,
		rows: count + 6,
		glyphs: asciiGlyphs,
		now: ports.now(),
	});
	const numbered = lines.map(textOf).map(text => text.trimEnd());
	return {
		body: numbered.join('\n'),
		prompt: opening.naming
			? 'new name>'
			: 'number of a line (?: help, n 4: name line 4, x 4: delete line 4, q: leave)>',
	};
}

/** Keys that can be typed on a line, from the table that handles them. */
export function sayHelp(sitting: Sitting, ports: Ports): string {
	const seen = seenBy(sitting, ports);
	const keys = helpKeys(sitting, seen).flatMap(binding => {
		const [first, ...rest] = binding.strokes.filter(stroke => stroke === 'enter' || /^[^ ]$/u.test(stroke));
		return first === undefined ? [] : [{...binding, strokes: [first, ...rest] as const}];
	});
	const words = [...helpLines(keys, 76), ...entryHelp.map(text => line(text))].map(textOf);
	return [...words, ...plainHelp, ...(seen.task.cautions ?? []).map(caution => `Caution: ${caution}`)].join('\n');
}

const plainHelp = [
	'table says where every string stands.',
	'Where words are asked for, a colon makes a key of a letter: :u takes back, :q leaves.',
];

/** The live table in sentences, one string a line. */
export function sayTable(bench: Bench): string {
	return [...bench.strings.map(row => sayRow(row, bench)), sayPlate(bench)].join('\n');
}

function sayRow(row: StringRow, {sheet: {units}}: Bench): string {
	const aim = aimOf(row);
	const parts = [
		`String ${row.string}, ${row.note} ${formatHertz(row.targetHz)}, ${row.state}`,
		row.now ? `stands at ${formatCentsSpread(row.now)} cents` : 'not known',
		row.lastReading
			? `last read ${formatCentsUnit(row.lastReading.cents)}, ${row.touchedSince} turned or moved since`
			: '',
		aim ? `aim ${formatCentsSpread(aim)} cents` : '',
		`tension ${formatForce(row.tensionN, units)}`,
		row.saddleMm === undefined ? '' : `saddle ${formatLength(row.saddleMm, units)}`,
		row.intonationCents ? `fretted 12th ${formatCentsSpread(row.intonationCents)} cents` : '',
	];
	return `${parts.filter(Boolean).join('; ')}.`;
}

function sayPlate({plate, sheet: {units}, blocked}: Bench): string {
	const now = blocked ? 'blocked' : `tail ${formatLength(plate.tailMm.mean, units, {signed: true})}`;
	return `Plate: ${now}; at pitch ${formatLength(plate.tailAtPitchMm.mean, units, {signed: true})}.`;
}
