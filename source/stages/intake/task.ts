import type {Bench} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import type {InstrumentSheet} from '../../session/sheet.ts';
import {type CheckItem, checklistTask} from '../common/checklist.ts';
import {changeTask} from './change.ts';
import {type Field, fieldOf, fieldsFor} from './fields.ts';
import {afterAsk, afterLook, afterQuick, goTo, id, placeOf, quick} from './place.ts';
import {measurePlateTask} from '../common/measure-plate.ts';
import {springLengths} from './spring-lengths.ts';
import {testTask} from './test-turn.ts';
import type {Task} from '../stage.ts';
import {words} from './words.ts';

export const lookItems: readonly CheckItem[] = Object.values(words.look.items).map(text => ({
	id: `${id}: ${text.split(/[,;:]/)[0]}`,
	text,
}));

export function task(bench: Bench): Task {
	const place = placeOf(bench);
	switch (place.kind) {
		case 'quick':
			return quickTask(bench, place.field);
		case 'ask':
			return askTask(bench, place.field);
		case 'menu':
			return menuTask(bench);
		case 'look': {
			const {headline, why} = words.look;
			return checklistTask(lookItems, bench, {headline, why, progress: 0.7}, [goTo(afterLook(bench.sheet))]);
		}
		case 'before':
			return beforeTask(bench);
		case 'springs':
			return springsTask(bench);
		case 'test':
			return testTask(bench, place.step);
		case 'change':
			return changeTask(bench);
	}
}

function quickTask({sheet}: Bench, id: (typeof quick)[number]): Task {
	const field = fieldOf(id);
	const {headline, why} = words[id];
	return {
		headline,
		why,
		how: field.how(sheet),
		...asking(field, sheet),
		...enter(field.shown(sheet), [goTo(afterQuick(id))]),
		progress: quick.indexOf(id) / 8,
	};
}

/** Enter alone goes on without: the plate is then taken to stand as wished. */
function beforeTask(bench: Bench): Task {
	const {headline, why, enter: label} = words.before;
	return {...measurePlateTask(bench, {headline, why, progress: 0.8}), enter: {label, deeds: [goTo('change')]}};
}

/** Enter alone goes on without: the turns then stay as unsure as they are. */
function springsTask({sheet}: Bench): Task {
	const {headline, why, enter: label} = words.measureSprings;
	return {
		headline,
		why,
		how: springLengths.how(sheet),
		prompt: springLengths.label,
		example: springLengths.example(sheet),
		tableRests: true,
		...(springLengths.cautions && {cautions: springLengths.cautions}),
		enter: {label, deeds: [goTo('change')]},
		practice: {kind: 'measure-springs'},
		progress: 0.85,
	};
}

function askTask({sheet}: Bench, field: Field): Task {
	const {headline, why, now, enter: label} = words.ask;
	return {
		headline: headline(field.label),
		why,
		how: [now(field.shown(sheet)), ...field.how(sheet)],
		...asking(field, sheet),
		...(field.cautions && {cautions: field.cautions}),
		...enter(label, [goTo(afterAsk(field, false))]),
		progress: 0.5,
	};
}

function asking(field: Field, sheet: InstrumentSheet): Pick<Task, 'prompt' | 'example' | 'freeText' | 'tableRests'> {
	return {prompt: field.label, example: field.example(sheet), freeText: true, tableRests: true};
}

function menuTask({sheet, passedStages}: Bench): Task {
	const {headline, why, prompt, example, enter: label} = words.menu;
	return {
		headline,
		why,
		how: menuLines(sheet),
		prompt,
		example,
		freeText: true,
		tableRests: true,
		// Looked at once is enough; what a change will do is shown again.
		...enter(label, [goTo(passedStages.includes(id) ? afterLook(sheet) : 'look')]),
		progress: 0.5,
	};
}

/** Two lines of the menu side by side, so that all of them fit on a small screen. */
export function menuLines(sheet: InstrumentSheet): readonly string[] {
	const cells = fieldsFor(sheet).map((field, index) => `${index + 1} ${field.label}: ${field.shown(sheet)}`);
	const half = Math.ceil(cells.length / 2);
	const wide = 36;
	return cells.slice(0, half).map((cell, index) => {
		const other = cells[half + index];
		return other === undefined ? cell : `${cell.padEnd(wide)} ${other}`;
	});
}

function enter(label: string, deeds: readonly Deed[]): Pick<Task, 'enter' | 'practice'> {
	return {enter: {label, deeds}, practice: {kind: 'deeds', deeds}};
}
